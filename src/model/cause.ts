// The contract of a cause: the events that it proposes, their effect on the observations, the test that names it, and the
// action. A cause is a record of plain functions. At every cast it may propose one or more events to each hypothesis. A
// proposal adds coefficients with priors to the linear model of the cast, or increases the variance of some observations.
// All is linear and Gaussian, so the marginal likelihood of every proposal has a closed form. The posterior ranks the
// proposals. A new cause is a file, and a line in causes/index.ts.
import type { CellName } from "../cast/cast.js";
import type { CauseEstimates } from "./causeEstimates.js";
import type { CellEvents, Doubt, EventHistory, Since } from "./eventHistory.js";
import type { CellSlot } from "./layout.js";
import type { Observation, Onset } from "./observation.js";
import type { ChangePlaces, TransientCandidate } from "./placesOnCast.js";
import type { ResponseSigns } from "./responseSigns.js";

/** A new coefficient a, with a prior, that acts on slots of the state. */
export interface Coefficient {
  /** The amount that a = 1 adds to each slot. */
  readonly acts: readonly (
    | { readonly cell: CellName; readonly slot: CellSlot; readonly weight: number }
    | { readonly shared: string; readonly weight: number }
  )[];
  /** Prior standard deviation about zero, in units of the slot; with `notPositive`, the scale of the half-normal. */
  readonly sd: number;
  /** The cell whose `event` slot holds a, where a is known not to be positive. */
  readonly notPositive?: CellName;
}

/** The share of a film that stays after it is shed or cleaned: mean and standard deviation. */
export interface Retained {
  readonly mean: number;
  readonly sd: number;
}

/** One event that a cause proposes for this cast, with its effect on the state and the observations. */
export interface Proposal {
  readonly prior: number;
  readonly coefficients: readonly Coefficient[];
  /** A film that is shed from these cells: the share of it that stays, before any coefficient acts. */
  readonly shed?: {
    readonly cells: readonly CellName[];
    readonly when: "before" | "within";
    readonly retained: Retained;
  };
  /** A clean gain that is redrawn because of a calibration, ppm, before any coefficient acts. */
  readonly redrawnClean?: { readonly cell: CellName; readonly sd: number };
  /**
   * Variance added to that of an observation, in the square of its unit. Proposals that add the same variances share one
   * function.
   */
  readonly extraVariance?: (observation: Observation) => number;
  /** Place of a change within the cast, if it came within. */
  readonly places?: ChangePlaces;
  /** Log of the likelihood ratio of the sensor response under this proposal and under a sound response; 0 if absent. */
  readonly logResponse?: number;
  /** The event history with the new event, if there is one. */
  readonly events?: EventHistory;
  /** Doubts about this cast's evidence, if any; they may be combined with any one event of a cell. */
  readonly doubts?: readonly Doubt[];
}

/** The facts that a cause may use when it proposes. */
export interface ProposalContext {
  readonly cast: string;
  readonly cells: readonly CellName[];
  /**
   * The effective number of independent observations of each line of this cast, by their weights; absent lines are absent.
   */
  readonly lines: ReadonlyMap<string, number>;
  /** Names of the shared errors that are unchanged since the cast before. */
  readonly unchangedErrors: ReadonlySet<string>;
  /** Place of a change, by cell, from the scans. */
  readonly onsets: Readonly<Partial<Record<CellName, Onset>>>;
  /** Excursions within the cast: changes that came and went. */
  readonly excursions: readonly TransientCandidate[];
  /** The response of the sensors, by cell. */
  readonly response: Readonly<Partial<Record<CellName, ResponseSigns>>>;
  /** Number of casts since the last one with evidence, this one included; the probability of an event grows with it. */
  readonly castsSinceEvidence: number;
  /** Time in the water on this cast; 0 if unknown. */
  readonly inWater_days: number;
  /** Time on deck since the cast before; 0 before the first cast. */
  readonly onDeck_days: number;
  readonly events: EventHistory;
}

/** The state of a cell at the start of the cruise, or after an exchange or a calibration. */
export interface InitialState {
  readonly prior: number;
  /**
   * Prior that both cells of a package start in this state together, in addition to the independent priors. Both had the
   * same water and storage, and the pair does not show a common error.
   */
  readonly priorOfBoth?: number;
  /** Mean of the clean gain, ppm; 0 if absent. */
  readonly cleanMean?: number;
  /** Standard deviation of the clean gain, ppm. */
  readonly cleanSd: number;
  /** Mean of the pressure response, ppm per 1000 dbar; 0 if absent. */
  readonly pressureMean?: number;
  /** Standard deviation of the pressure response, ppm per 1000 dbar. */
  readonly pressureSd: number;
  /** Standard deviation of the error of the thermometer of this cell, mK; 0 if absent. */
  readonly thermometerSd?: number;
  /**
   * Scale of the half-normal prior of a film already in the cell, ppm. With `filmMean` the prior is normal about it, and
   * not positive.
   */
  readonly filmSd?: number;
  readonly filmMean?: number;
  /** Standard deviation of its additive offset, uS/cm; if absent that of a sound cell. */
  readonly offsetSd?: number;
}

/** One hypothesis about one cell: the input of the naming test. */
interface MatchedState {
  readonly events: CellEvents;
  /** Whether there is a doubt of this cause about the cast, for this cell or the whole cast. */
  readonly isDoubted: (cause: string) => boolean;
  readonly mean: (slot: CellSlot) => number;
  readonly standardDeviation: (slot: CellSlot) => number;
}

export interface Cause<Name extends string = string> {
  readonly name: Name;
  /** Whether cleaning the cell can remove it; absent: no. */
  readonly removedByCleaning?: boolean;
  /** Whether it concerns one cast only; absent: no. */
  readonly isTemporary?: boolean;
  /**
   * Whether the action is only to correct the cell by its gain. Causes with this action need not be distinguished once the
   * gain is known. Absent: no.
   */
  readonly isCorrectedOnly?: boolean;
  /** Initial states of a cell under this cause; absent: no cell starts with it. */
  readonly initialStates?: readonly InitialState[];
  /** The events of a cell that starts with this cause; absent if there are none. */
  readonly initialEvents?: (since: Since) => CellEvents;
  readonly propose: (context: ProposalContext) => readonly Proposal[];
  /** Whether a hypothesis belongs to this cause; the first cause in the list that matches gives the name. */
  readonly matches: (state: MatchedState) => boolean;
  /** A doubt of this cause lasts until the shared error of this name is redrawn; if absent, it lasts one cast. */
  readonly doubtLastsWith?: string;
  /**
   * For the forecast: the probability of a new event of this cause by the next cast, and its sizes, half-normal and negative, ppm.
   */
  readonly newEvent?: {
    readonly chance: number;
    readonly sizes: readonly { readonly sd: number; readonly share: number }[];
  };
  /** Its onset, from the events of the cell; absent if it has no onset of its own. */
  readonly since?: (
    events: CellEvents,
  ) => { readonly kind: "step" | "drift"; readonly since: Since } | undefined;
  /** The reason, in one sentence with the numbers. */
  readonly sentence: (grounds: CauseEstimates) => string;
  /** Action other than cleaning, beside the usual rinse; "" if there is none. */
  readonly action: string;
}
