// Combine the parts of a cruise, as read; every part may be missing.
import { rollup } from "d3-array";
import type { Bottle } from "../cast/bottle.js";
import {
  type Cruise,
  type CruiseCast,
  defaultTarget,
  type Instrument,
  type NextStation,
} from "../cast/cruise.js";
import type { DeepReference } from "../cast/deepReference.js";
import type { InputFile } from "../cast/inputFile.js";
import type { MaintenanceEvent } from "../cast/maintenance.js";
import { BadInput } from "./badInput.js";
import { present } from "./present.js";
import { sameCasts } from "./sameCasts.js";

/** The available parts. */
export interface CruiseParts {
  readonly name: string;
  readonly note?: string | undefined;
  /** With their data if available. */
  readonly casts: readonly CruiseCast[];
  /** Whether some cast has scans, here or read before; taken from the data if absent. */
  readonly hasScans?: boolean;
  readonly bottles?: readonly Bottle[];
  /** Casts named in the bottle file. */
  readonly bottleCasts?: readonly CruiseCast[];
  readonly maintenance?: readonly MaintenanceEvent[];
  readonly instrument?: Instrument;
  readonly target?: number | undefined;
  readonly nextStation?: NextStation | undefined;
  /** Time on board minus UTC, such as "+02:00". */
  readonly timeZone?: string | undefined;
  readonly deepReference?: DeepReference | undefined;
  readonly inputs: readonly InputFile[];
}

/**
 * Put the parts of a cruise together.
 * @returns casts in order of time if all times are known, otherwise as listed; casts known only from bottles come last
 * @throws BadInput if two casts have the same id or are the same file; also if there are casts and bottles, but no bottle
 *   belongs to any of the casts
 */
export function assembleCruise(parts: CruiseParts): Cruise {
  refuseRepeated(parts.casts, parts.name);
  refuseOneFileTwice(parts.inputs);
  const listed = parts.casts.map(({ id }) => id);
  const fromBottles = sameCasts(listed, parts.bottles ?? [], "cast");
  refuseStrangers(parts, fromBottles.records, listed);
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
    timeZone: parts.timeZone,
    deepReference: parts.deepReference,
    inputs: withNotes(parts.inputs, notes),
  });
}

function refuseRepeated(casts: readonly CruiseCast[], name: string): void {
  const counts = rollup(
    casts,
    (same) => same.length,
    ({ id }) => id,
  );
  const faults = [...counts].flatMap(([id, count]) =>
    count === 1
      ? []
      : [
          {
            file: name,
            line: 0,
            column: "id",
            found: `${count} casts ${id}`,
            expected: "each cast once",
            mend: "Give each cast an id of its own.",
          },
        ],
  );
  if (faults.length > 0) throw new BadInput(faults);
}

/** The same bytes under two names, or one profile under two ids, would count one cast twice. */
function refuseOneFileTwice(inputs: readonly InputFile[]): void {
  const first = new Map<string, string>();
  const faults = inputs.flatMap(({ role, name, sha256, part }) => {
    if (role !== "cast" || sha256 === undefined) return [];
    const key = JSON.stringify([sha256, part]);
    const earlier = first.get(key);
    if (earlier === undefined) first.set(key, name);
    return earlier === undefined
      ? []
      : [
          {
            file: name,
            line: 0,
            found:
              part === undefined
                ? `the same bytes as in ${earlier}`
                : `the same profile, ${part}, as in ${earlier}`,
            expected: "each cast once",
            mend: "Remove the copy, or name the right file.",
          },
        ];
  });
  if (faults.length > 0) throw new BadInput(faults);
}

/** If no bottle was closed on any of the casts, they are from another cruise, or the casts have other names. */
function refuseStrangers(
  { casts, inputs, name, hasScans = casts.some(({ data }) => data !== undefined) }: CruiseParts,
  bottles: readonly Bottle[],
  listed: readonly string[],
): void {
  if (bottles.length === 0 || !hasScans) return;
  const known = new Set(listed);
  if (bottles.some(({ cast }) => known.has(cast))) return;
  throw new BadInput([
    {
      file: inputs.find(({ role }) => role === "bottles")?.name ?? name,
      line: 0,
      column: "cast",
      found: `bottles of ${some([...new Set(bottles.map(({ cast }) => cast))])}, and casts ${some(listed)}: none in common`,
      expected: "bottles that name the casts they were closed on",
      mend: "Name the casts as the bottles do: by the file name (001.csv) or by `id` in cruise.json. For a single cast use --cast.",
    },
  ]);
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
