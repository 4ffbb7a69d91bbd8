// An excursion: something entered a cell within the cast, made it read fresh, and left it again. This file estimates its
// place, size and decay distance, and its probability among other explanations.
import type { CellName, LegName } from "../../cast/cast.js";
import { excursionPrior, pathAt } from "../../model/placesOnCast.js";
import type { FilmsOnPath } from "./filmsOnPath.js";
import { runningMoments, type Uncertain } from "./runningMoments.js";

/** The most probable excursion of one cell on one cast, and its probability. */
export interface Excursion {
  readonly cell: CellName;
  /** The leg on which it came, and the probability of the down leg. */
  readonly leg: LegName;
  readonly probabilityDown: number;
  readonly onset_dbar: Uncertain;
  /** Size when it came, ppm; negative reads fresh. */
  readonly ppm: Uncertain;
  /** Distance along the path over which it falls to 1/e, dbar. */
  readonly recovery_dbar: Uncertain;
  /** The same in seconds of lowering or hoisting, without stops; absent if the cast has no time. */
  readonly recovery_s?: Uncertain;
  /** Share of it that had gone by the end of the cast. */
  readonly recovered: Uncertain;
  /** Natural logarithms of the evidence ratio of an excursion of this cell against other explanations. */
  readonly logBayesFactor: {
    readonly nothing: number;
    /** A film of this cell that came within the cast and stays. */
    readonly step: number;
    /** Different water on the up leg. */
    readonly otherWater: number;
    /** A film of the other cell, lasting or not; absent if there is no other cell. */
    readonly otherCell?: number;
  };
  /** Probability of an excursion of this cell among all these, with their usual frequency as prior (judgement). */
  readonly probability: number;
  readonly deepest_dbar: number;
}

/** Prior frequency of each on a cast, relative to nothing (judgement). */
const frequency = { excursion: excursionPrior, step: 1 / 100, otherWater: 1 / 10 };
/** Skip possibilities less probable than this (speed). */
const negligible = 1e-7;
const logNegligible = Math.log(negligible);

/**
 * @param own   films of the cell as explanations
 * @param other the same for the other cell, if there is one
 * @param least smallest probability that is reported
 * @returns undefined if there are no data, or nothing to report
 */
export function excursionOf(
  cell: CellName,
  own: FilmsOnPath,
  other?: FilmsOnPath,
  least = 0,
): Excursion | undefined {
  const { deepest_dbar, log } = own;
  if (!Number.isFinite(log.fades)) return undefined;
  // Different water would make it even less probable, and takes long to compute.
  if (probabilityOf(log, other?.log, Number.NEGATIVE_INFINITY) < least) return undefined;
  const probability = probabilityOf(log, other?.log, log.otherWater);
  if (probability < least) return undefined;
  const end = pathAt("up", 0, deepest_dbar);
  let all = 0;
  const byLeg = { down: legMoments(), up: legMoments() };
  for (const { search, share } of own.fades) {
    const { recovery_dbar, onset_dbar, prior, ppm, standardDeviation_ppm } = search;
    for (let k = 0; k < onset_dbar.length; k++) {
      const logged = search.log[k]! - log.fades;
      if (logged < logNegligible) continue;
      const p = share * prior[k]! * Math.exp(logged);
      if (!(p > negligible)) continue;
      all += p;
      const at = onset_dbar[k]!;
      const moments = byLeg[at < deepest_dbar ? "down" : "up"];
      moments.path.add(p, at);
      moments.size.add(p, ppm[k]!, standardDeviation_ppm[k]!);
      moments.recovery.add(p, Math.log(recovery_dbar));
      moments.recovered.add(p, 1 - Math.exp(-(end - at) / recovery_dbar));
    }
  }
  const down = byLeg.down.path.weight() / all;
  const leg = down > 0.5 ? "down" : "up";
  // Place and size belong to the more probable leg.
  const path = byLeg[leg].path.result();
  const logRecovery = byLeg[leg].recovery.result();
  const length = Math.exp(logRecovery.value);
  const recovery = scaled({ ...logRecovery, value: 1 }, length);
  const otherCell = other === undefined ? [] : [other.log.stays, other.log.fades];
  return {
    cell,
    leg,
    probabilityDown: down,
    onset_dbar: { ...path, value: leg === "down" ? path.value : 2 * deepest_dbar - path.value },
    ppm: byLeg[leg].size.result(),
    recovery_dbar: recovery,
    ...(own.rate_dbar_s === undefined ? {} : { recovery_s: scaled(recovery, 1 / own.rate_dbar_s) }),
    recovered: byLeg[leg].recovered.result(),
    logBayesFactor: {
      nothing: log.fades,
      step: log.fades - log.stays,
      otherWater: log.fades - log.otherWater,
      ...(other === undefined ? {} : { otherCell: log.fades - Math.max(...otherCell) }),
    },
    probability,
    deepest_dbar,
  };
}

function scaled({ value, standardUncertainty }: Uncertain, factor: number): Uncertain {
  return { value: factor * value, standardUncertainty: factor * standardUncertainty };
}

function legMoments() {
  return {
    path: runningMoments(),
    size: runningMoments(),
    recovery: runningMoments(),
    recovered: runningMoments(),
  };
}

type FilmLogs = Pick<FilmsOnPath["log"], "stays" | "fades">;

function probabilityOf(own: FilmLogs, other: FilmLogs | undefined, otherWater: number): number {
  const ofCell = ({ stays, fades }: FilmLogs) => [
    stays + Math.log(frequency.step),
    fades + Math.log(frequency.excursion),
  ];
  const excursion = own.fades + Math.log(frequency.excursion);
  const all = [
    0,
    otherWater + Math.log(frequency.otherWater),
    ...ofCell(own),
    ...(other === undefined ? [] : ofCell(other)),
  ];
  return 1 / all.reduce((sum, log) => sum + Math.exp(log - excursion), 0);
}
