// Possible samplings that could settle a verdict: the possible states at that time, and the rows they would bring.

import { sum } from "d3-array";
import type { CellName } from "../../cast/cast.js";
import type { IntensityName } from "../../cast/maintenance.js";
import { causeNamed } from "../../causes/index.js";
import type { BottleNoise } from "../../evidence/bottles/bottleNoise.js";
import type { Proposal } from "../../model/cause.js";
import { designRow } from "../../model/designRow.js";
import { copyOf, widen } from "../../model/gaussian.js";
import { type Hypothesis, normalise } from "../../model/hypothesis.js";
import type { Layout } from "../../model/layout.js";
import type { Noise } from "../../model/noise.js";
import { gainTerms, type Observation } from "../../model/observation.js";
import type { Recovery } from "../../model/recovery.js";
import { maintain } from "../../track/maintain.js";
import { predict } from "../../track/predict.js";
import type { TrackedInput } from "../../track/tracked.js";
import { directionOf } from "../../track/update.js";
import type { SampledRow } from "./outlook.js";

export interface Sampling {
  /** Weights sum to one. */
  readonly branches: readonly Hypothesis[];
  readonly rows: readonly SampledRow[];
}

/** The information at the time of planning. */
export interface Planning {
  readonly layout: Layout;
  /** This cast; the next is assumed to have the same lines. */
  readonly input: TrackedInput;
  readonly days: number;
  readonly noise: Noise;
  /** Whether this cast, and so the next, has scans; without scans the cells are compared only at bottle closures. */
  readonly scans: boolean;
  /** Scatter of this cruise's bottles. */
  readonly bottleNoise: BottleNoise;
}

/** A possible fault of a sampling, and its effect on the coefficients. */
export type SamplingFault = Pick<Proposal, "prior" | "coefficients">;

/** Skip branches with less weight than this, and beyond this number (judgement: a verdict changes at 0.9). */
const leastWeight = 3e-3;
const mostBranches = 20;

/** The next cast, with the lines of this one that need no bottles. */
export function nextCast(planning: Planning, now: readonly Hypothesis[]): Sampling {
  return { branches: predicted(planning, now), rows: rowsOfSameLines(planning) };
}

/** The possible states after one more maintenance entry: a cleaning or an exchange, of one cell. */
export function afterMaintenance(
  { layout, input }: Planning,
  now: readonly Hypothesis[],
  action: IntensityName,
  cell: CellName,
  recovery: Recovery,
): readonly Hypothesis[] {
  return maintain(layout, probable(now), { action, cell }, input.cast, recovery);
}

/**
 * The hypotheses at the start of the next cast. A bad laboratory run may continue until it is identified; any other doubt
 * belongs to its cast and ends with it.
 */
export function predicted(
  { layout, days, input, noise }: Planning,
  hypotheses: readonly Hypothesis[],
): readonly Hypothesis[] {
  // An error redrawn on this cast with its own variance was different water. The next cast is assumed to stay in that
  // water.
  const evolutions = Object.fromEntries(
    Object.entries(input.evolutions).flatMap(([name, evolution]) => {
      if (evolution.kind === "constant") return [];
      if (evolution.kind !== "independent" || evolution.variance === undefined)
        return [[name, evolution]];
      return [[name, { kind: "random-walk", variance: evolution.variance } as const]];
    }),
  );
  const interval = { days, evolutions, inWater_days: input.path?.days ?? 0 };
  return probable(hypotheses).flatMap((hypothesis) => {
    const lasting = (hypothesis.events.doubts ?? []).filter(
      ({ cause }) => causeNamed(cause).doubtLastsWith !== undefined,
    );
    return predict(layout, hypothesis, interval, noise).map((passed) =>
      lasting.length > 0 ? { ...passed, events: { ...passed.events, doubts: lasting } } : passed,
    );
  });
}

/** A few hypotheses hold most of the weight. */
export function probable(hypotheses: readonly Hypothesis[]): readonly Hypothesis[] {
  const enough = hypotheses.filter(({ logWeight }) => Math.exp(logWeight) > leastWeight);
  const inOrder = [...enough].sort((a, b) => b.logWeight - a.logWeight);
  return normalise(inOrder.slice(0, mostBranches));
}

const linesOfEveryCast: readonly string[] = ["pair", "temperature-pair", "deep-water"];
/** Number of rows for each line; neighbours in pressure are averaged. */
const rowsOfLine = 2;

/** The legs are excluded: a film from before the cast is on both. */
export function rowsOfSameLines({ layout, input, scans }: Planning): readonly SampledRow[] {
  return (scans ? linesOfEveryCast : []).flatMap((line) => {
    const all = input.observations.filter((observation) => observation.line === line);
    const up = all.filter((one) => gainTerms(one).some(({ gain }) => gain.leg === "up"));
    const seen = [...(up.length > 0 ? up : all)].sort((a, b) => a.pressure_dbar - b.pressure_dbar);
    const size = Math.max(1, Math.ceil(seen.length / rowsOfLine));
    return Array.from({ length: Math.ceil(seen.length / size) }, (_, i) =>
      averagedRow(layout, seen.slice(i * size, (i + 1) * size)),
    );
  });
}

/** The weighted mean of neighbours. */
function averagedRow(layout: Layout, observations: readonly Observation[]): SampledRow {
  const row = new Float64Array(layout.size);
  const total = sum(observations, ({ variance }) => 1 / variance);
  for (const observation of observations) {
    const share = 1 / observation.variance / total;
    const own = designRow(layout, observation, {});
    for (let k = 0; k < row.length; k++) row[k]! += share * own[k]!;
  }
  return { row, variance: 1 / total };
}

/** Every branch with every possible fault of the sampling, as in the tracker before the evidence. */
export function withEachFault(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  faults: readonly SamplingFault[],
): readonly Hypothesis[] {
  const total = sum(faults, ({ prior }) => prior);
  return probable(
    hypotheses.flatMap((hypothesis) =>
      faults.map(({ prior, coefficients }) => ({
        ...hypothesis,
        logWeight: hypothesis.logWeight + Math.log(prior / total),
        state: widened(layout, hypothesis, coefficients),
      })),
    ),
  );
}

function widened(
  layout: Layout,
  { state }: Hypothesis,
  coefficients: SamplingFault["coefficients"],
) {
  const wider = copyOf(state);
  for (const coefficient of coefficients) {
    widen(wider, directionOf(layout, coefficient), 0, coefficient.sd ** 2);
  }
  return wider;
}
