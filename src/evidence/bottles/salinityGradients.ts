// The vertical gradient of salinity at each bottle closure. The wake of the frame and a short stop put other water into the
// bottle than the cell measured, in proportion to this gradient. It is water from where the package came: from below on the
// way up, from above at the deepest stop.
import type { Bottle } from "../../cast/bottle.js";
import type { CellName } from "../../cast/cast.js";
import { joinLayers } from "../../cast/joinLayers.js";
import type { ThinLayers } from "../../cast/thinLayers.js";
import { spFromC } from "../../seawater/index.js";
import { closureReading } from "./closureReadings.js";

/** Default gradients: of stratified water in the upper ocean and of calm water below, per dbar (judgement). */
const unknown = { shallow: 0.01, deep: 0.0004, below_dbar: 200 };
/**
 * Closures nearer than this in pressure belong to one stop and show no gradient, dbar (judgement: about the reach of
 * swell).
 */
const oneStop_dbar = 5;
/** A layer is at most this share of a shallow cast (judgement). */
const shareOfLayer = 0.05;
/** A closure as near as this to the greatest pressure of the cast is at its deepest stop, dbar (judgement: swell). */
const deepestStop_dbar = 2.5;
/**
 * A bottle on the way exchanges its water over this distance, dbar: the share 1/e of what it held before stays in it. The usual
 * mismatch of a closure is as large (judgement, see bottleNoise.ts). A strong halocline is therefore felt well beyond it.
 */
const flushing_dbar = 2.5;
/** The limit of PSS-78 [UNESCO1983]: a reading beyond it is not of sea water and gives no gradient. */
const saltiest = 42;

/**
 * The change of salinity at each bottle towards where the package came from, per dbar: dSP/dp on the way up, -dSP/dp at the
 * deepest stop. From the CTD at the neighbouring closures of the cast, or from the layers of its up leg if there are scans.
 * @param cells cells that may be used, the first choice first
 * @returns one for each bottle; by default that of stratified water above 200 dbar, of calm water below
 */
export function salinityGradients(
  bottles: readonly Bottle[],
  cells: readonly CellName[],
  thin: ThinLayers | undefined,
): readonly number[] {
  if (bottles.length === 0) return [];
  const first = thin === undefined ? atClosures(bottles, cells) : ofLayers(thin, cells);
  // A cell that was off for a while produces a false gradient; the gradient of the water shows in both cells.
  const all = cells
    .map((cell) => (thin === undefined ? atClosures(bottles, [cell]) : ofLayers(thin, [cell])))
    .filter((levels) => levels.length === first.length);
  const deepest = thin?.deepest_dbar ?? Math.max(...bottles.map((one) => one.pressure_dbar));
  return bottles.map(({ pressure_dbar }) => {
    const cameFrom = pressure_dbar > deepest - deepestStop_dbar ? "above" : "below";
    const found = (all.length > 0 ? all : [first]).map((levels) =>
      slopeAt(levels, pressure_dbar, cameFrom),
    );
    const least = found.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
    return cameFrom === "above" ? -least : least;
  });
}

/** Salinity at a pressure. */
interface SalinityAtPressure {
  readonly pressure_dbar: number;
  readonly salinity: number;
}

function atClosures(
  bottles: readonly Bottle[],
  cells: readonly CellName[],
): readonly SalinityAtPressure[] {
  const levels: SalinityAtPressure[] = [];
  for (const bottle of bottles) {
    const { pressure_dbar } = bottle;
    for (const cell of cells) {
      const reading = closureReading(bottle, cell, undefined);
      if (reading === undefined) continue;
      const { conductivity_mS_cm, temperature_C } = reading;
      const level = {
        pressure_dbar,
        salinity: spFromC(conductivity_mS_cm, temperature_C, pressure_dbar),
      };
      // Otherwise it is not a reading of sea water, or the closure has no pressure.
      if (!isSeaWater(level)) continue;
      levels.push(level);
      break;
    }
  }
  return mergeStops(levels);
}

/** The up leg in layers about a stop wide; if a file has little of it, the down leg, whose gradients are good enough. */
function ofLayers(thin: ThinLayers, cells: readonly CellName[]): readonly SalinityAtPressure[] {
  const { thickness_dbar, span_dbar } = thin;
  const leg = span_dbar.up > span_dbar.down / 2 ? "up" : "down";
  const wanted = Math.min(oneStop_dbar, span_dbar[leg] * shareOfLayer);
  const stop = Math.max(1, Math.round(wanted / thickness_dbar)) * thickness_dbar;
  for (const cell of cells) {
    const { pressure_dbar, salinity } = joinLayers(thin.of(leg, cell), stop);
    const levels = Array.from(pressure_dbar, (pressure, k): SalinityAtPressure => {
      return { pressure_dbar: pressure, salinity: salinity[k]! };
    }).filter(isSeaWater);
    if (levels.length > 0) return levels;
  }
  return [];
}

function isSeaWater({ salinity }: SalinityAtPressure): boolean {
  return salinity >= 0 && salinity <= saltiest;
}

function mergeStops(levels: readonly SalinityAtPressure[]): readonly SalinityAtPressure[] {
  const merged: SalinityAtPressure[] = [];
  for (const level of [...levels].sort((a, b) => a.pressure_dbar - b.pressure_dbar)) {
    const last = merged.at(-1);
    if (last === undefined || level.pressure_dbar - last.pressure_dbar > oneStop_dbar) {
      merged.push(level);
    }
  }
  return merged;
}

/** The steepest slope beside a bottle, or the mean one of the water that it came through, if that is steeper. */
function slopeAt(
  levels: readonly SalinityAtPressure[],
  pressure_dbar: number,
  cameFrom: "below" | "above",
): number {
  if (levels.length < 2) return pressure_dbar < unknown.below_dbar ? unknown.shallow : unknown.deep;
  const away = ({ pressure_dbar: p }: SalinityAtPressure) => Math.abs(p - pressure_dbar);
  let nearest = 0;
  for (let i = 1; i < levels.length; i++) {
    if (away(levels[i]!) < away(levels[nearest]!)) nearest = i;
  }
  const beside = steeperSlope(levels, nearest);
  const through = slopeOfPath(levels, nearest, cameFrom);
  return Math.abs(through) > Math.abs(beside) ? through : beside;
}

/** dS/dp on the way to a level, each part with the share of its water that is still in the bottle. */
function slopeOfPath(
  levels: readonly SalinityAtPressure[],
  at: number,
  cameFrom: "below" | "above",
): number {
  const step = cameFrom === "below" ? 1 : -1;
  let share = 1;
  let sum = 0;
  for (let i = at; levels[i + step] !== undefined && share > 1e-9; i += step) {
    const [near, far] = [levels[i]!, levels[i + step]!];
    const dp = far.pressure_dbar - near.pressure_dbar;
    const left = share * Math.exp(-Math.abs(dp) / flushing_dbar);
    sum += ((far.salinity - near.salinity) / dp) * (share - left);
    share = left;
  }
  return sum;
}

/** dS/dp from a level to the one above it or below it, whichever is steeper; 0 if there is neither. */
export function steeperSlope(levels: readonly SalinityAtPressure[], at: number): number {
  const slope = (i: number) => {
    const above = levels[i];
    const below = levels[i + 1];
    if (above === undefined || below === undefined) return 0;
    return (below.salinity - above.salinity) / (below.pressure_dbar - above.pressure_dbar);
  };
  const [up, down] = [slope(at - 1), slope(at)];
  return Math.abs(up) > Math.abs(down) ? up : down;
}
