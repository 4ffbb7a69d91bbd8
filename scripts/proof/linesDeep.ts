// The deep water by itself, the first cell alone. Against the cruise's own curve it shows how the gain has changed since
// the casts before, on which it is taken as known; the water walks as the tracker lets it. Against a table it shows the
// gain itself on the first cast of a cruise, so that each cruise tries the table once: its rows are the simulator's mean
// water, off by an error of their own, and the station lies from it by what stations differ by.

import type { DeepReference } from "../../src/cast/deepReference.js";
import { splitLegs } from "../../src/cast/splitLegs.js";
import {
  type DeepWaterMemory,
  deepWaterEvidence,
  noDeepWaterYet,
} from "../../src/evidence/deepWater/deepWater.js";
import type { DeepWaterStep } from "../../src/evidence/deepWater/deepWaterNoise.js";
import { designRow } from "../../src/model/designRow.js";
import {
  certainZero,
  condition,
  copyOf,
  type Gaussian,
  projected,
  redraw,
} from "../../src/model/gaussian.js";
import { cellIndex } from "../../src/model/layout.js";
import { usualNoise } from "../../src/model/noise.js";
import {
  completed,
  randomStream,
  type Scenario,
  simulateCruise,
  waterOf,
} from "../../src/simulate/index.js";
import { legTimes } from "../../src/simulate/legTimes.js";
import { oceans, type Station } from "../../src/simulate/oceans.js";
import { layoutOf } from "../../src/track/layout.js";
import { predictSharedErrors } from "../../src/track/predict.js";
import { type MadeCast, unknown_ppm } from "./linesBound.js";
import { changeBound, type DeepDatum, deepDatum } from "./linesBoundDeep.js";
import { type Found, tableRow } from "./linesTable.js";

/** Cruises of many casts, and of one. */
const designs = [
  { deepest_dbar: 2000, cruises: 15, single: 300 },
  { deepest_dbar: 5000, cruises: 8, single: 160 },
];
const casts = 20;
const firstSeed = 2001;
const primary_ppm = -40;
/** Of the table as a whole, and of a station from it, PSS-78: what the simulator's stations differ by. */
const table = { standardUncertainty: 0.0005, walk: 0.0015 };

const cells = ["primary"] as const;
const layout = layoutOf(cells);

/** Rows of the table, under a heading. */
export function deepReport(): string {
  const rows = designs.flatMap(({ deepest_dbar, cruises, single }) => {
    const scenario = (seed: number, casts: number): Scenario => ({
      seed,
      casts,
      deepest_dbar,
      calibrationResidual_ppm: { primary: primary_ppm },
    });
    const seeds = (n: number) => Array.from({ length: n }, (_, i) => firstSeed + i);
    const along = seeds(cruises).flatMap((seed) => changes(scenario(seed, casts)));
    const against = seeds(single).flatMap((seed) => againstTable(scenario(seed, 1)));
    return [
      tableRow(`own curve, change, to ${deepest_dbar} dbar`, cruises * (casts - 1), along),
      tableRow(`a table, to ${deepest_dbar} dbar`, single, against),
    ];
  });
  return ["deep water, open ocean, averages of 10 dbar", ...rows].join("\n");
}

/** What the water says of each cast after the first. */
function changes(scenario: Scenario): readonly Found[] {
  let memory: DeepWaterMemory = noDeepWaterYet;
  const state = certainZero(layout.size);
  const data: DeepDatum[] = [];
  return madeOf(scenario).flatMap((made, i): readonly Found[] => {
    const {
      lines,
      step,
      memory: next,
    } = deepWaterEvidence(made.data, splitLegs(made.data), cells, memory);
    memory = next;
    const before = data.slice();
    data.push(deepDatum(made, secondsBetween(made)));
    if (step === undefined) return [];
    passDeepWater(state, step);
    const observations = lines.flatMap((line) => line.observations);
    const { mean, variance } = gainNow(state, observations);
    for (const one of observations) {
      condition(state, designRow(layout, one, {}), one.value, one.variance);
    }
    if (i === 0) return [];
    return [
      {
        error: mean,
        standardUncertainty: Math.sqrt(variance),
        bound: changeBound(before, data.at(-1)!),
      },
    ];
  });
}

function againstTable(scenario: Scenario): readonly Found[] {
  return madeOf(scenario).flatMap((made): readonly Found[] => {
    const reference = tableFor(made);
    const { lines, step } = deepWaterEvidence(
      made.data,
      splitLegs(made.data),
      cells,
      noDeepWaterYet,
      reference,
    );
    if (step === undefined) return [];
    const state = certainZero(layout.size);
    passDeepWater(state, step);
    const { mean, variance } = gainNow(
      state,
      lines.flatMap((line) => line.observations),
    );
    const datum = deepDatum(made, secondsBetween(made));
    const ofTable = (datum.water * table.standardUncertainty) / table.walk;
    return [
      {
        error: mean - primary_ppm,
        standardUncertainty: Math.sqrt(variance),
        bound: datum.variance + datum.water ** 2 + ofTable ** 2,
      },
    ];
  });
}

/** In place: deep water walks on, or starts anew, and the errors of one cast are redrawn. */
function passDeepWater(state: Gaussian, { walk_ppm2, restart }: DeepWaterStep): void {
  const deepWater = restart
    ? ({ kind: "independent", variance: walk_ppm2 } as const)
    : ({ kind: "random-walk", variance: 3 * walk_ppm2 } as const);
  const evolutions = { deepWater, run: { kind: "constant" } } as const;
  predictSharedErrors(layout, state, evolutions, usualNoise(layout.sharedErrors));
}

function gainNow(known: Gaussian, observations: readonly Parameters<typeof designRow>[1][]) {
  const state = copyOf(known);
  const asked = cellIndex(layout, "primary", "clean");
  redraw(state, asked, 0, unknown_ppm ** 2);
  for (const one of observations) {
    condition(state, designRow(layout, one, {}), one.value, one.variance);
  }
  const row = new Float64Array(layout.size);
  row[asked] = 1;
  return projected(state, row);
}

function madeOf(scenario: Scenario): readonly MadeCast[] {
  const complete = completed(scenario);
  const { cruise, truth } = simulateCruise(scenario);
  return truth.map((own, i) => ({
    scenario: complete,
    cast: i + 1,
    water: waterOf(complete, i + 1),
    truth: own.cells.primary!,
    data: cruise.casts[i]!.data!,
  }));
}

function secondsBetween({ scenario }: MadeCast): (pressure_dbar: number) => number {
  const time = legTimes(scenario);
  return (p) => time("up", p) - time("down", p);
}

/** The mean water of the invented ocean from 1000 dbar down, all of it off by one error. */
function tableFor({ scenario }: MadeCast): DeepReference {
  const ocean = oceans[scenario.ocean];
  const mean: Station = [0, 0, 0, 0];
  const rows = Array.from({ length: Math.ceil(scenario.deepest_dbar / 20) }, (_, i) =>
    ocean.belowMixed(1000 + 20 * i, mean),
  );
  const off = table.standardUncertainty * randomStream(scenario.seed).split("table").normal();
  return {
    potentialTemperature_C: Float64Array.from(rows, (q) => ocean.potentialTemperature(q, mean)),
    salinity: Float64Array.from(rows, (q) => ocean.salinity(q, mean) + off),
    rowUncertainty: Float64Array.from(rows, () => Number.NaN),
    ...table,
  };
}
