// The least variance with which a cell's gain could be known from the same observations: what happened, when and where is
// told beforehand, to the cells, to the references and to the water; only the sizes are estimated, from a rough idea of
// them (the posterior variance of the linear Gaussian problem, which is the Bayesian Cramer-Rao bound [VanTrees1968]).
import type { CellName } from "../../src/cast/cast.js";
import { wakeDepth_dbar } from "../../src/evidence/bottles/bottleNoise.js";
import { designRow, gainRow } from "../../src/model/designRow.js";
import {
  add,
  addVariance,
  assign,
  condition,
  type Gaussian,
  projected,
  redraw,
  widen,
} from "../../src/model/gaussian.js";
import { type CellSlot, cellIndex, type Layout, sharedIndex } from "../../src/model/layout.js";
import { usualNoise } from "../../src/model/noise.js";
import { gainForSalinity } from "../../src/model/salinityError.js";
import type { CompleteScenario, Truth } from "../../src/simulate/index.js";
import { referenceOffset } from "../../src/simulate/trueCauses.js";
import { layoutOf, startOf } from "../../src/track/layout.js";
import { predictSharedErrors } from "../../src/track/predict.js";
import { daysBetween, type TrackedInput } from "../../src/track/tracked.js";

/** A size is told to within a factor: this much of it, and at least so many of its unit, as a spread. */
const share = 2;
const least = { ppm: 20, ppm_day: 5, ppm_1000dbar: 8 };
/** No sound cell is perfect: its calibration, ppm, its answer to pressure, ppm per 1000 dbar, its zero, uS/cm. */
const sound = { clean: 20, pressure: 8, additive: 0.1 };

/** Standard deviation of each cell's gain as each up leg ends: bounds[cast][cell index], ppm. */
export function bounds(
  cells: readonly CellName[],
  inputs: readonly TrackedInput[],
  scenario: CompleteScenario,
  truth: Truth,
): readonly (readonly number[])[] {
  const layout = layoutOf(cells);
  const state = startOf(layout);
  redraw(state, sharedIndex(layout, "wake"), 0, wakeDepth_dbar.sd ** 2);
  return inputs.map((input, i) => {
    const before = inputs[i - 1];
    const { evolutions, observations } = input;
    const sameRun = evolutions.run?.kind === "constant";
    predictSharedErrors(layout, state, evolutions, usualNoise(layout.sharedErrors));
    const loosen = (slot: string, size: number) =>
      addVariance(state, sharedIndex(layout, slot), (share * size) ** 2);
    const ppm = (salinity: number) => gainForSalinity(Math.abs(salinity));
    if (!sameRun) loosen("run", ppm(referenceOffset(scenario, i + 1)));
    for (const event of scenario.events)
      if (event.kind === "front" && event.cast === i + 1) loosen("legsWater", ppm(event.salinity));
    for (const cell of cells)
      advance(layout, state, cell, i, daysBetween(before, input), scenario, truth);
    const onsets = Object.fromEntries(
      cells.flatMap((cell) => {
        const onset = truth[i]!.cells[cell]!.onset;
        return onset === undefined ? [] : [[cell, onset]];
      }),
    );
    for (const observation of observations) {
      condition(state, designRow(layout, observation, { onsets }), 0, observation.variance);
    }
    return cells.map((cell) => Math.sqrt(projected(state, gainRow(layout, cell, "up")).variance));
  });
}

/** What is told to have changed since the last cast gets a free size; what did not carries over. */
function advance(
  layout: Layout,
  state: Gaussian,
  cell: CellName,
  i: number,
  days: number,
  { events }: CompleteScenario,
  truth: Truth,
): void {
  const now = truth[i]!.cells[cell]!;
  const before = truth[i - 1]?.cells[cell];
  const at = (slot: CellSlot) => cellIndex(layout, cell, slot);
  /** @param size in units of the slot; nothing happened where it is 0 */
  const loosen = (size: number, smallest: number, ...slots: CellSlot[]) => {
    if (Math.abs(size) < 1e-9) return;
    const direction = new Float64Array(layout.size);
    for (const slot of slots) direction[at(slot)] = 1;
    widen(state, direction, 0, Math.max(smallest, share * Math.abs(size)) ** 2);
  };
  if (i === 0) {
    redraw(state, at("clean"), 0, sound.clean ** 2);
    redraw(state, at("pressure"), 0, sound.pressure ** 2);
    redraw(state, at("offset"), 0, sound.additive ** 2);
    loosen(now.pressureResponse, least.ppm_1000dbar, "pressure");
  }
  const own = events.filter((event) => "cell" in event && event.cell === cell);
  for (const event of own)
    if (event.kind === "calibration-shift" && event.fromCast === i + 1)
      loosen(event.ppm, least.ppm, "clean");
  assign(state, at("filmDown"), at("filmUp"), 1, 0);
  let grown = 0;
  for (const event of own) {
    if (event.kind !== "film-growth" || i === 0 || i + 1 < event.fromCast) continue;
    if (i + 1 > (event.untilCast ?? Number.POSITIVE_INFINITY)) continue;
    if (i === Math.max(1, event.fromCast - 1)) loosen(event.ppmPerDay, least.ppm_day, "filmRate");
    grown += event.ppmPerDay * days;
  }
  if (grown !== 0) add(state, at("filmDown"), at("filmRate"), days);
  assign(state, at("filmUp"), at("filmDown"), 1, 0);
  loosen(now.film.down - (before?.film.up ?? 0) - grown, least.ppm, "filmDown", "filmUp");
  loosen(now.film.up - now.film.down, least.ppm, "filmUp");
}
