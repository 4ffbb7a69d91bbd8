// What the scans of one cast tell, read once while they are at hand: plain values of a few kB. Whatever comes later,
// laboratory salinities, entries of the record, casts before it, is laid beside this, and the scans are not needed again.
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellName } from "../../cast/cast.js";
import type { CruiseCast } from "../../cast/cruise.js";
import { splitLegs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import type { ScanSources } from "../../evidence/evidenceLine.js";
import { evidenceLines } from "../../evidence/lines.js";
import { type WithinCast, withinCast } from "../../evidence/path/withinCast.js";
import { type CastHealth, castHealth, type UnreadSensor } from "../../health/castHealth.js";
import type { CastPath } from "../../model/course.js";
import { type OwnAnswer, ownAnswers } from "./answer.js";
import { type BottleDepth, calmDepthsOfScans } from "./calmDepths.js";
import { castPath } from "./castPath.js";
import { deepestScan, type PlacedReading } from "./deepestWater.js";
import { withoutUnread } from "./withoutUnread.js";

export interface CastRead {
  /** Cells that the file has columns of. */
  readonly columns: readonly CellName[];
  /** Cells that this cast has readings of. */
  readonly cells: readonly CellName[];
  /** What each line of evidence read, by its name. */
  readonly lines: Readonly<Record<string, unknown>>;
  readonly onsets: WithinCast["onsets"];
  readonly excursions: WithinCast["excursions"];
  readonly path?: CastPath;
  readonly answers: Readonly<Partial<Record<CellName, OwnAnswer>>>;
  readonly health: CastHealth;
  /** The deepest scan of the first cell. */
  readonly deepest?: PlacedReading;
  /** Where a bottle would say most. */
  readonly calm: readonly BottleDepth[];
  /** On the clock of the cast as it ends, where it has one. */
  readonly seconds?: number;
  readonly rebuiltFromSalinity: boolean;
  /** Of its legs. */
  readonly notes: readonly string[];
}

/**
 * @param cast    with its scans
 * @param bottles closed on it, measured or not
 * @param told    cells that the instrument is said to have; those of the data where none are
 */
export function readCast(
  { data, ...cast }: CruiseCast & { readonly data: Cast },
  bottles: readonly Bottle[],
  told: readonly CellName[],
): CastRead {
  const legs = splitLegs(data);
  const health = castHealth(data, legs);
  const cells = readableCells(told, data, bottles).filter((cell) =>
    health.unread.every((sensor) => sensor.cell !== cell || finerBeside(bottles, sensor)),
  );
  const readings = withoutUnread(data, health.unread);
  const thin = thinLayers(readings, legs);
  const within = withinCast(readings, legs, thin, cells);
  const sources: ScanSources = {
    cast,
    cells,
    scans: { data: readings, legs, thin, within },
    bottles,
  };
  const path = castPath(readings, legs);
  const deepest = cells[0] && deepestScan(readings, cells[0]);
  const seconds = data.columns.time_s?.at(-1);
  return {
    columns: readableCells([], data, []),
    cells,
    lines: Object.fromEntries(evidenceLines.map(({ name, read }) => [name, read?.(sources)])),
    onsets: within.onsets,
    excursions: within.excursions,
    ...(path === undefined ? {} : { path }),
    answers: ownAnswers(readings, legs, cells, within, health),
    health,
    ...(deepest === undefined ? {} : { deepest }),
    calm:
      health.unread.length > 0
        ? calmDepthsOfScans(data, legs)
        : calmDepthsOfScans(readings, legs, thin),
    ...(seconds === undefined ? {} : { seconds }),
    rebuiltFromSalinity: data.conductivityFrom === "salinity",
    notes: legs.notes,
  };
}

/** What a sensor that stood read as a bottle closed is no better than its scans; coarse scans may have finer readings beside the bottles. */
function finerBeside(bottles: readonly Bottle[], { cell, why }: UnreadSensor): boolean {
  return why === "coarse" && bottles.some(({ ctd }) => ctd?.[cell] !== undefined);
}

/** The cells that scans or bottles have readings of, in the order told. */
export function readableCells(
  told: readonly CellName[],
  data: Cast | undefined,
  bottles: readonly Bottle[],
): readonly CellName[] {
  const all = told.length > 0 ? told : (["primary", "secondary"] as const);
  return all.filter(
    (cell) =>
      data?.columns[cell] !== undefined || bottles.some(({ ctd }) => ctd?.[cell] !== undefined),
  );
}
