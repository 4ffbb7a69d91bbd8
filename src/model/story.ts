// What a hypothesis holds to have happened: the discrete half of the model, beside the coefficients.
import type { CellName } from "../cast/cast.js";
import type { CauseName } from "./causeNames.js";
import type { Place } from "./state.js";

/** When something began: before the down leg of a cast, within it, or at some time before the first. */
export interface Since {
  readonly cast: string;
  readonly when: "from the start" | "before" | "within" | "after";
  /** Where within the cast, if anything tells. */
  readonly place?: Place;
}

/** A film shed, or a cleaning it went through. */
export interface Going {
  /** Shed before or within this cast; cleaned after it. */
  readonly cast: string;
  readonly when: "before" | "within" | "after";
  readonly how: "shed" | "cleaned off" | "cleaned in part" | "cleaned in vain";
}

/** Film that sits in a cell. */
export interface FilmStory {
  readonly kind: "step" | "drift";
  readonly since: Since;
  /** What took it off, or was meant to, in order. */
  readonly gone: readonly Going[];
}

export interface CellStory {
  readonly film?: FilmStory;
  /** The clean gain is not what the calibration says. */
  readonly shifted?: Since;
  /** The cell answers to pressure more than a sound one. */
  readonly pressureResponse?: Since;
  /** The thermometer beside it is off. */
  readonly thermometerOff?: Since;
}

/** What is held against one cast: its references, its water, how its sensors answered. */
export interface Doubt {
  readonly cause: Exclude<
    CauseName,
    "sound" | "fouling" | "calibration-shift" | "pressure-response" | "temperature-error"
  >;
  /** The cell whose response it is; absent where the doubt is of the cast. */
  readonly cell?: CellName;
}

export interface Story {
  readonly cells: Readonly<Partial<Record<CellName, CellStory>>>;
  /** What is held against this cast's evidence rather than against a cell; forgotten at the next. */
  readonly doubt?: Doubt;
}

export const nothingHappened: CellStory = {};

export function cellStory(story: Story, cell: CellName): CellStory {
  return story.cells[cell] ?? nothingHappened;
}

/** The story with one cell's part replaced. */
export function retold(story: Story, cell: CellName, told: CellStory): Story {
  return { ...story, cells: { ...story.cells, [cell]: told } };
}

/** Two hypotheses with the same key differ only in their coefficients. */
export function storyKey(story: Story): string {
  return JSON.stringify([story.cells, story.doubt]);
}
