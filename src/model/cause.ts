// The contract of a cause: what it holds to have happened, the pattern that leaves, how it is named and what to do about it.
//
// A cause is a record of plain functions. At every cast it may propose, to each hypothesis that is still alive, one or
// more ways in which it could have acted. A proposal adds coefficients with priors to the linear model of the cast, or
// widens the variance of some of its observations. All is linear and Gaussian, so the marginal likelihood of every
// proposal has a closed form, and their posterior is the ranking. A new cause is a file, and a line in causes/index.ts.
import type { CellName } from "../cast/cast.js";
import type { Course, Excursion } from "./course.js";
import type { Grounds } from "./grounds.js";
import type { CellSlot } from "./layout.js";
import type { Observation, Onset } from "./observation.js";
import type { ResponseSigns } from "./responseSigns.js";
import type { CellStory, Doubt, Since, Story } from "./story.js";

/** A new coefficient a, with a prior, that acts on slots of the state. */
export interface Coefficient {
  /** What is added to each slot for a = 1. */
  readonly acts: readonly (
    | { readonly cell: CellName; readonly slot: CellSlot; readonly weight: number }
    | { readonly shared: string; readonly weight: number }
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
  /** A clean gain that is redrawn, ppm, before any coefficient acts: calibrated again. */
  readonly afresh?: { readonly cell: CellName; readonly sd: number };
  /** Variance added to an observation's own, square of its unit; one function for one widening, not a new one each time. */
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
  /** How many independent observations each line of this cast is worth, counted by their weights; absent lines are absent. */
  readonly lines: ReadonlyMap<string, number>;
  /** Shared errors that go on from the cast before unchanged, by name. */
  readonly kept: ReadonlySet<string>;
  /** Where a change came, by cell, as the scans show it. */
  readonly onsets: Readonly<Partial<Record<CellName, Onset>>>;
  /** What was seen to come and go within the cast. */
  readonly excursions: readonly Excursion[];
  /** How the sensors answered, by cell. */
  readonly response: Readonly<Partial<Record<CellName, ResponseSigns>>>;
  /** Casts since the last one with any evidence, this one included: the chance of an event grows with it. */
  readonly castsSinceEvidence: number;
  readonly story: Story;
}

/** A state in which a cell may begin the cruise, or be after it was exchanged or calibrated. */
export interface Beginning {
  readonly prior: number;
  /**
   * Prior that both cells of a package begin so and alike, beside that each does by itself: they met the same water and had
   * the same keeping, and the pair cannot see what both have in common.
   */
  readonly bothAlike?: number;
  /** Mean of the clean gain, ppm; 0 where absent. */
  readonly cleanMean?: number;
  /** Standard deviation of the clean gain, ppm. */
  readonly cleanSd: number;
  /** Mean of the pressure response, ppm per 1000 dbar; 0 where absent. */
  readonly pressureMean?: number;
  /** Standard deviation of the pressure response, ppm per 1000 dbar. */
  readonly pressureSd: number;
  /** Standard deviation of the error of the thermometer beside it, mK; 0 where absent. */
  readonly thermometerSd?: number;
  /** Scale of a film already there, ppm, half-normal; about `filmMean`, and not positive, where that is there. */
  readonly filmSd?: number;
  readonly filmMean?: number;
  /** Standard deviation of its additive offset, uS/cm; that of a sound cell where absent. */
  readonly offsetSd?: number;
}

/** One hypothesis about one cell, as the naming test of a cause sees it. */
interface NamedState {
  readonly story: CellStory;
  /** What the hypothesis holds against this cast, if that is of this cell or of no cell. */
  readonly doubt?: Doubt;
  readonly mean: (slot: CellSlot) => number;
  readonly standardDeviation: (slot: CellSlot) => number;
}

export interface Cause<Name extends string = string> {
  readonly name: Name;
  /** Whether cleaning the cell can mend it. */
  readonly mendedByCleaning: boolean;
  /** Whether it is of one cast and passes by itself. */
  readonly passesByItself: boolean;
  /**
   * Whether the cell is left as it is and corrected by its gain: among such causes it matters little which it is, once
   * the gain is known.
   */
  readonly leftAndCorrected: boolean;
  /** Ways a cell may already be of this cause when it is first seen. */
  readonly beginnings: readonly Beginning[];
  /** What its beginning leaves in the story of the cell; nothing where absent. */
  readonly begun?: (since: Since) => CellStory;
  readonly propose: (context: ProposalContext) => readonly Proposal[];
  /** Whether a hypothesis is of this cause; the first cause of the list that says so names it. */
  readonly names: (state: NamedState) => boolean;
  /** A doubt of this cause lasts as long as this shared error goes on unchanged; one cast where absent. */
  readonly goesOnWith?: string;
  /** The chance that it comes unseen by the next cast, and its sizes as half-normals toward fresh, ppm: for the forecast. */
  readonly mayCome?: {
    readonly chance: number;
    readonly sizes: readonly { readonly sd: number; readonly share: number }[];
  };
  /** Since when it stands, from the story of the cell; absent where it has no beginning of its own. */
  readonly since?: (
    story: CellStory,
  ) => { readonly kind: "step" | "drift"; readonly since: Since } | undefined;
  /** Why, in one sentence with the numbers. */
  readonly sentence: (grounds: Grounds) => string;
  /** What to do about it, beside cleaning. */
  readonly action: string;
}
