// Exchanged columns: temperature and conductivity of a cell, or the thermometers of two cells. The readers refuse files
// with exchanged columns of a cell. This is for columns from other sources, and for the thermometers, which a single cell
// cannot show.
import type { CellName } from "../cast/cast.js";
import { spFromC } from "../seawater/index.js";
import { median } from "../statistics/robustCentre.js";
import { type ColumnSummary, scansOfBlock } from "./columnSummary.js";
import { digits, placeOf } from "./describe.js";
import type { HealthFinding } from "./finding.js";
import { quickScans, type WaterPart } from "./waterPart.js";

/** Number of readings examined, evenly spread (judgement: speed). */
const sample = 500;
/** PSS-78 (common practice, no source). */
const oceanic = (sp: number) => sp >= 28 && sp <= 42;
/** Sea water is warmer than this only at vents, degree C (from memory). */
const warmest_C = 36;
/** Estuary water can look like exchanged columns, warm and fresh, but not deeper than this, dbar (judgement). */
const estuariesEnd_dbar = 50;
/** A lower conductivity, mS/cm, is a fresh lake (judgement). */
const lake_mS_cm = 1.5;

/** Temperature in the column of conductivity, recognised by the resulting salinity. */
export function exchangedInCell(part: WaterPart, cell: CellName): readonly HealthFinding[] {
  const { temperature_C, conductivity_mS_cm } = part.columns[cell]!;
  const { pressure_dbar } = part.columns;
  const stride = Math.max(1, Math.floor((part.to - part.from) / sample));
  const given: number[] = [];
  const exchanged: number[] = [];
  const temperature: number[] = [];
  const conductivity: number[] = [];
  let deepest = 0;
  for (let i = part.from; i < part.to; i += stride) {
    const t = temperature_C[i]!;
    const c = conductivity_mS_cm[i]!;
    const p = pressure_dbar[i]!;
    given.push(spFromC(c, t, p));
    exchanged.push(spFromC(t, c, p));
    temperature.push(t);
    conductivity.push(c);
    // Deeper than any trench, dbar (common practice, no source).
    if (p > deepest && p < 12000) deepest = p;
  }
  const usual = median(conductivity);
  const likely =
    median(temperature) > warmest_C || (deepest > estuariesEnd_dbar && !(usual < lake_mS_cm));
  if (!likely || oceanic(median(given)) || !oceanic(median(exchanged))) return [];
  return [
    {
      kind: "exchanged-columns",
      cell,
      sensor: "conductivity",
      ...placeOf(part, part.from, part.to - 1),
      size: { value: median(exchanged), unit: "PSS-78 when exchanged back" },
      what: `Temperature and conductivity of the ${cell} cell imply salinity ${digits(median(given))}, and ${digits(median(exchanged))} when exchanged.`,
      mend: "Exchange the two columns.",
      serious: true,
    },
  ];
}

/**
 * Number of blocks used, with the largest changes of temperature; number of evenly spaced ones searched; fewest that are
 * sufficient (judgement: speed).
 */
const mostBlocks = 100;
const blocksSeen = 1000;
const leastBlocks = 8;
/** The exchange must reduce the unexplained part by this factor, for both cells (judgement). */
const better = 0.5;
/** Changes are taken over this, s (judgement: the sensors have responded by then). */
const over_s = 0.2;

/**
 * Exchanged thermometers of the two cells: the fine changes of a cell then agree with the other thermometer. This is
 * visible only if the water differs from one intake to the other, at 4 Hz or more.
 */
export function exchangedThermometers(
  part: WaterPart,
  temperature: ColumnSummary,
  otherTemperature: ColumnSummary,
): readonly HealthFinding[] {
  const { primary, secondary } = part.columns;
  if (secondary === undefined || !quickScans(part)) return [];
  const blocks = busiestBlocks(temperature, otherTemperature);
  if (blocks.length < leastBlocks) return [];
  const lag = Math.max(1, Math.round(over_s / part.interval_s));
  const unexplained = (c: Float64Array, t: Float64Array) =>
    unexplainedShare(c, t, temperature, blocks, lag);
  const [c1, t1] = [primary.conductivity_mS_cm, primary.temperature_C];
  const [c2, t2] = [secondary.conductivity_mS_cm, secondary.temperature_C];
  const first = unexplained(c1, t2) / unexplained(c1, t1);
  const second = unexplained(c2, t1) / unexplained(c2, t2);
  if (!(first < better && second < better)) return [];
  return [
    {
      kind: "exchanged-columns",
      sensor: "temperature",
      ...placeOf(part, part.from, part.to - 1),
      size: { value: Math.max(first, second), unit: "of what is left unexplained now" },
      what: `Each cell follows the other cell's thermometer. With the two exchanged, the unexplained part of conductivity falls to ${digits(100 * first)} and ${digits(100 * second)} %.`,
      mend: "Exchange the two temperature columns, or the plugs of the two thermometers.",
      serious: true,
    },
  ];
}

/** The blocks with the largest changes of both thermometers, without a jump in either. */
function busiestBlocks(a: ColumnSummary, b: ColumnSummary): readonly number[] {
  // White noise has no change of this many times its mean (judgement).
  const even = (survey: ColumnSummary, k: number) => survey.most[k]! < 6.5 * survey.mean[k]!;
  const stride = Math.max(1, Math.floor(a.mean.length / blocksSeen));
  return Array.from({ length: Math.ceil(a.mean.length / stride) }, (_, k) => k * stride)
    .filter((k) => even(a, k) && even(b, k))
    .sort((j, k) => a.mean[k]! - a.mean[j]!)
    .slice(0, mostBlocks);
}

/** 1 minus the squared correlation of the changes of two columns over `lag` scans. */
function unexplainedShare(
  a: Float64Array,
  b: Float64Array,
  survey: ColumnSummary,
  blocks: readonly number[],
  lag: number,
): number {
  let aa = 0;
  let bb = 0;
  let ab = 0;
  for (const k of blocks) {
    const [start, end] = scansOfBlock(survey, k);
    for (let i = Math.max(survey.from + 2 * lag, start); i < end; i++) {
      const da = a[i]! - 2 * a[i - lag]! + a[i - 2 * lag]!;
      const db = b[i]! - 2 * b[i - lag]! + b[i - 2 * lag]!;
      const product = da * db;
      if (Number.isNaN(product)) continue;
      aa += da * da;
      bb += db * db;
      ab += product;
    }
  }
  return 1 - (ab * ab) / (aa * bb);
}
