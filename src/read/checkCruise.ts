// Check a cruise built by a program, as files are checked: ids, times, lengths, units, impossible readings, bottles of
// unknown casts. A cruise read from files passes unchanged.
import type { Bottle } from "../cast/bottle.js";
import type { Cruise, CruiseCast } from "../cast/cruise.js";
import { removeImpossibleClosures } from "../cast/impossibleClosures.js";
import type { InputFile } from "../cast/inputFile.js";
import { BadInput, type Fault, quoted } from "./badInput.js";
import { castIdFault } from "./castIds.js";
import { checkedCast } from "./checkedCast.js";
import {
  checkBottle,
  checkEvent,
  checkedTime,
  checkPlace,
  closureDoubts,
  minuteNotes,
  type OnFault,
} from "./checkedParts.js";
import { checkSettings } from "./checkedSettings.js";
import { sameCasts } from "./sameCasts.js";

/**
 * Check a cruise made by a program in the same way as the readers check files.
 * @returns the cruise, with plain lists converted to Float64Arrays, and casts in order of time if every start is known;
 *   changes and odd values are noted in its `inputs`, under the name "cruise". The same object if there is nothing to note
 * @throws BadInput whose faults have `file` "cruise" or "cast" and its id, `line` 0, and the path in `column`
 */
export function checkCruise(cruise: Cruise): Cruise {
  return checkKnownCruise(cruise).cruise;
}

/** Notes on the scans of each cast, by its id. */
export type NotesOfScans = ReadonlyMap<string, readonly string[]>;

/**
 * The same for a cruise whose scans were checked before and are no longer there.
 * @param before notes from that check
 * @returns notes on the scans that are there too
 */
export function checkKnownCruise(
  cruise: Cruise,
  before: NotesOfScans = new Map(),
): { readonly cruise: Cruise; readonly ofScans: NotesOfScans } {
  const faults: Fault[] = [];
  const fault: OnFault = (column, found, expected, mend) =>
    faults.push({ file: "cruise", line: 0, column, found, expected, mend });
  for (const key of ["casts", "bottles", "maintenance", "inputs"] as const) {
    if (!Array.isArray(cruise?.[key])) {
      fault(
        key,
        quoted(cruise?.[key]),
        "a list",
        `Give ${key} as a list, empty where there are none.`,
      );
    }
  }
  if (faults.length > 0) throw new BadInput(faults);
  checkSettings(cruise, fault);

  const said = new Set(cruise.inputs.flatMap(({ notes }) => notes));
  const notes: string[] = [];
  // Do not repeat a note of a reader, with or without the cast's name.
  const note = (text: string) => {
    if (!said.has(text) && !said.has(text.replace(/^cast [^:]*: /, ""))) notes.push(text);
  };
  const ofScans = new Map(before);
  const seen = new Set<string>();
  const checked = cruise.casts.map((cast, i): CruiseCast => {
    const wrong = castIdFault(cast?.id);
    if (wrong !== undefined) fault(`casts.${i}.id`, wrong.found, wrong.expected, wrong.mend);
    else if (seen.has(cast.id)) {
      const found = `the id ${cast.id} a second time`;
      fault(`casts.${i}.id`, found, "each cast once", "Give each cast an id of its own.");
    }
    if (wrong !== undefined) return cast;
    seen.add(cast.id);
    checkPlace(cast, `casts.${i}`, fault);
    const start = checkedTime(`casts.${i}.start`, cast.start, fault);
    const data = dataOf(cast, faults, ofScans);
    for (const text of ofScans.get(cast.id) ?? []) note(text);
    const same = start === cast.start && data === cast.data;
    return same ? cast : { ...cast, ...(start && { start }), ...(data && { data }) };
  });
  refuseOneCastTwice(checked, fault);

  const ids = [...seen];
  const found = sameCasts(ids, cruise.bottles.map(withSalinity), "cast");
  for (const text of found.notes) note(text);
  // A shortened cruise keeps the bottles of later casts: these are skipped with a note. If no bottle belongs to any cast,
  // the ids are wrong.
  const ofNone = found.records.filter((bottle) => !seen.has(bottle?.cast));
  const some = ofNone.length < found.records.length;
  for (const [i, bottle] of found.records.entries()) {
    checkBottle(bottle, `bottles.${i}`, (id) => seen.has(id) || some, fault);
  }
  const ofCasts = some ? found.records.filter((bottle) => seen.has(bottle?.cast)) : found.records;
  if (some && ofNone.length > 0)
    note(`${ofNone.length} bottles skipped: they are of casts that the cruise does not have`);
  const events = sameCasts(ids, cruise.maintenance, "afterCast");
  for (const text of events.notes) note(text);
  const maintenance = events.records.map((event, i) => {
    checkEvent(event, `maintenance.${i}`, fault);
    const time = checkedTime(`maintenance.${i}.time`, event?.time, fault);
    return time === undefined || time === event.time ? event : { ...event, time };
  });
  if (faults.length > 0) throw new BadInput(faults);
  for (const cell of ["primary", "secondary"] as const) {
    for (const doubt of closureDoubts(ofCasts, cell)) note(doubt);
  }
  for (const text of minuteNotes(ofCasts, (id) => ofScans.has(id))) note(text);
  const possible = removeImpossibleClosures(once(ofCasts, note));
  for (const text of possible.notes) note(text);

  const casts = inOrder(checked, note);
  const same =
    notes.length === 0 &&
    alike(casts, cruise.casts) &&
    alike(possible.bottles, cruise.bottles) &&
    alike(maintenance, cruise.maintenance);
  if (same) return { cruise, ofScans };
  const input: InputFile = {
    name: "cruise",
    role: "cruise",
    rows: casts.length,
    leftOut: [],
    notes,
  };
  const inputs = notes.length === 0 ? cruise.inputs : [...cruise.inputs, input];
  return {
    cruise: { ...cruise, casts, bottles: possible.bottles, maintenance, inputs },
    ofScans,
  };
}

