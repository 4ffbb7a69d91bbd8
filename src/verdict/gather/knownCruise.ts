// A cruise as the verdict needs it: its casts without their scans, and what was read from each, or will be when asked for.
import { group } from "d3-array";
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellName } from "../../cast/cast.js";
import type { Cruise, CruiseCast } from "../../cast/cruise.js";
import { bottlesLine } from "../../evidence/bottles/bottlesLine.js";
import { type ClosuresRead, closuresAgain } from "../../evidence/bottles/closuresRead.js";
import { copiedSalinities } from "../../evidence/bottles/copiedSalinities.js";
import { withLaboratoryRuns } from "../../evidence/bottles/laboratoryRuns.js";
import { maintenanceByCast } from "./maintenanceByCast.js";
import type { CastInputs } from "./observeCast.js";
import { type CastRead, readableCells, readCast } from "./readCast.js";

export interface KnownCast {
  /** Without its scans. */
  readonly cast: CruiseCast;
  /** Cells that its file has columns of; none without scans. */
  readonly columns: readonly CellName[];
  /** On its clock as it ends. */
  readonly seconds?: number;
  /** Undefined where it has no scans. */
  readonly read: () => CastRead | undefined;
}

export interface KnownCruise {
  readonly cruise: Cruise;
  /** In order. */
  readonly casts: readonly KnownCast[];
}

/** A cruise whose casts are read when they are asked for, one after the other. */
export function knownFromScans(cruise: Cruise): KnownCruise {
  const bottles = group(cruise.bottles, ({ cast }) => cast);
  const told = cruise.instrument.cells ?? [];
  const casts = cruise.casts.map((cast) => castToRead(cast, bottles.get(cast.id) ?? [], told));
  return { cruise, casts };
}

/**
 * @param bottles closed on it
 * @param told    cells that the instrument is said to have
 */
export function castToRead(
  { data, ...cast }: CruiseCast,
  bottles: readonly Bottle[],
  told: readonly CellName[],
): KnownCast {
  const seconds = data?.columns.time_s?.at(-1);
  return {
    cast,
    columns: columnsOf(data),
    ...(seconds === undefined ? {} : { seconds }),
    read: () => data && readCast({ ...cast, data }, bottles, told),
  };
}

/** @param read absent where it has no scans */
export function castRead(cast: CruiseCast, read: CastRead | undefined): KnownCast {
  return {
    cast,
    columns: read?.columns ?? [],
    ...(read?.seconds === undefined ? {} : { seconds: read.seconds }),
    read: () => read,
  };
}

function columnsOf(data: Cast | undefined): readonly CellName[] {
  return readableCells([], data, []);
}

/** The cells a cruise has readings of. */
export function cellsOf(cruise: Cruise): readonly CellName[] {
  return cellsKnown({
    cruise,
    casts: cruise.casts.map(({ data, ...cast }) => {
      return { cast, columns: columnsOf(data), read: () => undefined };
    }),
  });
}

export function cellsKnown({ cruise, casts }: KnownCruise): readonly CellName[] {
  const told = cruise.instrument.cells ?? [];
  if (told.length > 0) return told;
  const found = (["primary", "secondary"] as const).filter(
    (cell) =>
      casts.some(({ columns }) => columns.includes(cell)) ||
      cruise.bottles.some(({ ctd }) => ctd?.[cell] !== undefined),
  );
  return found.length > 0 ? found : ["primary"];
}

/** What the evidence of each cast is put together from, by its index; the scans are read when it is asked for. */
export function castInputs(
  { cruise, casts }: KnownCruise,
  cells: readonly CellName[],
): (index: number) => CastInputs {
  const bottles = group(withLaboratoryRuns(cruise.bottles), ({ cast }) => cast);
  const maintenance = maintenanceByCast(cruise);
  const entriesAfter = (index: number) => maintenance.get(casts[index]?.cast.id) ?? [];
  const order = new Map(casts.map(({ cast }, i) => [cast.id, i]));
  // Read before their turn, because their salinities stand on another cast too.
  const early = new Map<number, CastRead | undefined>();
  const readEarly = ({ id }: CruiseCast) => {
    const index = order.get(id)!;
    if (!early.has(index)) early.set(index, casts[index]!.read());
    return early.get(index)?.lines[bottlesLine.name] as ClosuresRead | undefined;
  };
  const copied = copiedSalinities(
    casts.map(({ cast }) => cast),
    bottles,
    cells,
    (cast, own) => closuresAgain(readEarly(cast), own, cells).reader,
  );
  return (index) => {
    const { cast, read } = casts[index]!;
    const own = bottles.get(cast.id) ?? [];
    const known = early.has(index) ? early.get(index) : read();
    early.delete(index);
    return {
      cast,
      ...(known === undefined ? {} : { read: known }),
      bottles: own,
      copied: own.map((bottle) => copied.get(bottle) ?? ""),
      entries: {
        before: index === 0 ? [] : entriesAfter(index - 1),
        after: entriesAfter(index),
      },
    };
  };
}
