// How fast salinity changes with depth where each bottle closed: the wake of the frame and a short stop
// put other water into the bottle than the cell saw, in proportion to this.
import { believablePressure } from "../cast/believablePressure.js";
import type { Bottle } from "../cast/bottle.js";
import type { Cast, CellName } from "../cast/cast.js";
import { indexOfDeepest } from "../cast/indexOfDeepest.js";
import { spFromC, spFromCColumn } from "../seawater/index.js";
import { closureReading } from "./closureReadings.js";

/** Where nothing tells, the gradient of stratified water in the upper ocean and of calm water below, per dbar (judgement). */
const unknown = { shallow: 0.01, deep: 0.0004, below_dbar: 200 };
/** Closures nearer than this in pressure are of one stop and show no gradient, dbar. */
const oneStop_dbar = 5;
/** Where PSS-78 ends [UNESCO1983]: a reading beyond it is of no sea water and says nothing of its neighbours. */
const saltiest = 42;

/**
 * dSP/dp at each bottle, per dbar, positive where it grows saltier downward, from the CTD at the neighbouring
 * closures of the cast, or from the scans of its up leg where the cast is at hand.
 * @returns one a bottle; where nothing tells, that of stratified water above 200 dbar, of calm water below
 */
export function salinityGradients(
  bottles: readonly Bottle[],
  cells: readonly CellName[],
  cast: Cast | undefined,
): readonly number[] {
  if (bottles.length === 0) return [];
  const profile = cast === undefined ? closureProfile(bottles, cells) : castProfile(cast, cells);
  return bottles.map((bottle) => steepestNeighbour(profile, bottle.pressure_dbar));
}

interface Level {
  readonly pressure: number;
  readonly salinity: number;
}

function closureProfile(bottles: readonly Bottle[], cells: readonly CellName[]): readonly Level[] {
  const levels: Level[] = [];
  for (const bottle of bottles) {
    for (const cell of cells) {
      const reading = closureReading(bottle, cell, undefined);
      if (reading === undefined) continue;
      const pressure = bottle.pressure_dbar;
      const salinity = spFromC(reading.conductivity_mS_cm, reading.temperature_C, pressure);
      // Otherwise no sea water reads so, or the closure has no pressure.
      if (!(salinity >= 0 && salinity <= saltiest)) continue;
      levels.push({ pressure, salinity });
      break;
    }
  }
  return mergeStops(levels);
}

/** The up leg in layers a stop wide. */
function castProfile(cast: Cast, cells: readonly CellName[]): readonly Level[] {
  const { pressure } = believablePressure(cast.columns.pressure_dbar);
  const columns = cells.map((cell) => cast.columns[cell]).find((found) => found !== undefined);
  if (columns === undefined) return [];
  const deepest = indexOfDeepest(pressure);
  // A file of the down leg alone ends at its deepest scan; its gradients serve as well.
  const turn = deepest > 0.9 * pressure.length ? 0 : deepest;
  const passed = pressure.subarray(turn);
  const salinity = spFromCColumn(
    columns.conductivity_mS_cm.subarray(turn),
    columns.temperature_C.subarray(turn),
    passed,
  );
  const stops = Math.max(0, Math.floor(pressure[deepest]! / oneStop_dbar)) + 1;
  const sums = new Float64Array(stops);
  const counts = new Uint32Array(stops);
  for (let i = 0; i < passed.length; i++) {
    const stop = Math.floor(passed[i]! / oneStop_dbar);
    if (!(stop >= 0 && salinity[i]! >= 0 && salinity[i]! <= saltiest)) continue;
    sums[stop]! += salinity[i]!;
    counts[stop]!++;
  }
  const levels: Level[] = [];
  for (let stop = 0; stop < stops; stop++) {
    if (counts[stop]! === 0) continue;
    levels.push({ pressure: (stop + 0.5) * oneStop_dbar, salinity: sums[stop]! / counts[stop]! });
  }
  return levels;
}

function mergeStops(levels: readonly Level[]): readonly Level[] {
  const merged: Level[] = [];
  for (const level of [...levels].sort((a, b) => a.pressure - b.pressure)) {
    const last = merged.at(-1);
    if (last === undefined || level.pressure - last.pressure > oneStop_dbar) merged.push(level);
  }
  return merged;
}

function steepestNeighbour(profile: readonly Level[], pressure: number): number {
  if (profile.length < 2) return pressure < unknown.below_dbar ? unknown.shallow : unknown.deep;
  let nearest = 0;
  for (const [i, level] of profile.entries()) {
    if (Math.abs(level.pressure - pressure) < Math.abs(profile[nearest]!.pressure - pressure)) {
      nearest = i;
    }
  }
  const slope = (i: number) => {
    const above = profile[i];
    const below = profile[i + 1];
    if (above === undefined || below === undefined) return 0;
    return (below.salinity - above.salinity) / (below.pressure - above.pressure);
  };
  const [up, down] = [slope(nearest - 1), slope(nearest)];
  return Math.abs(up) > Math.abs(down) ? up : down;
}
