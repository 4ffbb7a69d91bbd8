// Scenarios drawn at random, for tests over many cruises: sound ones, fouled ones, and the look-alikes of fouling, in the
// sizes explained in docs/simulation.md.
// Numbers without a source are judgement: docs/simulation.md gives the reasons.
import type { CellName } from "../cast/cast.js";
import { between, either, logUniform, pick, whole } from "./draws.js";
import type { SimulatedEvent } from "./events.js";
import { type RandomStream, randomStream } from "./random.js";
import { cleanings, inVain } from "./randomCleanings.js";
import type { Scenario } from "./scenario.js";

/**
 * `usual`: films, calibration, pressure, references, fronts. `all`: also transients, thermometer errors, odd thermal lag,
 * and failing pumps.
 */
type LookAlikes = "usual" | "all";

/** A scenario drawn at random. The same seed and choice give the same scenario. */
export function randomScenario(seed: number, lookAlikes: LookAlikes = "usual"): Scenario {
  const stream = randomStream(seed).split("scenario");
  const draw = stream.split("cruise");
  const casts = whole(draw, 12, 20);
  const cells: readonly CellName[] = draw.uniform() < 0.25 ? ["primary"] : ["primary", "secondary"];
  const deepest_dbar = 100 * whole(draw, 10, 40);
  const hoursBetweenCasts = between(draw, 4, 12);
  const bottles = whole(draw, 8, 16);
  const cruise = { casts, cells, deepest_dbar, lookAlikes };
  return {
    seed,
    casts,
    cells,
    deepest_dbar,
    hoursBetweenCasts,
    bottles,
    calibrationResidual_ppm: Object.fromEntries(
      cells.map((cell) => [cell, residual(stream.split("residual").split(cell))]),
    ),
    events: [
      ...cells.flatMap((cell) => imperfect(stream.split("imperfect").split(cell), cell)),
      ...cells.flatMap((cell, i) => cellEvents(stream.split(cell), cell, i === 0, cruise)),
      ...sharedEvents(stream.split("shared"), cruise),
    ],
  };
}

interface Drawn {
  readonly casts: number;
  readonly cells: readonly CellName[];
  readonly deepest_dbar: number;
  readonly lookAlikes: LookAlikes;
}

/** A fresh calibration holds 0.002, 51 ppm: two thirds of that are 2.3 standard deviations. */
function residual(draw: RandomStream): number {
  return Math.max(-34, Math.min(34, 15 * draw.normal()));
}

/**
 * No sound cell is perfect: its pressure response is within 30 ppm per 1000 dbar, most have much less [CruiseReports2021],
 * and its zero is off by a tenth of a uS/cm (judgement).
 */
function imperfect(draw: RandomStream, cell: CellName): readonly SimulatedEvent[] {
  const ppmPer1000dbar = Math.max(-16, Math.min(16, 7 * draw.normal()));
  const microsiemens_cm = 0.1 * draw.normal();
  return [
    { kind: "pressure-response", cell, ppmPer1000dbar },
    { kind: "additive-offset", cell, fromCast: 1, microsiemens_cm },
  ];
}

/** The possible faults of a cell, and their frequency in a hundred; the rest are sound. */
const shares = { step: 32, growth: 9, oldCalibration: 12, shift: 6, pressure: 7, other: 8 };
/** Frequency of faults of a second cell, relative to a first one. */
const secondFails = 0.4;

function cellEvents(
  draw: RandomStream,
  cell: CellName,
  first: boolean,
  cruise: Drawn,
): readonly SimulatedEvent[] {
  if (!first && draw.uniform() >= secondFails) return [];
  const lot = 100 * draw.uniform();
  const { step, growth, oldCalibration, shift, pressure, other } = shares;
  if (lot < step) return steps(draw, cell, cruise);
  if (lot < step + growth) return grown(draw, cell, cruise);
  if (lot < step + growth + oldCalibration)
    return [calibration(draw, cell, 1), ...inVain(draw, cell, cruise.casts)];
  if (lot < step + growth + oldCalibration + shift) {
    return [calibration(draw, cell, whole(draw, 3, cruise.casts - 2))];
  }
  const upToPressure = step + growth + oldCalibration + shift + pressure;
  if (lot < upToPressure) {
    return [
      { kind: "pressure-response", cell, ppmPer1000dbar: either(draw) * between(draw, 35, 90) },
    ];
  }
  if (cruise.lookAlikes === "all" && lot < upToPressure + other) return [odd(draw, cell, cruise)];
  return [];
}