/** A bottle without the key was not measured, as one with NaN. */
function withSalinity(bottle: Bottle): Bottle {
  const isAbsent = typeof bottle === "object" && bottle !== null && bottle.salinity === undefined;
  return isAbsent ? { ...bottle, salinity: Number.NaN } : bottle;
}

function dataOf(cast: CruiseCast, faults: Fault[], ofScans: Map<string, readonly string[]>) {
  if (cast.data === undefined) return undefined;
  const notes: string[] = [];
  ofScans.set(cast.id, notes);
  try {
    return checkedCast(cast.data, cast.id, (text) => notes.push(text));
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    faults.push(...error.faults);
    return cast.data;
  }
}

/** One cast under two ids would count twice. */
function refuseOneCastTwice(casts: readonly CruiseCast[], fault: OnFault): void {
  const first = new Map<Float64Array, string>();
  for (const [i, { id, data }] of casts.entries()) {
    const column = data?.columns?.primary?.conductivity_mS_cm;
    if (!(column instanceof Float64Array) || column.length === 0) continue;
    const earlier = first.get(column);
    if (earlier === undefined) first.set(column, id);
    else {
      const found = `the conductivity of cast ${earlier}`;
      fault(`casts.${i}.data`, found, "each cast once", "Give each cast its own columns.");
    }
  }
}

/** Bottles that are equal in every property are one bottle, given twice. */
function once(bottles: readonly Bottle[], note: (text: string) => void): readonly Bottle[] {
  const keys = new Set<string>();
  const kept = bottles.filter(({ line: _, ...bottle }) => {
    const key = JSON.stringify(bottle);
    return !keys.has(key) && keys.add(key);
  });
  const twice = bottles.length - kept.length;
  if (twice === 0) return bottles;
  note(`${twice} bottles were given twice, the same in every way: counted once`);
  return kept;
}

function inOrder(casts: readonly CruiseCast[], note: (text: string) => void) {
  const times = casts.map(({ start }) => Date.parse(start ?? ""));
  if (times.every((time, i) => i === 0 || !(time < times[i - 1]!))) return casts;
  if (times.some(Number.isNaN)) return casts;
  note("the casts were put in order of time");
  return casts.toSorted((a, b) => Date.parse(a.start!) - Date.parse(b.start!));
}

function alike<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((item, i) => item === b[i]);
}
