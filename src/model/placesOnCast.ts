// Places within a cast where a change came, and changes that came and went.
import type { CellName, LegName } from "../cast/cast.js";

/** Place within a cast where a film came. */
export interface PlaceOnCast {
  readonly leg: LegName;
  readonly pressure_dbar: number;
}

/** Default: without better knowledge a film that came within the cast came at the turn. */
export const atTheTurn: PlaceOnCast = { leg: "up", pressure_dbar: Number.POSITIVE_INFINITY };

/**
 * A transient: the place where it came, and the distance along the path over which it falls to 1/e, or after which it leaves at
 * once.
 */
interface TransientCourse {
  readonly cell: CellName;
  readonly leg: LegName;
  readonly onset_dbar: number;
  readonly recovery_dbar: number;
  readonly atOnce?: true;
  /** Pressure at the turn of the cast. */
  readonly deepest_dbar: number;
}

/** Distance of the package along its path since the surface, without stops and reversals, dbar. */
export function pathAt(leg: LegName, pressure_dbar: number, deepest_dbar: number): number {
  return leg === "down" ? pressure_dbar : 2 * deepest_dbar - pressure_dbar;
}

/**
 * The share still in the cell at a place: 0 before it came, 1 when it came, then exp(-path / recovery); or 1 until it leaves at
 * once, and then 0.
 */
export function shareLeft(
  { leg, onset_dbar, recovery_dbar, atOnce, deepest_dbar }: Omit<TransientCourse, "cell">,
  at: LegName,
  pressure_dbar: number,
): number {
  const since = pathAt(at, pressure_dbar, deepest_dbar) - pathAt(leg, onset_dbar, deepest_dbar);
  if (since < 0) return 0;
  return atOnce ? Number(since < recovery_dbar) : Math.exp(-since / recovery_dbar);
}

/** Time in the water and greatest depth of a cast; a film grows meanwhile. */
export interface CastPath {
  readonly days: number;
  readonly deepest_dbar: number;
}

/** Share of the time in the water that had passed at a place, if the package moved at constant speed. */
export function shareOfPath(
  { deepest_dbar }: CastPath,
  leg: LegName,
  pressure_dbar: number,
): number {
  const half = 0.5 * Math.min(1, Math.max(0, pressure_dbar / deepest_dbar));
  return leg === "down" ? half : 1 - half;
}

/** The places within the cast at which a proposal assumes its events. */
export interface ChangePlaces {
  readonly onsets?: Readonly<Partial<Record<CellName, PlaceOnCast>>>;
  readonly transient?: TransientCourse;
  /** This shared error acts only above a pressure. */
  readonly front?: { readonly shared: string; readonly above_dbar: number };
}

/** Prior probability of a transient on a cast; the search along the path and the causes both use it (judgement). */
export const excursionPrior = 1 / 300;

/** An excursion within a cast, as the causes use it. */
export interface TransientCandidate {
  readonly cell: CellName;
  readonly course: TransientCourse;
  /** Size when it came, ppm; negative reads fresh. */
  readonly ppm: number;
  /** Probability of an excursion of this cell among all explanations. */
  readonly probability: number;
  /** Natural logarithm of the evidence ratio against a film that came within the cast and stays. */
  readonly logAgainstStep: number;
  /** Whether a second cell was available for comparison. */
  readonly withPair: boolean;
}
