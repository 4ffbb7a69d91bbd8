// The contract of a cause: what it holds to have happened, and the pattern that would leave.
//
// A cause is a record of plain functions. At every cast it may propose, to each hypothesis that is still
// alive, one or more ways in which it could have acted; a proposal adds coefficients with prior scales to
// the linear model of the cast, or widens the errors of some of its observations. All is linear and
// Gaussian, so that the marginal likelihood of every proposal is closed-form and their posterior is the
// ranking. Adding a cause means adding a file and naming it in index.ts.
import type { CellName } from "../cast/cast.js";
import type { ResponseSigns } from "../causes/responseSigns.js";
import type { Excursion } from "../evidence/path/excursion.js";
import type { CauseName } from "./causeNames.js";
import type { Observation, ObservedLine, Onset } from "./observation.js";
import type { CellSlot, Course, SharedSlot } from "./state.js";
import type { Doubt, Story } from "./story.js";

/** A new coefficient a, with a prior, that acts on slots of the state. */
export interface Coefficient {
  /** What is added to each slot for a = 1. */
  readonly acts: readonly (
    | { readonly cell: CellName; readonly slot: CellSlot; readonly weight: number }
    | { readonly shared: SharedSlot; readonly weight: number }
  )[];
  /** Prior standard deviation about zero, units of the slot; of the half-normal where `notPositive`. */
  readonly sd: number;
  /** The cell whose `event` slot holds a, where a is known not to be positive. */
  readonly notPositive?: CellName;
}

/** The share of a film that stays when it is shed or cleaned: mean and standard deviation. */
export interface Retained {
  readonly mean: number;
  readonly sd: number;
}

/** One way in which a cause could have acted at this cast. */
export interface Proposal {
  readonly prior: number;
  readonly coefficients: readonly Coefficient[];
  /** A film that goes by itself: the share of it that stays, before any coefficient acts. */
  readonly shed?: {
    readonly cell: CellName;
    readonly when: "before" | "within";
    readonly retained: Retained;
  };
  /** A clean gain that is drawn anew, ppm, before any coefficient acts: calibrated again. */
  readonly afresh?: { readonly cell: CellName; readonly sd: number };
  /** Variance added to an observation's own, ppm squared; one function a widening, not a new one each time. */
  readonly extraVariance?: (observation: Observation) => number;
  /** Where within the cast something came, if it came within. */
  readonly course?: Course;
  /** Log of how much more probable it makes the response of the sensors than a sound response would; 0 where absent. */
  readonly logResponse?: number;
  /** What happened to the cells, if anything. */
  readonly story?: Story;
  /** What is held against this cast's evidence, if anything; it may go with any one event of a cell. */
  readonly doubt?: Doubt;
}

/** What a cause may look at when it proposes. */
export interface ProposalContext {
  readonly cast: string;
  readonly cells: readonly CellName[];
  /** Lines of evidence that this cast has. */
  readonly lines: ReadonlySet<ObservedLine>;
  /** How many bottles this cast has, counted by their weights. */
  readonly bottles: number;
  /** What the legs say of where a change came, by cell. */
  readonly onsets: Readonly<Partial<Record<CellName, Onset>>>;
  /** What was seen to come and go within the cast. */
  readonly excursions: readonly Excursion[];
  /** How the sensors answered, by cell. */
  readonly response: Readonly<Partial<Record<CellName, ResponseSigns>>>;
  /** Casts since the last one with any evidence, this one included: the chance of an event grows with it. */
  readonly castsSinceEvidence: number;
  /** Whether its bottles are of the laboratory run that the cast before had already bottles of. */
  readonly runGoesOn: boolean;
  readonly story: Story;
}

/** A state in which a cell may begin the cruise, or be after it was exchanged or calibrated. */
export interface Beginning {
  readonly prior: number;
  /** Standard deviation of the clean gain, ppm. */
  readonly cleanSd: number;
  /** Standard deviation of the pressure response, ppm per 1000 dbar. */
  readonly pressureSd: number;
  /** Standard deviation of what the thermometer beside it is off by, mK; 0 where absent. */
  readonly thermometerSd?: number;
  /** Scale of a film already there, ppm, half-normal. */
  readonly filmSd?: number;
}

export interface Cause {
  readonly name: CauseName;
  /** Whether cleaning the cell can mend it. */
  readonly mendedByCleaning: boolean;
  /** Ways a cell may already be of this cause when it is first seen. */
  readonly beginnings: readonly Beginning[];
  readonly propose: (context: ProposalContext) => readonly Proposal[];
}
