// Something that is due: what, when and why.
import type { CellName } from "../../cast/cast.js";
import { cautionsFor, type Hazard } from "../cautions.js";

export const occasions = [
  "before the next cast",
  "at the end of the leg",
  "before a transit",
] as const;
export type Occasion = (typeof occasions)[number];

export interface Due {
  readonly when: Occasion;
  readonly what: string;
  readonly because: string;
  /** What can hurt someone who does it; `cautionsOfDue` has the words. */
  readonly hazards: readonly Hazard[];
}

/** The cautions of all that is due, each once. */
export function cautionsOfDue(due: readonly Due[]): readonly string[] {
  return cautionsFor(due.flatMap(({ hazards }) => hazards));
}

export type At = (what: string, because: string, hazards?: readonly Hazard[]) => Due;

export function dueAt(when: Occasion): At {
  return (what, because, hazards = []) => ({ when, what, because, hazards });
}

/** "the cell" of one, "the primary cell", "both cells". */
export function namesOf(some: readonly CellName[], all: readonly CellName[]): string {
  if (all.length === 1) return "the cell";
  return some.length === all.length ? "both cells" : `the ${some.join(" and ")} cell`;
}
