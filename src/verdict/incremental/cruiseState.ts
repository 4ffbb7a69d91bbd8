// The state of a cruise in progress: its data so far, as plain values, and its verdicts. Scans are read when they arrive
// and are not stored.
import { group } from "d3-array";
import type { Cast } from "../../cast/cast.js";
import type { Cruise, CruiseCast } from "../../cast/cruise.js";
import { bottlesLine } from "../../evidence/bottles/bottlesLine.js";
import { type ClosureReadings, closuresAreOf } from "../../evidence/bottles/closuresRead.js";
import { BadInput } from "../../read/badInput.js";
import { checkKnownCruise } from "../../read/checkCruise.js";
import type { AssessmentSettings } from "../assessmentSettings.js";
import { castRead, castToRead, type KnownCast } from "../gather/knownCruise.js";
import type { CastRead } from "../gather/readCast.js";
import type { Verdict, VerdictDocument } from "../verdict.js";
import { fingerprintOf } from "./fingerprint.js";
import type { StoredCruise } from "./storedCruise.js";
import { updateVerdicts } from "./updateVerdicts.js";
import { verdictDocument } from "./verdictDocument.js";

/** The results read from the scans of one cast, and a fingerprint of the scans. */
export interface ReadOfCast {
  readonly cast: string;
  readonly read: CastRead;
  /** Notes from the check of its scans. */
  readonly notes: readonly string[];
  readonly fingerprint?: string;
}

/**
 * Plain values: they can be copied, sent to a worker, and written by `writeState`. The structure may change with any
 * release.
 */
export interface CruiseState {
  /** The data as given; casts without their scans. */
  readonly cruise: Cruise;
  readonly settings: Omit<AssessmentSettings, "onCast">;
  readonly reads: readonly ReadOfCast[];
  readonly stored?: StoredCruise;
}

export interface CruiseUpdate {
  readonly state: CruiseState;
  /** Verdict on the newest cast; absent before the first cast. */
  readonly verdict?: Verdict;
}

/** Settings of `withMore`. */
export interface MoreSettings extends Pick<AssessmentSettings, "onCast"> {
  /** May refuse scans by comparison with those read before; nothing is refused if absent. */
  readonly refuse?: (
    cast: string,
    fingerprint: string | undefined,
    reads: ReadonlyMap<string, ReadOfCast>,
  ) => void;
}

/**
 * The state with new data: the data are checked like files, new scans are read, and the verdicts are updated.
 * @param cruise all data now; a cast includes its scans if they must be read, for the first time or again
 * @throws BadInput if the readers would refuse its data, or if bottles cannot be read without scans
 */
export function withMore(
  state: CruiseState,
  cruise: Cruise,
  { refuse, onCast }: MoreSettings = {},
): CruiseUpdate {
  const { checked, ofScans } = checkedWith(state, cruise);
  const reads = new Map(state.reads.map((one) => [one.cast, one]));
  const bottles = group(checked.bottles, ({ cast }) => cast);
  const listed = checked.instrument.cells ?? [];
  const casts = checked.casts.map((given): KnownCast => {
    const { data, ...cast } = given;
    const { id } = cast;
    if (data === undefined) return castRead(cast, reads.get(id)?.read);
    const fingerprint = fingerprintOf(data);
    refuse?.(id, fingerprint, reads);
    const notes = ofScans.get(id) ?? [];
    const about = { cast: id, notes, ...(fingerprint === undefined ? {} : { fingerprint }) };
    const toRead = castToRead(given, bottles.get(id) ?? [], listed);
    const read = () => {
      const found = toRead.read()!;
      reads.set(id, { ...about, read: found });
      return found;
    };
    return { ...toRead, read };
  });
  const known = { cruise: { ...checked, casts: casts.map(({ cast }) => cast) }, casts };
  const unread = unreadCasts(reads.values(), checked);
  refuseUnread(unread.filter((id) => checked.casts.some((c) => c.id === id && !c.data)));
  const progress = onCast === undefined ? {} : { onCast };
  const stored = updateVerdicts(known, { ...state.settings, ...progress }, state.stored);
  const verdict = stored.casts.at(-1)?.verdict;
  const bare = { ...cruise, casts: cruise.casts.map(withoutScans) };
  const next = { ...state, cruise: bare, reads: [...reads.values()], stored };
  return { state: next, ...(verdict === undefined ? {} : { verdict }) };
}

/**
 * All verdicts of a state, equal to those of `assessCruise` for the same data.
 * @throws RangeError if it has no cast
 */
export function documentOf(state: CruiseState): VerdictDocument {
  const { checked } = checkedWith(state, state.cruise);
  const byCast = new Map(state.reads.map(({ cast, read }) => [cast, read]));
  const casts = checked.casts.map((cast) => castRead(cast, byCast.get(cast.id)));
  const known = { cruise: checked, casts };
  return verdictDocument(known, state.stored ?? updateVerdicts(known, state.settings));
}

function checkedWith({ reads }: CruiseState, cruise: Cruise) {
  const notes = new Map(reads.map(({ cast, notes }) => [cast, notes]));
  const { cruise: checked, ofScans } = checkKnownCruise(cruise, notes);
  return { checked, ofScans };
}

function withoutScans({ data: _, ...cast }: CruiseCast & { readonly data?: Cast }): CruiseCast {
  return cast;
}

/** Refuse scans that differ from those read before for this cast, and scans of another cast. */
export function refuseOther(
  id: string,
  fingerprint: string | undefined,
  reads: ReadonlyMap<string, ReadOfCast>,
): void {
  const fault = (found: string, expected: string, mend: string) =>
    new BadInput([{ file: `cast ${id}`, line: 0, column: "data", found, expected, mend }]);
  const own = reads.get(id);
  if (own !== undefined && own.fingerprint !== fingerprint) {
    const mend = "Give the same scans, or open the cruise again with the new ones.";
    throw fault(
      "scans that differ from those read before",
      "the scans that it was read from",
      mend,
    );
  }
  if (fingerprint === undefined) return;
  const twin = [...reads.values()].find(
    (one) => one.cast !== id && one.fingerprint === fingerprint,
  );
  if (twin !== undefined) {
    const mend = "Give each cast its own columns.";
    throw fault(`the scans of cast ${twin.cast}`, "each cast once", mend);
  }
}

/**
 * Casts with bottles that were not listed when the scans were read. The cell readings at closure are missing for them.
 * @param cruise checked
 */
export function unreadCasts(
  reads: Iterable<ReadOfCast>,
  { bottles }: Pick<Cruise, "bottles">,
): readonly string[] {
  const byCast = group(bottles, ({ cast }) => cast);
  return [...reads].flatMap(({ cast, read }) => {
    const closures = read.lines[bottlesLine.name] as ClosureReadings;
    return closuresAreOf(closures, byCast.get(cast) ?? []) ? [] : [cast];
  });
}

function refuseUnread(casts: readonly string[]): void {
  if (casts.length === 0) return;
  const mend =
    "Give the scans of this cast once more with the bottles. List all bottles of later casts as they come up, measured or not.";
  throw new BadInput(
    casts.map((cast) => ({
      file: "cruise",
      line: 0,
      column: "bottles",
      found: `bottles of cast ${cast} that were not listed with the cast, or closed elsewhere`,
      expected: "the bottles that were read with its scans",
      mend,
    })),
  );
}
