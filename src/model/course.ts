// Where within a cast something came, and what came and went.
import type { CellName, LegName } from "../cast/cast.js";

/** Where within a cast a film came. */
export interface Place {
  readonly leg: LegName;
  readonly pressure_dbar: number;
}

/** With no better knowledge a film that came within the cast came as it turned. */
export const atTheTurn: Place = { leg: "up", pressure_dbar: Number.POSITIVE_INFINITY };

/** Something taken in and shed again: where it came, and the path over which it falls to 1/e. */
interface Passing {
  readonly cell: CellName;
  readonly leg: LegName;
  readonly onset_dbar: number;
  readonly recovery_dbar: number;
  /** Of the cast, where the path turns. */
  readonly deepest_dbar: number;
}

/** Distance that the package has come since the surface, stops and reversals apart, dbar. */
export function pathAt(leg: LegName, pressure_dbar: number, deepest_dbar: number): number {
  return leg === "down" ? pressure_dbar : 2 * deepest_dbar - pressure_dbar;
}

/** The share of it in the cell at a place: 0 before it came, 1 as it came, then exp(-path / recovery). */
export function shareLeft(
  { leg, onset_dbar, recovery_dbar, deepest_dbar }: Omit<Passing, "cell">,
  at: LegName,
  pressure_dbar: number,
): number {
  const since = pathAt(at, pressure_dbar, deepest_dbar) - pathAt(leg, onset_dbar, deepest_dbar);
  return since < 0 ? 0 : Math.exp(-since / recovery_dbar);
}

/** The time that a cast spent in the water, and how deep it went: a film grows on the way. */
export interface CastPath {
  readonly days: number;
  readonly deepest_dbar: number;
}

/** Share of the time in the water that had passed at a place, the package moving evenly. */
export function shareOfPath(
  { deepest_dbar }: CastPath,
  leg: LegName,
  pressure_dbar: number,
): number {
  const half = 0.5 * Math.min(1, Math.max(0, pressure_dbar / deepest_dbar));
  return leg === "down" ? half : 1 - half;
}

/** What a proposal holds to have happened where on the cast. */
export interface Course {
  readonly onsets?: Readonly<Partial<Record<CellName, Place>>>;
  readonly passing?: Passing;
}

/** How often something is taken in and shed again on a cast, by the search along the path and by the causes (judgement). */
export const excursionChance = 1 / 300;

/** Something seen to come and go within a cast, as the causes use it. */
export interface Excursion {
  readonly cell: CellName;
  readonly passing: Passing;
  /** As it came, ppm; negative reads fresh. */
  readonly ppm: number;
  /** Of an excursion of this cell among all explanations. */
  readonly probability: number;
  /** Natural logarithm of the evidence ratio against a film that came within the cast and stays. */
  readonly logAgainstStep: number;
  /** Whether a second cell was there to compare with. */
  readonly withPair: boolean;
}
