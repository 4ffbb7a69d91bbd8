// The discrete half of a hypothesis: which events it holds to have happened, beside the state vector.
import type { CellName } from "../cast/cast.js";
import type { IntensityName } from "../cast/maintenance.js";
import type { Place } from "./course.js";

/** When something began: before the down leg of a cast, within it, after it, or at some time before the first. */
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
  /** How hard it was cleaned; absent where it was shed. */
  readonly by?: IntensityName;
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
  /** What else happened to the cell and stays: since when, by the name of its cause. */
  readonly events?: Readonly<Record<string, Since>>;
}

/** What is held against one cast: its references, its water, how its sensors answered. */
export interface Doubt {
  /** The name of a cause. */
  readonly cause: string;
  /** The cell whose response it is; absent where the doubt is of the cast. */
  readonly cell?: CellName;
}

export interface Story {
  readonly cells: Readonly<Partial<Record<CellName, CellStory>>>;
  /** What is held against this cast's evidence rather than against a cell; dropped at the next. */
  readonly doubt?: Doubt;
}

const nothingHappened: CellStory = {};

export function cellStory(story: Story, cell: CellName): CellStory {
  return story.cells[cell] ?? nothingHappened;
}

/** The story with one cell's part replaced. */
export function retold(story: Story, cell: CellName, told: CellStory): Story {
  return { ...story, cells: { ...story.cells, [cell]: told } };
}

/** The part of a cell with one more lasting event. */
export function withEvent(told: CellStory, cause: string, since: Since): CellStory {
  return { ...told, events: { ...told.events, [cause]: since } };
}

/**
 * Hypotheses with the same key differ only in their state vectors, and in the cast from which a film has grown: growth has no
 * sharp beginning, and one hypothesis for each cast would crowd out all others.
 */
export function storyKey({ cells, doubt }: Story): string {
  const told = Object.entries(cells).map(([cell, { film, events }]) => {
    const grows = film?.kind === "drift" ? { ...film, since: undefined } : film;
    return [cell, grows, events];
  });
  return JSON.stringify([told, doubt]);
}
