// The posterior of one cell, readable without knowledge of the layout of the state vector.
import { group } from "d3-array";
import type { CellName, LegName } from "../cast/cast.js";
import { causeOf } from "../causes/causeOf.js";
import type { CauseName } from "../causes/index.js";
import { errorRow, gainRow, slotRow, type WaterRead } from "../model/designRow.js";
import { type CellEvents, cellEvents } from "../model/eventHistory.js";
import { daysOfGrowth, type GrowthTime } from "../model/filmGrowth.js";
import { type Hypothesis, mixtureOf, weightOf } from "../model/hypothesis.js";
import { type CellSlot, cellIndex, type Layout } from "../model/layout.js";
import type { Noise } from "../model/noise.js";
import type { Mixture } from "../statistics/mixture.js";

export interface CellView {
  readonly cell: CellName;
  /** The gain at atmospheric pressure as a leg begins (down) or ends (up), ppm. */
  readonly gain: (leg: LegName) => Mixture;
  /**
   * The total error of a reading in given water, as a gain, ppm: gain, pressure response, offset and thermometer together.
   * Where two of them cancel in the data, only their sum is known.
   */
  readonly errorIn: (leg: LegName, water: WaterRead) => Mixture;
  readonly cleanGain: () => Mixture;
  /** Film at the end of the up leg, ppm. */
  readonly film: () => Mixture;
  /** Unit: ppm per 1000 dbar. */
  readonly pressureResponse: () => Mixture;
  /** Unit: mK. */
  readonly thermometer: () => Mixture;
  /** Unit: uS/cm. */
  readonly offset: () => Mixture;
  /** Probability of each cause, most probable first; the sum is the weight of the hypotheses. */
  readonly causes: () => ReadonlyMap<CauseName, number>;
  /**
   * The same view of the hypotheses that give one cause, with weights scaled to sum to one; undefined if there are none.
   */
  readonly given: (cause: CauseName) => CellView | undefined;
  /** The probability that a condition holds in the event history of the cell. */
  readonly probabilityOf: (holds: (events: CellEvents) => boolean) => number;
  /** The events of the cell under each hypothesis, its cause and its weight. */
  readonly eventsByHypothesis: () => readonly {
    readonly events: CellEvents;
    readonly cause: CauseName;
    readonly weight: number;
  }[];
}

/** @param hypotheses whose weights sum to one */
export function cellView(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
): CellView {
  const groups = byCause(layout, hypotheses, cell);
  const of = (slot: CellSlot) => mixtureOf(hypotheses, slotRow(layout, cell, slot));
  return {
    cell,
    gain: (leg) => mixtureOf(hypotheses, gainRow(layout, cell, leg)),
    errorIn: (leg, water) => mixtureOf(hypotheses, errorRow(layout, cell, leg, water)),
    cleanGain: () => of("clean"),
    film: () => of("filmUp"),
    pressureResponse: () => of("pressure"),
    thermometer: () => of("thermometer"),
    offset: () => of("offset"),
    causes: () =>
      new Map(
        [...groups]
          .map(([cause, members]) => [cause, Math.min(1, weightOf(members))] as const)
          .sort(([, a], [, b]) => b - a),
      ),
    given: (cause) => {
      const members = groups.get(cause);
      if (members === undefined) return undefined;
      const total = Math.log(weightOf(members));
      const alone = members.map((h) => ({ ...h, logWeight: h.logWeight - total }));
      return cellView(layout, alone, cell);
    },
    probabilityOf: (holds) =>
      weightOf(hypotheses.filter(({ events }) => holds(cellEvents(events, cell)))),
    eventsByHypothesis: () =>
      [...groups].flatMap(([cause, members]) =>
        members.map(({ events, logWeight }) => ({
          events: cellEvents(events, cell),
          cause,
          weight: Math.exp(logWeight),
        })),
      ),
  };
}

/** Group hypotheses by the cause that they give for the state of a cell. */
export function byCause(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
): ReadonlyMap<CauseName, readonly Hypothesis[]> {
  return group(hypotheses, (hypothesis) => causeOf(layout, hypothesis, cell));
}

/** One hypothesis about a cell now; gain = clean + film, film not positive. Means in ppm, variances in ppm squared. */
export interface FilmComponent {
  readonly weight: number;
  readonly cause: CauseName;
  readonly cleanMean_ppm: number;
  readonly filmMean_ppm: number;
  readonly cleanVariance: number;
  readonly filmVariance: number;
  /** Covariance of clean gain and film. */
  readonly covariance: number;
  /** Change of the film until the next station; negative if it grows. */
  readonly growthMean_ppm: number;
  readonly growthVariance: number;
}

/** Clean gain, film and its growth until the next cast, for each hypothesis. */
export function filmComponents(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
  time: GrowthTime,
  noise: Noise,
): readonly FilmComponent[] {
  const at = (slot: CellSlot) => cellIndex(layout, cell, slot);
  const [clean, film, rate] = [at("clean"), at("filmUp"), at("filmRate")];
  return hypotheses.map((hypothesis) => {
    const { mean, covariance } = hypothesis.state;
    const between = (i: number, j: number) => covariance[i * layout.size + j]!;
    const days = daysOfGrowth(cellEvents(hypothesis.events, cell).film, time);
    return {
      weight: Math.exp(hypothesis.logWeight),
      cause: causeOf(layout, hypothesis, cell),
      cleanMean_ppm: mean[clean]!,
      filmMean_ppm: mean[film]!,
      cleanVariance: between(clean, clean),
      filmVariance: between(film, film),
      covariance: between(clean, film),
      growthMean_ppm: mean[rate]! * days,
      growthVariance: between(rate, rate) * days * days + noise.clean ** 2 * time.days,
    };
  });
}
