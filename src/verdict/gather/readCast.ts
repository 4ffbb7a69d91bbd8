// The results of the scans of one cast, as plain values of a few kB, read once. Later data (laboratory salinities, entries
// of the record, earlier casts) are combined with them without the scans.
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellName } from "../../cast/cast.js";
import type { CruiseCast } from "../../cast/cruise.js";
import { splitLegs } from "../../cast/splitLegs.js";
import { type ThinLayers, thinLayers } from "../../cast/thinLayers.js";
import type { ScanSources } from "../../evidence/evidenceLine.js";
import { evidenceLines } from "../../evidence/lines.js";
import { type WithinCast, withinCast } from "../../evidence/path/withinCast.js";
import { type CastHealth, castHealth, type UnreadSensor } from "../../health/castHealth.js";
import type { CastPath } from "../../model/placesOnCast.js";
import { type BottleDepth, calmDepthsOfScans } from "./calmDepths.js";
import { castPath } from "./castPath.js";
import { type MeasuredResponse, measureResponses } from "./cellResponse.js";
import { deepestScan, type PlacedReading } from "./deepestWater.js";
import { withoutUnread } from "./withoutUnread.js";

export interface CastRead {
  /** Cells with columns in the file. */
  readonly columns: readonly CellName[];
  /** Cells with readings on this cast. */
  readonly cells: readonly CellName[];
  /** The readings of each line of evidence, by its name. */
  readonly lines: Readonly<Record<string, unknown>>;
  readonly onsets: WithinCast["onsets"];
  readonly excursions: WithinCast["excursions"];
  readonly path?: CastPath;
  readonly responses: Readonly<Partial<Record<CellName, MeasuredResponse>>>;
  readonly health: CastHealth;
  /** The deepest scan of the first cell. */
  readonly deepest?: PlacedReading;
  /** The best depths for a bottle. */
  readonly calm: readonly BottleDepth[];
  /** Time on the clock of the cast at its end, if it has one. */
  readonly seconds?: number;
  readonly rebuiltFromSalinity: boolean;
  /** Notes on its legs. */
  readonly notes: readonly string[];
}

/**
 * @param cast    with its scans
 * @param bottles closed on it, measured or not
 * @param listed    cells that the instrument has, according to its description; those with data if none are given
 */
export function readCast(
  { data, ...cast }: CruiseCast & { readonly data: Cast },
  bottles: readonly Bottle[],
  listed: readonly CellName[],
): CastRead {
  const legs = splitLegs(data);
  const health = castHealth(data, legs);
  const cells = readableCells(listed, data, bottles).filter((cell) =>
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
    responses: measureResponses(readings, legs, cells, within, health),
    health,
    ...(deepest === undefined ? {} : { deepest }),
    calm:
      health.unread.length > 0
        ? calmDepthsOfScans(data, legs)
        : calmDepthsOfScans(readings, legs, thin),
    ...(seconds === undefined ? {} : { seconds }),
    rebuiltFromSalinity: data.conductivityFrom === "salinity",
    notes: [...legs.notes, ...cells.flatMap((cell) => lateFlow(cell, thin))],
  };
}

function lateFlow(cell: CellName, { of }: ThinLayers): readonly string[] {
  const { flowFrom_dbar } = of("down", cell);
  if (flowFrom_dbar === undefined) return [];
  return [
    `${cell} cell: above ${flowFrom_dbar.toFixed(0)} dbar on the way down its salinity is off by over 2 %, as without flow. These scans are not used`,
  ];
}

/**
 * Whether bottles have finer readings than coarse scans. A stuck sensor has no better reading at closure than in its scans.
 */
function finerBeside(bottles: readonly Bottle[], { cell, why }: UnreadSensor): boolean {
  return why === "coarse" && bottles.some(({ ctd }) => ctd?.[cell] !== undefined);
}

/** The cells with readings in scans or bottles, in the given order. */
export function readableCells(
  listed: readonly CellName[],
  data: Cast | undefined,
  bottles: readonly Bottle[],
): readonly CellName[] {
  const all = listed.length > 0 ? listed : (["primary", "secondary"] as const);
  return all.filter(
    (cell) =>
      data?.columns[cell] !== undefined || bottles.some(({ ctd }) => ctd?.[cell] !== undefined),
  );
}