/** One film, or two, each 30 to 1000 ppm, before a cast or within it; and the reaction of the crew. */
function steps(draw: RandomStream, cell: CellName, cruise: Drawn): readonly SimulatedEvent[] {
  const { casts, cells, deepest_dbar } = cruise;
  const both = cells.length > 1 && cell === "primary" && draw.uniform() < 0.15;
  const times =
    draw.uniform() < 0.25 ? [whole(draw, 2, 7), whole(draw, 8, casts)] : [whole(draw, 2, casts)];
  return times.flatMap((cast) => {
    const ppm = -logUniform(draw, 30, 1000);
    const within = draw.uniform() < 0.55;
    const leg = draw.uniform() < 0.6 ? ("down" as const) : ("up" as const);
    // There are more animals near the surface than at depth.
    const pressure_dbar = Math.round(logUniform(draw, 20, 0.95 * deepest_dbar));
    const step: SimulatedEvent = {
      kind: "film-step",
      cells: both ? cells : [cell],
      cast,
      at: within ? { leg, pressure_dbar } : "before-cast",
      ppm,
    };
    return [step, ...cleanings(draw, cast, casts)];
  });
}

function grown(draw: RandomStream, cell: CellName, cruise: Drawn): readonly SimulatedEvent[] {
  const fromCast = whole(draw, 2, Math.ceil(cruise.casts / 2));
  const growth: SimulatedEvent = {
    kind: "film-growth",
    cell,
    fromCast,
    ppmPerDay: -logUniform(draw, 10, 100),
  };
  return [growth, ...cleanings(draw, fromCast + whole(draw, 3, 5), cruise.casts)];
}

function calibration(draw: RandomStream, cell: CellName, fromCast: number): SimulatedEvent {
  return {
    kind: "calibration-shift",
    cell,
    fromCast,
    ppm: either(draw) * logUniform(draw, 90, 300),
  };
}

/** One of the rarer look-alikes. */
function odd(draw: RandomStream, cell: CellName, { casts, deepest_dbar }: Drawn): SimulatedEvent {
  const cast = whole(draw, 2, casts);
  const leg = draw.uniform() < 0.6 ? ("down" as const) : ("up" as const);
  // Early enough that it is gone before the cast ends.
  const pressure_dbar = Math.round(between(draw, 0.3, 0.9) * deepest_dbar);
  const kind = pick(draw, ["transient", "temperature-error", "thermal-lag", "flow-loss"] as const);
  switch (kind) {
    case "transient":
      return {
        kind,
        cells: [cell],
        cast,
        at: { leg, pressure_dbar },
        ppm: -logUniform(draw, 100, 3000),
        recovery_dbar: logUniform(draw, 10, 0.06 * deepest_dbar),
      };
    case "temperature-error":
      return { kind, cell, fromCast: cast, mK: either(draw) * logUniform(draw, 3, 15) };
    case "thermal-lag":
      return { kind, cells: [cell], cast, factor: between(draw, 2, 4) };
    case "flow-loss":
      return { kind, cells: [cell], cast, flow: between(draw, 0.1, 0.5) };
  }
}

/** The laboratory and the ocean are independent of the cell. */
function sharedEvents(draw: RandomStream, { casts }: Drawn): readonly SimulatedEvent[] {
  const events: SimulatedEvent[] = [];
  const run = whole(draw, 1, Math.ceil(casts / 2));
  const salinity = either(draw) * logUniform(draw, 0.004, 0.02);
  if (draw.uniform() < 0.2) events.push({ kind: "reference-offset", of: `run ${run}`, salinity });
  const contrast = logUniform(draw, 0.02, 0.2);
  const cast = whole(draw, 1, casts);
  if (draw.uniform() < 0.3) events.push({ kind: "front", cast, salinity: contrast });
  return events;
}
