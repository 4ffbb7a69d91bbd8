// A cell without flow. From entry until the pump runs it reads low (air, rinse water) or late. The layers of the soak are
// passed on the way down and up, so the same water shows the difference.
import type { CellColumns, CellName } from "../cast/cast.js";
import { spFromC } from "../seawater/index.js";
import { median } from "../statistics/robustCentre.js";
import { digits, ofCell, placeOf } from "./describe.js";
import type { HealthFinding } from "./finding.js";
import { plausibleFor } from "./plausibleFor.js";
import type { WaterPart } from "./waterPart.js";

/** Entry and soak end within this time, s (judgement). */
const entry_s = 300;
/** Water above this is compared with later passes, in layers of this thickness, dbar (judgement: usual depth of soaks). */
const deepest_dbar = 40;
const layer_dbar = 1;
/** Number of layers on either side for the variability of the water (judgement). */
const reach = 4;
/** Least difference, and the same as a multiple of the difference of later passes (judgement). */
const leastSalinity = 0.1;
const timesVaried = 3;
const leastTemperature_C = 0.1;
/** Least duration without flow, beginning within this time of entry, s (judgement). */
const least_s = 5;
const begins_s = 10;
/** This part of the following readings must agree (judgement). */
const agreeing = 0.8;
/**
 * Readings are averaged over this, s; coarser scans are used singly. With fewer references there is no result (judgement).
 */
const mean_s = 1;
const leastReferences = 10;

interface Means {
  readonly first: number[];
  readonly seconds: number[];
  readonly pressure: number[];
  readonly temperature: number[];
  readonly salinity: number[];
}

export function latePump(
  part: WaterPart,
  cell: CellName,
  readings: CellColumns,
): readonly HealthFinding[] {
  const { seconds, from, legs } = part;
  const entry = seconds[from]!;
  const lowering = legs.down[0];
  const soaked = legs.soaked && lowering !== undefined;
  // The pump may start during the soak or, without a soak, during the lowering.
  const end = soaked
    ? lowering
    : firstAfter(
        part,
        (i) => seconds[i]! > entry + entry_s || part.columns.pressure_dbar[i]! > deepest_dbar,
      );
  const early = meansOf(part, readings, from, end);
  const later = meansOf(part, readings, soaked ? end : Math.max(end, part.turn), part.to);
  const layers = layersOf(later);
  if (later.salinity.length < leastReferences) return [];
  const away = early.salinity.map((_, k) => awayFrom(layers, early, k));
  const known = Array.from(away.keys()).filter((k) => away[k] !== undefined);
  const bad = known.findIndex((k) => !away[k]!.beyond);
  const count = bad < 0 ? known.length : bad;
  if (count === 0) return [];
  const last = known[count - 1]!;
  const duration = early.seconds[last]! - entry;
  const rest = known.slice(count);
  const agrees = rest.filter((k) => !away[k]!.beyond).length >= agreeing * rest.length;
  if (early.seconds[known[0]!]! - entry > begins_s || duration < least_s || !agrees) return [];
  // Without a soak only a later leg shows the same water, so only impossible differences are reported.
  const size = median(known.slice(0, count).map((k) => away[k]!.salinity));
  const share = size / median(later.salinity);
  if (!soaked && !(share < -impossible)) return [];
  return [
    {
      kind: "late-pump",
      cell,
      sensor: "conductivity",
      ...placeOf(part, from, early.first[last]!),
      size: { value: size, unit: "PSS-78" },
      what: `For ${duration.toFixed(0)} s after entry the ${ofCell(cell, "conductivity")} gives a salinity ${digits(Math.abs(size))} too ${size < 0 ? "low" : "high"}. Later it gives the right salinity for the same water.`,
      mend: "Start the pump earlier or soak longer. Look for air in the plumbing. Do not use this part.",
      serious: true,
    },
  ];
}

/** Largest change of surface salinity between the legs at one temperature, as a share (judgement). */
const impossible = 0.3;

function firstAfter({ from, turn }: WaterPart, over: (scan: number) => boolean): number {
  for (let i = from; i < turn; i++) if (over(i)) return i;
  return turn;
}

const isConductivity = plausibleFor("conductivity");
const isTemperature = plausibleFor("temperature");

/** Means over a second of the scans above 40 dbar with possible readings. */
function meansOf(part: WaterPart, readings: CellColumns, from: number, to: number): Means {
  const { conductivity_mS_cm, temperature_C } = readings;
  const { seconds } = part;
  const pressure = part.columns.pressure_dbar;
  const means: Means = { first: [], seconds: [], pressure: [], temperature: [], salinity: [] };
  const size = Math.max(1, Math.round(mean_s / part.interval_s));
  for (let start = from; start < to; start += size) {
    if (!(pressure[start]! < deepest_dbar)) continue;
    const end = Math.min(to, start + size);
    let p = 0;
    let t = 0;
    let c = 0;
    let n = 0;
    for (let i = start; i < end; i++) {
      if (!(isConductivity(conductivity_mS_cm[i]!) && isTemperature(temperature_C[i]!))) continue;
      p += pressure[i]!;
      t += temperature_C[i]!;
      c += conductivity_mS_cm[i]!;
      n++;
    }
    const salinity = spFromC(c / n, t / n, p / n);
    if (Number.isNaN(salinity) || part.inAir(start)) continue;
    means.first.push(start);
    means.seconds.push(seconds[start]!);
    means.pressure.push(p / n);
    means.temperature.push(t / n);
    means.salinity.push(salinity);
  }
  return means;
}

interface WaterLayer {
  readonly salinity: number;
  readonly temperature: number;
  /** Greatest minus least, here and in the neighbouring layers. */
  readonly salinityVaries: number;
  readonly temperatureVaries: number;
}

/** By layer; undefined without a later scan. */
function layersOf(means: Means): readonly (WaterLayer | undefined)[] {
  const count = Math.ceil(deepest_dbar / layer_dbar);
  const inLayer = Array.from({ length: count }, () => [] as number[]);
  for (const [k, p] of means.pressure.entries()) inLayer[layerAt(p)]?.push(k);
  return inLayer.map((own, layer) => {
    if (own.length === 0) return undefined;
    const around = inLayer.slice(Math.max(0, layer - reach), layer + reach + 1).flat();
    return {
      salinity: median(own.map((k) => means.salinity[k]!)),
      temperature: median(own.map((k) => means.temperature[k]!)),
      salinityVaries: spread(around.map((k) => means.salinity[k]!)),
      temperatureVaries: spread(around.map((k) => means.temperature[k]!)),
    };
  });
}

function layerAt(pressure: number): number {
  return Math.floor(Math.max(0, pressure) / layer_dbar);
}

/** Difference from later passes at the same pressure; undefined without one, or in other water. */
function awayFrom(layers: readonly (WaterLayer | undefined)[], early: Means, k: number) {
  const layer = layers[layerAt(early.pressure[k]!)];
  if (layer === undefined) return undefined;
  const warmer = early.temperature[k]! - layer.temperature;
  if (Math.abs(warmer) > leastTemperature_C + layer.temperatureVaries) return undefined;
  const salinity = early.salinity[k]! - layer.salinity;
  return {
    salinity,
    beyond: Math.abs(salinity) > Math.max(leastSalinity, timesVaried * layer.salinityVaries),
  };
}

function spread(values: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return most - least;
}
