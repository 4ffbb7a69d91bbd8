// A cruise that is carried on: what came so far, as plain values, and the verdicts on it. Scans are read as they come and
// are not kept.
import { group } from "d3-array";
import type { Cast } from "../../cast/cast.js";
import type { Cruise, CruiseCast } from "../../cast/cruise.js";
import { bottlesLine } from "../../evidence/bottles/bottlesLine.js";
import { type ClosuresRead, closuresAreOf } from "../../evidence/bottles/closuresRead.js";
import { BadInput } from "../../read/badInput.js";
import { checkKnownCruise } from "../../read/checkCruise.js";
import type { AssessmentSettings } from "../assessmentSettings.js";
import { castRead, castToRead, type KnownCast } from "../gather/knownCruise.js";
import type { CastRead } from "../gather/readCast.js";
import type { Verdict, VerdictDocument } from "../verdict.js";
import { carryOn } from "./carryOn.js";
import { fingerprintOf } from "./fingerprint.js";
import type { Kept } from "./kept.js";
import { verdictDocument } from "./verdictDocument.js";

/** What was read of one cast, and by what it is known again. */
export interface ReadOfCast {
  readonly cast: string;
  readonly read: CastRead;
  /** What was said of its scans at the door. */
  readonly notes: readonly string[];
  readonly fingerprint?: string;
}

/** Plain values: it can be copied, sent to a worker, and written by `writeState`. Its parts change with any release. */
export interface CruiseState {
  /** As it came; casts without their scans. */
  readonly cruise: Cruise;
  readonly settings: Omit<AssessmentSettings, "onCast">;
  readonly reads: readonly ReadOfCast[];
  readonly kept?: Kept;
}

export interface Carried {
  readonly state: CruiseState;
  /** On the newest cast; absent before the first. */
  readonly verdict?: Verdict;
}

/** What a caller of `withMore` may choose. */
export interface MoreSettings extends Pick<AssessmentSettings, "onCast"> {
  /** Refuses scans by what was read before; nothing is refused where absent. */
  readonly refuse?: (
    cast: string,
    fingerprint: string | undefined,
    reads: ReadonlyMap<string, ReadOfCast>,
  ) => void;
}

/**
 * The state with something more: checked as the files are, what is new of scans read, and the verdicts carried on.
 * @param cruise as it is known now; a cast has its scans where they are to be read, again or for the first time
 * @throws BadInput where it holds what the readers refuse, or where bottles cannot be read without scans
 */
export function withMore(
  state: CruiseState,
  cruise: Cruise,
  { refuse, onCast }: MoreSettings = {},
): Carried {
  const { checked, ofScans } = checkedWith(state, cruise);
  const reads = new Map(state.reads.map((one) => [one.cast, one]));
  const bottles = group(checked.bottles, ({ cast }) => cast);
  const told = checked.instrument.cells ?? [];
  const casts = checked.casts.map((given): KnownCast => {
    const { data, ...cast } = given;
    const { id } = cast;
    if (data === undefined) return castRead(cast, reads.get(id)?.read);
    const fingerprint = fingerprintOf(data);
    refuse?.(id, fingerprint, reads);
    const notes = ofScans.get(id) ?? [];
    const about = { cast: id, notes, ...(fingerprint === undefined ? {} : { fingerprint }) };
    const toRead = castToRead(given, bottles.get(id) ?? [], told);
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
  const kept = carryOn(known, { ...state.settings, ...progress }, state.kept);
  const verdict = kept.casts.at(-1)?.verdict;
  const bare = { ...cruise, casts: cruise.casts.map(withoutScans) };
  const next = { ...state, cruise: bare, reads: [...reads.values()], kept };
  return { state: next, ...(verdict === undefined ? {} : { verdict }) };
}

/**
 * All verdicts of a state, as `assessCruise` gives them for everything that is known.
 * @throws RangeError where it has no cast
 */
export function documentOf(state: CruiseState): VerdictDocument {
  const { checked } = checkedWith(state, state.cruise);
  const byCast = new Map(state.reads.map(({ cast, read }) => [cast, read]));
  const casts = checked.casts.map((cast) => castRead(cast, byCast.get(cast.id)));
  const known = { cruise: checked, casts };
  return verdictDocument(known, state.kept ?? carryOn(known, state.settings));
}

function checkedWith({ reads }: CruiseState, cruise: Cruise) {
  const notes = new Map(reads.map(({ cast, notes }) => [cast, notes]));
  const { cruise: checked, ofScans } = checkKnownCruise(cruise, notes);
  return { checked, ofScans };
}

function withoutScans({ data: _, ...cast }: CruiseCast & { readonly data?: Cast }): CruiseCast {
  return cast;
}

/** The scans of a cast that was read are its own, and of no other cast. */
export function refuseOther(
  id: string,
  fingerprint: string | undefined,
  reads: ReadonlyMap<string, ReadOfCast>,
): void {
  const fault = (found: string, expected: string, mend: string) =>
    new BadInput([{ file: `cast ${id}`, line: 0, column: "data", found, expected, mend }]);
  const own = reads.get(id);
  if (own !== undefined && own.fingerprint !== fingerprint) {
    const mend = "Give the same scans, or open the cruise anew with the new ones.";
    throw fault("other scans than it came with", "the scans that it was read from", mend);
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
 * Casts with bottles that were not listed as its scans were read: what the cells read as they closed stands there.
 * @param cruise checked
 */
export function unreadCasts(
  reads: Iterable<ReadOfCast>,
  { bottles }: Pick<Cruise, "bottles">,
): readonly string[] {
  const byCast = group(bottles, ({ cast }) => cast);
  return [...reads].flatMap(({ cast, read }) => {
    const closures = read.lines[bottlesLine.name] as ClosuresRead;
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
      found: `bottles of cast ${cast} that were not listed as it came up, or closed elsewhere`,
      expected: "those that were read with its scans",
      mend,
    })),
  );
}
