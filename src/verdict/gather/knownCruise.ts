// A cruise as input of the verdict: its casts without scans, and the results read from their scans, now or on demand.
import { group } from "d3-array";
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellName } from "../../cast/cast.js";
import type { Cruise, CruiseCast } from "../../cast/cruise.js";
import { bottlesLine } from "../../evidence/bottles/bottlesLine.js";
import { type ClosureReadings, closuresFromStored } from "../../evidence/bottles/closuresRead.js";
import { copiedSalinities } from "../../evidence/bottles/copiedSalinities.js";
import { ctdSalinities } from "../../evidence/bottles/ctdSalinities.js";
import { withLaboratoryRuns } from "../../evidence/bottles/laboratoryRuns.js";
import { maintenanceByCast } from "./maintenanceByCast.js";
import type { CastInputs } from "./observeCast.js";
import { type CastRead, readableCells, readCast } from "./readCast.js";

export interface KnownCast {
  /** Without its scans. */
  readonly cast: CruiseCast;
  /** Cells with columns in its file; none without scans. */
  readonly columns: readonly CellName[];
  /** Time on its own clock at the end of the cast. */
  readonly seconds?: number;
  /** Undefined without scans. */
  readonly read: () => CastRead | undefined;
}

export interface KnownCruise {
  readonly cruise: Cruise;
  /** In order of time. */
  readonly casts: readonly KnownCast[];
}

/** A cruise whose casts are read on demand, one after the other. */
export function knownFromScans(cruise: Cruise): KnownCruise {
  const bottles = group(cruise.bottles, ({ cast }) => cast);
  const listed = cruise.instrument.cells ?? [];
  const casts = cruise.casts.map((cast) => castToRead(cast, bottles.get(cast.id) ?? [], listed));
  return { cruise, casts };
}

/**
 * @param bottles closed on it
 * @param listed    cells that the instrument has, according to its description
 */
export function castToRead(
  { data, ...cast }: CruiseCast,
  bottles: readonly Bottle[],
  listed: readonly CellName[],
): KnownCast {
  const seconds = data?.columns.time_s?.at(-1);
  return {
    cast,
    columns: columnsOf(data),
    ...(seconds === undefined ? {} : { seconds }),
    read: () => data && readCast({ ...cast, data }, bottles, listed),
  };
}

/** @param read absent without scans */
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

/** The cells with readings on this cruise. */
export function cellsOf(cruise: Cruise): readonly CellName[] {
  return cellsKnown({
    cruise,
    casts: cruise.casts.map(({ data, ...cast }) => {
      return { cast, columns: columnsOf(data), read: () => undefined };
    }),
  });
}

export function cellsKnown({ cruise, casts }: KnownCruise): readonly CellName[] {
  const listed = cruise.instrument.cells ?? [];
  if (listed.length > 0) return listed;
  const found = (["primary", "secondary"] as const).filter(
    (cell) =>
      casts.some(({ columns }) => columns.includes(cell)) ||
      cruise.bottles.some(({ ctd }) => ctd?.[cell] !== undefined),
  );
  return found.length > 0 ? found : ["primary"];
}

/** The inputs for the evidence of a cast, by its index; its scans are read on the first call. */
export function castInputs(
  { cruise, casts }: KnownCruise,
  cells: readonly CellName[],
): (index: number) => CastInputs {
  const bottles = group(withLaboratoryRuns(cruise.bottles), ({ cast }) => cast);
  const maintenance = maintenanceByCast(cruise);
  const entriesAfter = (index: number) => maintenance.get(casts[index]?.cast.id) ?? [];
  const order = new Map(casts.map(({ cast }, i) => [cast.id, i]));
  // Casts that are read early, because their salinities also occur on another cast.
  const early = new Map<number, CastRead | undefined>();
  const readEarly = ({ id }: CruiseCast) => {
    const index = order.get(id)!;
    if (!early.has(index)) early.set(index, casts[index]!.read());
    return early.get(index)?.lines[bottlesLine.name] as ClosureReadings | undefined;
  };
  const sheets = casts.map(({ cast }) => cast);
  const reader = (cast: CruiseCast, own: readonly Bottle[]) =>
    closuresFromStored(readEarly(cast), own, cells).reader;
  const copied = new Map([
    ...ctdSalinities(sheets, bottles, cells, reader),
    ...copiedSalinities(sheets, bottles, cells, reader),
  ]);
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
