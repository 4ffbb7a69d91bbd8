// Cruises with other physics: each world breaks one assumption about fouling (docs/worlds.md).
// Numbers without a source are judgement: how careless watches are.
import type { CellName } from "../../cast/cast.js";
import { type Cruise, defaultTarget } from "../../cast/cruise.js";
import { randomStream } from "../random.js";
import { makeCasts } from "./casts.js";
import { happens } from "./draws.js";
import {
  filmBothCells,
  filmGrowing,
  filmInTheSoak,
  filmNoSoakMoves,
  filmStep,
  type MakeTroubles,
  shiftedCalibration,
  transient,
} from "./filmWorlds.js";
import { type CellHistory, historyOf } from "./gains.js";
import {
  copiedSamples,
  everything,
  offset,
  otherWaterUp,
  slowCell,
  spoiltSamples,
  thermometer,
} from "./otherWorlds.js";
import { drawPlan, type WorldOptions } from "./plan.js";
import { writeRecord } from "./record.js";
import { drawSensor, type SimulatedSensor } from "./sensors.js";
import { together } from "./troubles.js";
import { cellTruth, ppmOf, samplesOf, type WorldCastTruth } from "./truth.js";

/** In the order of docs/worlds.md. */
const makers = {
  "film-growing": filmGrowing,
  "film-both-cells": filmBothCells,
  "film-no-soak-moves": filmNoSoakMoves,
  "slow-cell": slowCell,
  "shifted-calibration": shiftedCalibration,
  "film-in-the-soak": filmInTheSoak,
  "other-water-up": otherWaterUp,
  "spoilt-samples": spoiltSamples,
  sound: () => ({}),
  offset,
  thermometer,
  "copied-samples": copiedSamples,
  transient,
  "film-step": filmStep,
  everything,
} satisfies Record<string, MakeTroubles>;

export type WorldName = keyof typeof makers;
export const worldNames = Object.keys(makers) as readonly WorldName[];

export interface SimulatedWorld {
  readonly cruise: Cruise;
  readonly truth: readonly WorldCastTruth[];
}

/** Share of cruises whose record has mistakes, and the share of its entries. */
const carelessWatch = { share: 0.15, slips: 0.08 };
/** Worlds that need both cells. */
const needTwo: readonly WorldName[] = ["film-both-cells", "thermometer"];

/**
 * @param seed any whole number from 0; the same seed gives the same cruise
 * @throws RangeError for another seed
 */
export function simulateWorld(
  world: WorldName,
  seed: number,
  options: WorldOptions = {},
): SimulatedWorld {
  const { newestUnmeasured = 0 } = options;
  const random = randomStream(seed).split("worlds").split(world);
  const both: WorldOptions = { cells: ["primary", "secondary"], ...options };
  const plan = drawPlan(random.split("plan"), needTwo.includes(world) ? both : options);
  const careless = happens(random.split("watch"), carelessWatch.share);
  const troubles = together([
    makers[world](random.split("troubles"), plan),
    { slips: careless ? carelessWatch.slips : 0 },
  ]);
  const histories: Partial<Record<CellName, CellHistory>> = {};
  const sensors: Partial<Record<CellName, SimulatedSensor>> = {};
  for (const cell of plan.cells) {
    histories[cell] = historyOf(random.split("clean").split(cell), plan, troubles, cell);
    sensors[cell] = drawSensor(random.split("sensor").split(cell), options.rate_Hz ?? 4);
  }
  const made = makeCasts(random, plan, troubles, { histories, sensors }, newestUnmeasured);
  const firstUnmeasured = plan.casts.length - newestUnmeasured;
  const target_ppm = ppmOf(defaultTarget);
  return {
    cruise: {
      name: `Invented cruise, world ${world}, seed ${seed}`,
      casts: made.casts,
      bottles: made.bottles,
      maintenance: writeRecord(random.split("record"), plan, troubles.soaks, troubles.slips),
      instrument: { cells: plan.cells, flow: "pumped" },
      target: defaultTarget,
      inputs: [],
    },
    truth: plan.casts.map(
      (cast, i): WorldCastTruth => ({
        cast: cast.id,
        samples: samplesOf(troubles, i),
        cells: Object.fromEntries(
          plan.cells.map((cell) => [
            cell,
            cellTruth(cast, i, cell, histories[cell]!, troubles, target_ppm, i < firstUnmeasured),
          ]),
        ),
      }),
    ),
  };
}
