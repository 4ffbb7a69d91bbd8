// What could be sampled to settle a verdict, each as what may be so when it is done and the rows it would bring.
import type { CellName } from "../../cast/cast.js";
import type { IntensityName } from "../../cast/maintenance.js";
import { causeNamed } from "../../causes/index.js";
import type { Proposal } from "../../model/cause.js";
import { rowOf } from "../../model/designRow.js";
import { copyOf, widen } from "../../model/gaussian.js";
import { type Hypothesis, normalise } from "../../model/hypothesis.js";
import type { Layout } from "../../model/layout.js";
import type { Noise } from "../../model/noise.js";
import { gainTerms, type Observation } from "../../model/observation.js";
import { maintain } from "../../track/maintain.js";
import { predict } from "../../track/predict.js";
import type { Recovery, TrackedInput } from "../../track/tracked.js";
import { directionOf } from "../../track/update.js";
import type { SampledRow } from "./outlook.js";

export interface Sampling {
  /** Weights sum to one. */
  readonly branches: readonly Hypothesis[];
  readonly rows: readonly SampledRow[];
}

/** What is known as the sampling is planned. */
export interface Planning {
  readonly layout: Layout;
  /** This cast, whose lines the next is taken to have again. */
  readonly input: TrackedInput;
  readonly days: number;
  readonly noise: Noise;
  /** Whether this cast has scans, and the next then too; else the cells meet at the closures of bottles alone. */
  readonly scans: boolean;
  /** This cruise's bottle noise scale. */
  readonly bottleScale: number;
}

/** Something that may be amiss with a sampling, and what it adds to the coefficients. */
export type Way = Pick<Proposal, "prior" | "coefficients">;

/** Skip branches less probable than this, and beyond so many (judgement: a verdict turns at 0.9). */
const leastWeight = 3e-3;
const mostBranches = 20;

/** The next cast, with the lines of this one that need no bottles. */
export function nextCast(planning: Planning, now: readonly Hypothesis[]): Sampling {
  return { branches: carried(planning, now), rows: linesAgain(planning) };
}

/** What may be so once the record says this too: a cleaning or an exchange, of one cell. */
export function afterWork(
  { layout, input, noise }: Planning,
  now: readonly Hypothesis[],
  action: IntensityName,
  cell: CellName,
  recovery: Recovery,
): readonly Hypothesis[] {
  return maintain(layout, probable(now), { action, cell }, input.cast, recovery, noise);
}

/**
 * The hypotheses as the next cast begins. A bad laboratory run stays a question until it is known to have been one; any
 * other doubt is of its cast, and passes with it.
 */
export function carried(
  { layout, days, input, noise }: Planning,
  held: readonly Hypothesis[],
): readonly Hypothesis[] {
  // What was redrawn on this cast with a variance of its own was another water: the next is taken to stay in it.
  const passages = Object.fromEntries(
    Object.entries(input.passages).flatMap(([name, passage]) => {
      if (passage.kind === "kept") return [];
      const { variance } = passage;
      return passage.kind === "redrawn" && variance !== undefined
        ? [[name, { kind: "walked", variance } as const]]
        : [[name, passage]];
    }),
  );
  const interval = { days, passages, inWater_days: input.path?.days ?? 0 };
  return probable(held).map((hypothesis) => {
    const { doubt } = hypothesis.story;
    const passed = predict(layout, hypothesis, interval, noise);
    return doubt !== undefined && causeNamed(doubt.cause).goesOnWith !== undefined
      ? { ...passed, story: { ...passed.story, doubt } }
      : passed;
  });
}

/** Few hypotheses are most of the weight. */
export function probable(held: readonly Hypothesis[]): readonly Hypothesis[] {
  const enough = held.filter(({ logWeight }) => Math.exp(logWeight) > leastWeight);
  const inOrder = [...enough].sort((a, b) => b.logWeight - a.logWeight);
  return normalise(inOrder.slice(0, mostBranches));
}

const linesOfEveryCast: readonly string[] = ["pair", "temperature-pair", "deep-water"];
/** Neighbours in pressure are brought together to so many rows a line. */
const rowsOfLine = 2;

/** Legs are left out: a film that was there before the cast is on both. */
export function linesAgain({ layout, input, scans }: Planning): readonly SampledRow[] {
  return (scans ? linesOfEveryCast : []).flatMap((line) => {
    const all = input.observations.filter((observation) => observation.line === line);
    const up = all.filter((one) => gainTerms(one).some(({ gain }) => gain.leg === "up"));
    const seen = [...(up.length > 0 ? up : all)].sort((a, b) => a.pressure_dbar - b.pressure_dbar);
    const size = Math.max(1, Math.ceil(seen.length / rowsOfLine));
    return Array.from({ length: Math.ceil(seen.length / size) }, (_, i) =>
      together(layout, seen.slice(i * size, (i + 1) * size)),
    );
  });
}

/** The weighted mean of neighbours. */
function together(layout: Layout, observations: readonly Observation[]): SampledRow {
  const row = new Float64Array(layout.size);
  const total = observations.reduce((sum, { variance }) => sum + 1 / variance, 0);
  for (const observation of observations) {
    const share = 1 / observation.variance / total;
    const own = rowOf(layout, observation, {});
    for (let k = 0; k < row.length; k++) row[k]! += share * own[k]!;
  }
  return { row, variance: 1 / total };
}

/** Every branch in each of the ways in which the sampling may go, as the tracker would hold them before the evidence. */
export function inEachWay(
  layout: Layout,
  held: readonly Hypothesis[],
  ways: readonly Way[],
): readonly Hypothesis[] {
  const total = ways.reduce((sum, { prior }) => sum + prior, 0);
  return probable(
    held.flatMap((hypothesis) =>
      ways.map(({ prior, coefficients }) => ({
        ...hypothesis,
        logWeight: hypothesis.logWeight + Math.log(prior / total),
        state: widened(layout, hypothesis, coefficients),
      })),
    ),
  );
}

function widened(layout: Layout, { state }: Hypothesis, coefficients: Way["coefficients"]) {
  const wider = copyOf(state);
  for (const coefficient of coefficients) {
    widen(wider, directionOf(layout, coefficient), 0, coefficient.sd ** 2);
  }
  return wider;
}
