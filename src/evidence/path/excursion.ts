// An excursion: something entered a cell within the cast, made it read fresh, and left it again. This file estimates its
// place, size and decay distance, and its probability among other explanations.
import type { CellName, LegName } from "../../cast/cast.js";
import { excursionPrior, pathAt } from "../../model/placesOnCast.js";
import type { FilmsOnPath } from "./filmsOnPath.js";
import { runningMoments, type Uncertain } from "./runningMoments.js";
import type { BoxSearch } from "./searchBox.js";

/** The most probable excursion of one cell on one cast, and its probability. */
export interface Excursion {
  readonly cell: CellName;
  /** The leg on which it came, and the probability of the down leg. */
  readonly leg: LegName;
  readonly probabilityDown: number;
  readonly onset_dbar: Uncertain;
  /** Size when it came, ppm; negative reads fresh. */
  readonly ppm: Uncertain;
  /** Whether it left at once, and did not fade. */
  readonly atOnce: boolean;
  /** Distance along the path over which it falls to 1/e, or after which it left at once, dbar. */
  readonly recovery_dbar: Uncertain;
  /** Natural logarithm of the evidence ratio against a film of this cell that came within the cast and stays. */
  readonly logAgainstStep: number;
  /**
   * Its probability among nothing, a film of this cell or of the other that came or left and stays so, an excursion of the
   * other, and different water on the up leg; with their usual frequency as prior (judgement).
   */
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
  const { deepest_dbar, leaves, log } = own;
  if (!Number.isFinite(log.goes)) return undefined;
  // Different water would make it even less probable, and takes long to compute.
  if (probabilityOf(log, other?.log, Number.NEGATIVE_INFINITY) < least) return undefined;
  const probability = probabilityOf(log, other?.log, log.otherWater);
  if (probability < least) return undefined;
  return {
    cell,
    ...(leaves !== undefined && leaves.logOfAll > log.fades
      ? leaving(leaves, deepest_dbar)
      : fading(own)),
    logAgainstStep: log.goes - log.stays,
    probability,
    deepest_dbar,
  };
}

type Course = Pick<
  Excursion,
  "leg" | "probabilityDown" | "onset_dbar" | "ppm" | "atOnce" | "recovery_dbar"
>;

function leaving({ onset_dbar, length_dbar, ppm }: BoxSearch, deepest_dbar: number): Course {
  const leg = onset_dbar.value < deepest_dbar ? "down" : "up";
  return {
    leg,
    probabilityDown: leg === "down" ? 1 : 0,
    onset_dbar: { ...onset_dbar, value: pathAt(leg, onset_dbar.value, deepest_dbar) },
    ppm,
    atOnce: true,
    recovery_dbar: length_dbar,
  };
}

function fading({ deepest_dbar, log, fades }: FilmsOnPath): Course {
  let all = 0;
  const byLeg = { down: legMoments(), up: legMoments() };
  for (const { search, share } of fades) {
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
    }
  }
  const down = byLeg.down.path.weight() / all;
  const leg = down > 0.5 ? "down" : "up";
  // Place and size belong to the more probable leg.
  const path = byLeg[leg].path.result();
  const logRecovery = byLeg[leg].recovery.result();
  const length = Math.exp(logRecovery.value);
  return {
    leg,
    probabilityDown: down,
    onset_dbar: { ...path, value: pathAt(leg, path.value, deepest_dbar) },
    ppm: byLeg[leg].size.result(),
    recovery_dbar: { value: length, standardUncertainty: length * logRecovery.standardUncertainty },
    atOnce: false,
  };
}

function legMoments() {
  return {
    path: runningMoments(),
    size: runningMoments(),
    recovery: runningMoments(),
  };
}

type FilmLogs = Pick<FilmsOnPath["log"], "stays" | "left" | "goes">;

function probabilityOf(own: FilmLogs, other: FilmLogs | undefined, otherWater: number): number {
  const ofCell = ({ stays, left, goes }: FilmLogs) => [
    stays + Math.log(frequency.step),
    left + Math.log(frequency.step),
    goes + Math.log(frequency.excursion),
  ];
  const excursion = own.goes + Math.log(frequency.excursion);
  const all = [
    0,
    otherWater + Math.log(frequency.otherWater),
    ...ofCell(own),
    ...(other === undefined ? [] : ofCell(other)),
  ];
  return 1 / all.reduce((sum, log) => sum + Math.exp(log - excursion), 0);
}
