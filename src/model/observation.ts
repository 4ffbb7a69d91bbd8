// An observation: one measured value with its design, unit and variance.
import type { CellName, LegName } from "../cast/cast.js";
import type { CellSlot } from "./layout.js";
import type { Unit } from "./unit.js";

/**
 * The gain of a cell at the pressure and in the water of the observation: clean gain, film, pressure response and so on.
 */
interface GainTerm {
  readonly gain: { readonly cell: CellName; readonly leg: LegName };
  readonly weight: number;
}

/** One coefficient of a cell. */
interface SlotTerm {
  readonly slot: { readonly cell: CellName; readonly slot: CellSlot };
  readonly weight: number;
}

/** An error shared with other observations. */
interface SharedTerm {
  readonly shared: string;
  readonly weight: number;
}

export type DesignTerm = GainTerm | SlotTerm | SharedTerm;

/** value = sum of weight x term over the design + an error independent of all other observations. */
export interface Observation {
  /** The line of evidence that it belongs to. */
  readonly line: string;
  readonly cast: string;
  readonly design: readonly DesignTerm[];
  readonly unit: Unit;
  readonly value: number;
  /** Variance of its own error, square of the unit. */
  readonly variance: number;
  readonly pressure_dbar: number;
  /** The water of the reading: the effect of an offset or a thermometer error on a gain depends on it. */
  readonly water?: { readonly conductivity_mS_cm: number; readonly temperature_C: number };
  /** The laboratory run in which a bottle was measured. */
  readonly run?: string;
  /** The package was moving: in strong gradients a slow response shifts the value. */
  readonly onTheMove?: boolean;
  /** The bottle's label, if the observation is a bottle. */
  readonly bottle?: string;
}

/** An excluded item, and the reason. */
export interface LeftOut {
  /** Text for a person: "bottle 7 at 1250 dbar". */
  readonly what: string;
  readonly why: string;
}

/** Place on the cast where a gain changed, according to one line of evidence. */
export interface Onset {
  readonly pressure_dbar: number;
  /** Unit: dbar. */
  readonly standardUncertainty_dbar: number;
  /** Probability that the change came on the down leg; 0.5 if the line cannot tell. */
  readonly probabilityDown: number;
}

/** The result of one line for one cell (or for the pair) on one cast. */
export interface LineResult {
  readonly line: string;
  readonly cast: string;
  readonly cell: CellName | "both";
  readonly observations: readonly Observation[];
  readonly leftOut: readonly LeftOut[];
  /** Present if the change came within the cast and its place is known. */
  readonly onset?: Onset;
  /** Limits of this line on this cast, in plain words. */
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
export function observesGainOf(observation: Observation, cell: CellName): boolean {
  return gainTerms(observation).some(({ gain }) => gain.cell === cell);
}

/** The weight of a shared error in an observation, 0 where it does not enter. */
export function sharedWeight({ design }: Observation, shared: string): number {
  return design.reduce(
    (sum, term) => ("shared" in term && term.shared === shared ? sum + term.weight : sum),
    0,
  );
}
