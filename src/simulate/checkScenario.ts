// Check the values of a scenario. A programmer writes it, so a fault is a RangeError with the value found.
import type { SimulatedEvent } from "./events.js";
import type { CompleteScenario, TimeInAir } from "./scenario.js";

/** The practical salinity scale ends at this pressure, dbar [UNESCO1983]. */
const deepestOfScale_dbar = 10_000;

/** A longer delay is a blocked cell rather than a misaligned one, s (judgement). */
const mostMisaligned_s = 5;

/** @throws RangeError */
export function checkScenario(scenario: CompleteScenario): void {
  const {
    casts,
    cells,
    deepest_dbar,
    bottlePressures_dbar,
    hoursBetweenCasts,
    sampling,
    laboratory,
  } = scenario;
  // Weeks of casts every few minutes (judgement); a misprint would fill the disk.
  require(Number.isInteger(casts) && casts >= 1 && casts <= 9999, "casts, 1 to 9999", casts);
  require(cells.length === 1 || cells.length === 2, "one or two cells", cells.length);
  require(cells[0] === "primary", "the first cell primary", cells[0]);
  require(cells[1] === undefined ||
    cells[1] === "secondary", "the second cell secondary", cells[1]);
  // A cast shallower than 10 dbar is useless (judgement).
  require(deepest_dbar >= 10 &&
    deepest_dbar <= deepestOfScale_dbar, "deepest_dbar, 10 to 10000", deepest_dbar);
  require(hoursBetweenCasts > 0, "hoursBetweenCasts above 0", hoursBetweenCasts);
  const step = sampling.kind === "averages" ? sampling.layer_dbar : sampling.rate_Hz;
  require(step > 0 && Number.isFinite(step), "layer_dbar or rate_Hz above 0", step);
  require(laboratory.castsPerRun >= 1, "castsPerRun of 1 or more", laboratory.castsPerRun);
  for (const [i, p] of bottlePressures_dbar.entries()) {
    const below = bottlePressures_dbar[i - 1] ?? deepest_dbar;
    require(p > 0 && p <= below, "bottle pressures from the deepest up, within the cast", p);
  }
  if (sampling.kind === "time-series") {
    for (const side of [sampling.deck?.before, sampling.deck?.after]) {
      if (side !== undefined) checkTimeInAir(side);
    }
  }
  for (const event of scenario.events) checkEvent(event, scenario);
}

function checkTimeInAir(time: TimeInAir): void {
  const { seconds, draining_s = 1, draining_microsiemens_cm = 0, left_microsiemens_cm = 0 } = time;
  require(seconds >= 0 && Number.isFinite(seconds), "seconds in air, 0 or more", seconds);
  require(draining_s > 0, "draining_s above 0", draining_s);
  for (const water of [draining_microsiemens_cm, left_microsiemens_cm]) {
    require(water >= 0 && Number.isFinite(water), "water in the cell, 0 uS/cm or more", water);
  }
}

function checkEvent(event: SimulatedEvent, scenario: CompleteScenario): void {
  const what = (expected: string) => `${event.kind}: ${expected}`;
  for (const cast of castsOf(event)) {
    require(Number.isInteger(cast) && cast >= 1 && cast <= scenario.casts, what(
      `a cast from 1 to ${scenario.casts}`,
    ), cast);
  }
  for (const cell of cellsOf(event)) {
    require(scenario.cells.includes(cell), what("a cell of this package"), cell);
  }
  if ("retained" in event) {
    require(event.retained >= 0 && event.retained <= 1, what("retained, 0 to 1"), event.retained);
  }
  if ("at" in event && event.at !== "before-cast") {
    const { pressure_dbar: p } = event.at;
    require(p >= 0 && p <= scenario.deepest_dbar, what("a pressure within the cast"), p);
  }
  if (event.kind === "film-step" || event.kind === "transient") {
    require(event.ppm <= 0 && event.ppm > -1e6, what(
      "ppm, negative: a film reads fresh",
    ), event.ppm);
  }
  if (event.kind === "film-growth") {
    require(event.ppmPerDay <= 0, what("ppmPerDay, negative: a film reads fresh"), event.ppmPerDay);
  }
  if (event.kind === "transient") {
    require(event.recovery_dbar > 0, what("recovery_dbar above 0"), event.recovery_dbar);
  }
  if (event.kind === "additive-offset") {
    require(Number.isFinite(event.microsiemens_cm), what(
      "microsiemens_cm, a number",
    ), event.microsiemens_cm);
  }
  if (event.kind === "air-reading") {
    const { water_microsiemens_cm: water = 0 } = event;
    require(water >= 0 && Number.isFinite(water), what("water, 0 uS/cm or more"), water);
  }
  if (event.kind === "flow-loss") {
    require(event.flow > 0 && event.flow < 1, what("flow above 0, below 1"), event.flow);
  }
  if (event.kind === "misalignment") {
    require(scenario.sampling.kind === "time-series", what("sampling of time-series"), scenario
      .sampling.kind);
    require(Math.abs(event.seconds) <= mostMisaligned_s, what("seconds, -5 to 5"), event.seconds);
  }
  if (event.kind === "leak") {
    require(event.share >= 0 && event.share <= 1, what("share, 0 to 1"), event.share);
  }
  const bottles =
    event.kind === "leak"
      ? [event.bottle]
      : event.kind === "mis-trip"
        ? [event.bottle, event.closedWith]
        : [];
  for (const bottle of bottles) {
    require(scenario.bottlePressures_dbar[bottle - 1] !== undefined, what(
      "a bottle of the cast",
    ), bottle);
  }
}

function castsOf(event: SimulatedEvent): readonly number[] {
  if ("cast" in event) return [event.cast];
  if ("fromCast" in event) return [event.fromCast];
  if ("afterCast" in event) return [event.afterCast];
  return event.kind === "reference-offset" && typeof event.of !== "string" ? event.of : [];
}

function cellsOf(event: SimulatedEvent) {
  if ("cell" in event) return [event.cell];
  return "cells" in event ? event.cells : [];
}

function require(holds: boolean, expected: string, found: unknown): asserts holds {
  if (!holds) throw new RangeError(`expected ${expected}; found ${String(found)}`);
}
