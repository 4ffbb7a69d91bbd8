// The parts of a cruise, as read, put together: every part may be missing.
import type { Bottle } from "../cast/bottle.js";
import {
  type Cruise,
  type CruiseCast,
  defaultTarget,
  type InputFile,
  type Instrument,
  type NextStation,
} from "../cast/cruise.js";
import type { DeepReference } from "../cast/deepReference.js";
import type { MaintenanceEvent } from "../cast/maintenance.js";
import { BadInput } from "./badInput.js";
import { present } from "./present.js";
import { sameCasts } from "./sameCasts.js";

/** What is at hand. */
export interface CruiseParts {
  readonly name: string;
  readonly note?: string | undefined;
  /** With their data where there is any. */
  readonly casts: readonly CruiseCast[];
  readonly bottles?: readonly Bottle[];
  /** Casts as the bottle file knows them. */
  readonly bottleCasts?: readonly CruiseCast[];
  readonly maintenance?: readonly MaintenanceEvent[];
  readonly instrument?: Instrument;
  readonly target?: number | undefined;
  readonly nextStation?: NextStation | undefined;
  readonly deepReference?: DeepReference | undefined;
  readonly inputs: readonly InputFile[];
}

/**
 * @returns casts in order of time where all times are known, else as listed, those known from bottles only behind
 * @throws BadInput where two casts have one id
 */
export function assembleCruise(parts: CruiseParts): Cruise {
  refuseRepeated(parts.casts, parts.name);
  const listed = parts.casts.map(({ id }) => id);
  const fromBottles = sameCasts(listed, parts.bottles ?? [], "cast");
  const bottleCasts = sameCasts(listed, parts.bottleCasts ?? [], "id").records;
  const known = new Map(parts.casts.map((cast) => [cast.id, cast]));
  for (const cast of bottleCasts) known.set(cast.id, { ...cast, ...known.get(cast.id) });
  for (const { cast } of fromBottles.records) if (!known.has(cast)) known.set(cast, { id: cast });
  const casts = [...known.values()];
  const dateless = casts.find(({ start }) => start === undefined);
  if (dateless === undefined) casts.sort((a, b) => Date.parse(a.start!) - Date.parse(b.start!));
  const fromMaintenance = sameCasts([...known.keys()], parts.maintenance ?? [], "afterCast");
  const bare = casts.filter(({ id }) => !listed.includes(id)).map(({ id }) => id);
  const notes: Record<InputFile["role"], readonly string[]> = {
    cruise:
      dateless === undefined || casts.length < 2
        ? []
        : [`casts stand in the order of the list: cast ${dateless.id} has no start`],
    cast: [],
    reference: [],
    bottles: [
      ...fromBottles.notes,
      ...(bare.length > 0 && listed.length > 0
        ? [`bottles of casts without data: ${some(bare)}`]
        : []),
    ],
    maintenance: [
      ...fromMaintenance.notes,
      ...(fromMaintenance.strangers.length > 0
        ? [`entries after casts that are not known: ${some(fromMaintenance.strangers)}`]
        : []),
    ],
  };
  return present<Cruise>({
    name: parts.name,
    note: parts.note,
    casts,
    bottles: fromBottles.records,
    maintenance: fromMaintenance.records,
    instrument: parts.instrument ?? {},
    target: parts.target ?? defaultTarget,
    nextStation: parts.nextStation,
    deepReference: parts.deepReference,
    inputs: withNotes(parts.inputs, notes),
  });
}

function refuseRepeated(casts: readonly CruiseCast[], name: string): void {
  const ids = casts.map(({ id }) => id);
  const repeated = [...new Set(ids.filter((id, i) => ids.indexOf(id) < i))];
  if (repeated.length === 0) return;
  throw new BadInput(
    repeated.map((id) => ({
      file: name,
      line: 0,
      column: "id",
      found: `${ids.filter((other) => other === id).length} casts ${id}`,
      expected: "each cast once",
      mend: "Give each cast an id of its own.",
    })),
  );
}

/** Each note goes to the first file of its kind, or to the first of all. */
function withNotes(
  inputs: readonly InputFile[],
  notes: Readonly<Record<InputFile["role"], readonly string[]>>,
): readonly InputFile[] {
  const added = inputs.map(({ notes: own }) => [...own]);
  for (const role of ["cruise", "bottles", "maintenance"] as const) {
    const first = Math.max(
      0,
      inputs.findIndex((input) => input.role === role),
    );
    added[first]?.push(...notes[role]);
  }
  return inputs.map((input, i) => ({ ...input, notes: added[i]! }));
}

function some(ids: readonly string[]): string {
  return `${ids.slice(0, 10).join(", ")}${ids.length > 10 ? ` and ${ids.length - 10} more` : ""}`;
}
