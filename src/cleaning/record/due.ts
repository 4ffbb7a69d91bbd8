// A work that is due, with its time and reason.
import type * as z from "zod";
import type { CellName } from "../../cast/cast.js";
import type { Immutable } from "../../immutable.js";
import { cautionsFor, type Hazard } from "../cautions.js";
import type { dueSchema } from "./nextCastSchema.js";
import type { Occasion } from "./occasions.js";

export { type Occasion, occasions } from "./occasions.js";

export type Due = Immutable<z.infer<typeof dueSchema>>;

/** The cautions of all the work due, each once. */
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
