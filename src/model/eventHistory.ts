// The discrete half of a hypothesis: its events, beside the state vector.
import type { CellName } from "../cast/cast.js";
import type { IntensityName } from "../cast/maintenance.js";
import type { PlaceOnCast } from "./placesOnCast.js";

/** Onset of a change: before the down leg of a cast, within it, after it, or at some time before the first. */
export interface Since {
  readonly cast: string;
  readonly when: "from the start" | "before" | "within" | "after";
  /** Place within the cast, if known. */
  readonly place?: PlaceOnCast;
}

/** The shedding of a film, or a cleaning of it. */
export interface FilmRemoval {
  /** A film is shed before or within this cast, and cleaned after it. */
  readonly cast: string;
  readonly when: "before" | "within" | "after";
  readonly how: "shed" | "shed in part" | "cleaned off" | "cleaned in part" | "cleaned in vain";
  /** Intensity of the cleaning; absent if the film was shed. */
  readonly by?: IntensityName;
}

/** A film in a cell. */
export interface FilmEvents {
  readonly kind: "step" | "drift";
  /** A film that grows, but less on deck than in the water; if absent, as much. */
  readonly onDeck?: "less";
  readonly since: Since;
  /** Sheddings and cleanings of it, in order. */
  readonly removals: readonly FilmRemoval[];
}

export interface CellEvents {
  readonly film?: FilmEvents;
  /** Since when its clean gain drifts; absent if it does not. */
  readonly drift?: Since;
  /** Other lasting events of the cell: their onset, by the name of the cause. */
  readonly onsetByCause?: Readonly<Record<string, Since>>;
}

/** A doubt about one cast: about its references, its water or the response of its sensors. */
export interface Doubt {
  /** The name of a cause. */
  readonly cause: string;
  /** The cell whose response is in doubt; absent if the doubt concerns the whole cast. */
  readonly cell?: CellName;
  /** Whether it has lasted from the cast before although it might have ended; absent if not. */
  readonly lasted?: true;
}

export interface EventHistory {
  readonly cells: Readonly<Partial<Record<CellName, CellEvents>>>;
  /** Doubts about this cast's evidence rather than about a cell; dropped at the next cast. Absent if there are none. */
  readonly doubts?: readonly Doubt[];
}

const noEvents: CellEvents = {};

export function cellEvents(history: EventHistory, cell: CellName): CellEvents {
  return history.cells[cell] ?? noEvents;
}

/** Whether the film of the cell grows, or its clean gain drifts. */
export function changesSteadily({ film, drift }: CellEvents): boolean {
  return film?.kind === "drift" || drift !== undefined;
}

/** The event history with one cell's part replaced. */
export function withCellEvents(
  history: EventHistory,
  cell: CellName,
  ofCell: CellEvents,
): EventHistory {
  return { ...history, cells: { ...history.cells, [cell]: ofCell } };
}

/** The part of a cell with one more lasting event. */
export function withEvent(ofCell: CellEvents, cause: string, since: Since): CellEvents {
  return { ...ofCell, onsetByCause: { ...ofCell.onsetByCause, [cause]: since } };
}

/**
 * Hypotheses with the same key differ only in their state vectors, and in the onset of a growing film or of a drift. Neither
 * has a sharp onset, and one hypothesis for each cast would displace all others.
 */
export function eventKey({ cells, doubts }: EventHistory): string {
  const ofCells = Object.entries(cells).map(([cell, { film, drift, onsetByCause }]) => {
    const grows = film?.kind === "drift" ? { ...film, since: undefined } : film;
    return [cell, grows, drift !== undefined, onsetByCause];
  });
  return JSON.stringify([ofCells, doubts]);
}
