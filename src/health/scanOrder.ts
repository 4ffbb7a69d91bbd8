// Legs in another order than lowering, then hoisting.

import { type ColumnSummary, scansOfBlock } from "./columnSummary.js";
import { placeOf } from "./describe.js";
import type { HealthFinding } from "./finding.js";
import type { WaterPart } from "./waterPart.js";

/** Least jump within one scan: share of the cast, and dbar (judgement). */
const leapShare = 0.5;
const leastLeap_dbar = 10;
/** Number of readings on either side that must confirm the jump, because one outlier is not a jump (judgement). */
const borneOut = 5;
/** If beginning and end are both deeper than this share of the cast, it was hoisted first, then lowered (judgement). */
const deepShare = 0.7;

/** Number of scans searched, evenly spaced (judgement: speed). */
const sample = 5000;

/** @param survey of the pressure */
export function scanOrder(part: WaterPart, survey: ColumnSummary): readonly HealthFinding[] {
  const pressure = part.columns.pressure_dbar;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  let shallowest = part.from;
  const stride = Math.max(1, Math.floor((part.to - part.from) / sample));
  for (let i = part.from; i < part.to; i += stride) {
    const p = pressure[i]!;
    // Outside a gauge's zero in air and any trench, dbar (judgement).
    if (p < -20 || p > 12000) continue;
    if (p > most) most = p;
    if (p < least) {
      least = p;
      shallowest = i;
    }
  }
  const range = most - least;
  if (!(range > leastLeap_dbar)) return [];
  const leap = leapOf(part, survey, leapShare * range);
  if (leap !== undefined) {
    const { at, upward } = leap;
    return [
      finding(
        part,
        Math.abs(pressure[at]! - pressure[at - 1]!),
        upward
          ? `Pressure falls from ${pressure[at - 1]!.toFixed(0)} to ${pressure[at]!.toFixed(0)} dbar within one scan and then rises again. Both legs are written from the surface downward.`
          : `Pressure jumps from ${pressure[at - 1]!.toFixed(0)} to ${pressure[at]!.toFixed(0)} dbar within one scan. The legs do not meet at the turn.`,
        upward
          ? "Write the second leg in the order of time, the deepest scan first. Or give it as a cast of its own."
          : "Write the scans in the order of time.",
      ),
    ];
  }
  const deep = (i: number) => pressure[i]! > least + deepShare * range;
  if (!(deep(part.from) && deep(part.to - 1)) || deep(shallowest)) return [];
  return [
    finding(
      part,
      range,
      `The legs are in the wrong order. The cast begins and ends deep and is shallowest between, at ${least.toFixed(0)} dbar.`,
      "Write the scans in the order of time: the way down, then the way up.",
    ),
  ];
}

function leapOf({ columns, from, to }: WaterPart, survey: ColumnSummary, least: number) {
  const pressure = columns.pressure_dbar;
  for (let b = 0; b < survey.most.length; b++) {
    // A jump is a large second difference, also in the first scan of the next block.
    if (survey.most[b]! < least / 2) continue;
    const [start, end] = scansOfBlock(survey, b);
    const last = Math.min(to - borneOut, end);
    for (let i = Math.max(from + borneOut, start - 1); i < last; i++) {
      const step = pressure[i]! - pressure[i - 1]!;
      if (!(Math.abs(step) > least)) continue;
      const before = pressure[i - borneOut]!;
      const after = pressure[i + borneOut - 1]!;
      const holds =
        Math.abs(before - pressure[i - 1]!) < least / 2 &&
        Math.abs(after - pressure[i]!) < least / 2;
      if (holds && (step > 0 || after >= pressure[i]!)) return { at: i, upward: step < 0 };
    }
  }
  return undefined;
}

function finding(part: WaterPart, leap: number, what: string, mend: string): HealthFinding {
  return {
    kind: "scan-order",
    sensor: "pressure",
    ...placeOf(part, part.from, part.to - 1),
    size: { value: leap, unit: "dbar" },
    what,
    mend,
    serious: true,
  };
}
