// Observations of cells whose gains are known, without water or sensors: for tests of the tracker alone.
import type { CellName } from "../../src/cast/cast.js";
import type { IntensityName, MaintenanceEvent } from "../../src/cast/maintenance.js";
import { causeOf } from "../../src/causes/causeOf.js";
import type { CauseName } from "../../src/causes/index.js";
import { gainRow } from "../../src/model/designRow.js";
import { projected } from "../../src/model/gaussian.js";
import { gainOf, type Observation } from "../../src/model/observation.js";
import { defaultRecovery, type RecoveryPrior } from "../../src/model/recovery.js";
import { layoutOf } from "../../src/track/layout.js";
import type { TrackedCast, TrackedInput } from "../../src/track/tracked.js";

/** Seeded normal deviates: mulberry32 (public domain generator) and Box-Muller. */
export function deviates(seed: number): () => number {
  let state = seed | 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** Gains of one cell on one cast, ppm. */
export interface Gains {
  readonly down: number;
  readonly up: number;
  /** ppm per 1000 dbar. */
  readonly pressure?: number;
}

export interface CastDesign {
  readonly gains: Readonly<Partial<Record<CellName, Gains>>>;
  /** Error that all bottles share, ppm. */
  readonly reference?: number;
  /** Scatter of the water between legs beside the ordinary, ppm. */
  readonly water?: number;
  readonly bottles?: number;
  readonly maintenanceAfter?: readonly MaintenanceEvent[];
}

const [bottleSd, layerSd, pairSd] = [25, 30, 7];
const depth = 4000;

export function inputOf(index: number, design: CastDesign, normal: () => number): TrackedInput {
  const cast = String(index + 1).padStart(3, "0");
  const { gains, reference = 0, water = 0, bottles = 12 } = design;
  const cells = Object.keys(gains) as CellName[];
  const at = (i: number, of: number) => (depth * (i + 0.5)) / of;
  const observations: Observation[] = [];
  const first = cells[0]!;
  for (let i = 0; i < bottles; i++) {
    const pressure_dbar = at(i, bottles);
    const { up, pressure = 0 } = gains[first]!;
    observations.push({
      line: "bottles",
      cast,
      design: [gainOf(first, "up"), { shared: "run", weight: 1 }],
      unit: "ppm",
      value: up + (pressure * pressure_dbar) / 1000 + reference + bottleSd * normal(),
      variance: bottleSd ** 2,
      pressure_dbar,
    });
  }
  for (const cell of cells) {
    for (let i = 0; i < 12; i++) {
      observations.push({
        line: "legs",
        onTheMove: true,
        cast,
        design: [gainOf(cell, "up"), gainOf(cell, "down", -1), { shared: "legsWater", weight: 1 }],
        unit: "ppm",
        value: gains[cell]!.up - gains[cell]!.down + layerSd * normal() + water * normal(),
        variance: layerSd ** 2,
        pressure_dbar: at(i, 12),
      });
    }
  }
  const [one, two] = [gains.primary, gains.secondary];
  if (one !== undefined && two !== undefined) {
    for (const leg of ["down", "up"] as const) {
      for (let i = 0; i < 6; i++) {
        observations.push({
          line: "pair",
          onTheMove: true,
          cast,
          design: [
            gainOf("primary", leg),
            gainOf("secondary", leg, -1),
            { shared: "pairScatter", weight: 1 },
          ],
          unit: "ppm",
          value: one[leg] - two[leg] + pairSd * normal(),
          variance: pairSd ** 2,
          pressure_dbar: at(i, 6),
        });
      }
    }
  }
  return {
    cast,
    observations,
    onsets: {},
    evolutions: {},
    maintenanceAfter: design.maintenanceAfter ?? [],
  };
}

/** A cleaning works with probability 0.7, leaving a tenth, or leaves most. */
const cleaning: RecoveryPrior = {
  probabilityWorks: 0.7,
  retainedIfWorks: { mean: 0.1, sd: 0.1 },
  retainedIfFails: { mean: 0.85, sd: 0.15 },
};
export const recovery: Readonly<Record<IntensityName, RecoveryPrior>> = {
  rinse: defaultRecovery.rinse,
  wash: cleaning,
  soak: cleaning,
  disinfect: cleaning,
  descale: cleaning,
  exchange: cleaning,
};

/** Mean and standard deviation of a cell's gain as the up leg ends, and the probability of each cause. */
export function held(cells: readonly CellName[], tracked: TrackedCast, cell: CellName) {
  const layout = layoutOf(cells);
  const causes: Partial<Record<CauseName, number>> = {};
  let [mean, square] = [0, 0];
  for (const hypothesis of tracked.hypotheses) {
    const weight = Math.exp(hypothesis.logWeight);
    const cause = causeOf(layout, hypothesis, cell);
    causes[cause] = (causes[cause] ?? 0) + weight;
    const gain = projected(hypothesis.state, gainRow(layout, cell, "up"));
    mean += weight * gain.mean;
    square += weight * (gain.variance + gain.mean ** 2);
  }
  return { mean, sd: Math.sqrt(square - mean ** 2), causes };
}
