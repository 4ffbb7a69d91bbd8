// An observation: one measured value, what of the state it sees, in which unit, with which variance.
import type { CellName, LegName } from "../cast/cast.js";
import type { CellSlot } from "./layout.js";
import type { Unit } from "./unit.js";

/** The gain of a cell at the observation's own pressure and water: clean gain, film, pressure response and so on. */
interface GainTerm {
  readonly gain: { readonly cell: CellName; readonly leg: LegName };
  readonly weight: number;
}

/** One coefficient of a cell. */
interface SlotTerm {
  readonly slot: { readonly cell: CellName; readonly slot: CellSlot };
  readonly weight: number;
}

/** An error that it shares with other observations. */
interface SharedTerm {
  readonly shared: string;
  readonly weight: number;
}

export type DesignTerm = GainTerm | SlotTerm | SharedTerm;

/** value = sum of weight x what each term of the design is + an error independent of that of every other observation. */
export interface Observation {
  /** The line of evidence that brings it. */
  readonly line: string;
  readonly cast: string;
  readonly design: readonly DesignTerm[];
  readonly unit: Unit;
  readonly value: number;
  /** Of its own error, square of the unit. */
  readonly variance: number;
  readonly pressure_dbar: number;
  /** The water it was read in: what an offset or a wrong thermometer does to a gain depends on it. */
  readonly water?: { readonly conductivity_mS_cm: number; readonly temperature_C: number };
  /** The laboratory run a bottle was measured in. */
  readonly run?: string;
  /** Read while the package moved: in strong gradients a slow answer shifts it. */
  readonly onTheMove?: boolean;
  /** The bottle's label, where the observation is a bottle. */
  readonly bottle?: string;
}

/** Something that was not used, and why. */
export interface LeftOut {
  /** For a person: "bottle 7 at 1250 dbar". */
  readonly what: string;
  readonly why: string;
}

/** Where on the cast a gain changed, as one line of evidence sees it. */
export interface Onset {
  readonly pressure_dbar: number;
  /** dbar. */
  readonly standardUncertainty_dbar: number;
  /** Probability that it happened on the way down; 0.5 where the line cannot tell. */
  readonly probabilityDown: number;
}

/** What one line says of one cell (or of the pair) on one cast. */
export interface LineOfEvidence {
  readonly line: string;
  readonly cast: string;
  readonly cell: CellName | "both";
  readonly observations: readonly Observation[];
  readonly leftOut: readonly LeftOut[];
  /** Present where the change happened within the cast and could be placed. */
  readonly onset?: Onset;
  /** What this line cannot see here, in plain words. */
  readonly notes: readonly string[];
}

/** The gain of a cell on a leg, as a term of a design. */
export function gainOf(cell: CellName, leg: LegName, weight = 1): GainTerm {
  return { gain: { cell, leg }, weight };
}

/** The terms of a design that are gains. */
export function gainTerms({ design }: Observation): readonly GainTerm[] {
  return design.filter((term): term is GainTerm => "gain" in term);
}

/** Whether the gain of a cell enters an observation. */
export function seesGainOf(observation: Observation, cell: CellName): boolean {
  return gainTerms(observation).some(({ gain }) => gain.cell === cell);
}

/** The weight of a shared error in an observation, 0 where it does not enter. */
export function sharedWeight({ design }: Observation, shared: string): number {
  return design.reduce(
    (sum, term) => ("shared" in term && term.shared === shared ? sum + term.weight : sum),
    0,
  );
}
