// The evidence of one cast from the results of its scans, its bottles, the record and the casts before. The scans
// themselves are not needed.
import { group } from "d3-array";
import type { Bottle } from "../../cast/bottle.js";
import type { CellName } from "../../cast/cast.js";
import type { CruiseCast } from "../../cast/cruise.js";
import type { DeepReference } from "../../cast/deepReference.js";
import type { EntriesAround } from "../../evidence/air/airReadings.js";
import type { BottleNoise } from "../../evidence/bottles/bottleNoise.js";
import { bottlesLine } from "../../evidence/bottles/bottlesLine.js";
import type { CastSources, LineOutput } from "../../evidence/evidenceLine.js";
import { evidenceLines } from "../../evidence/lines.js";
import type { CastHealth, UnreadSensor } from "../../health/castHealth.js";
import type { LineResult } from "../../model/observation.js";
import type { Water } from "../../model/salinityError.js";
import type { TrackedInput } from "../../track/tracked.js";
import { type BottleDepth, calmDepthsOfBottles } from "./calmDepths.js";
import { type CellResponse, compareWithEarlier, type PriorResponse } from "./cellResponse.js";
import { deepestWater } from "./deepestWater.js";
import { type CastRead, readableCells } from "./readCast.js";

/** All evidence of one cast. */
export interface CastEvidence {
  /** Without its scans. */
  readonly cast: CruiseCast;
  /** Lines with observations or with excluded items. */
  readonly lines: readonly LineResult[];
  /** The same for display: some lines show their observations against each cell separately. */
  readonly shown: readonly LineResult[];
  readonly tracked: TrackedInput;
  /** The deepest water of this cast, in which its salinity errors are expressed. */
  readonly water?: Water;
  /** The response of each cell, for comparison from cast to cast. */
  readonly responses: Readonly<Partial<Record<CellName, CellResponse>>>;
  /** Scatter of the cruise's bottles, this cast included. */
  readonly bottleNoise: BottleNoise;
  /** Absent without scans. */
  readonly health?: CastHealth;
  /** Sensors that give no information on this cast. */
  readonly unread: readonly UnreadSensor[];
  /** The best depths for a bottle at this station. */
  readonly depths: readonly BottleDepth[];
  readonly hasScans: boolean;
  readonly notes: readonly string[];
}

/** The inputs for the evidence of one cast: plain values. */
export interface CastInputs {
  /** Without its scans. */
  readonly cast: CruiseCast;
  /** Absent if there are only bottles. */
  readonly read?: CastRead;
  readonly bottles: readonly Bottle[];
  /** For each bottle, the reason why its salinity belongs to another cast; empty if it is its own. */
  readonly copied: readonly string[];
  readonly entries: EntriesAround;
}

/** Memory of each line, by its name: plain values. */
export type Memories = Readonly<Record<string, unknown>>;

/**
 * @param earlier  response of the cells on the casts before, in order
 * @param memories of the lines after the cast before
 * @param prior  response of the cells on earlier cruises
 * @param listed   cells that the instrument has, according to its description; those with data if none are given
 */
export function observeCast(
  { cast, read, bottles, copied, entries }: CastInputs,
  listed: readonly CellName[],
  deepReference: DeepReference | undefined,
  earlier: readonly CastRead["responses"][],
  memories: Memories,
  prior: PriorResponse = {},
): { readonly found: CastEvidence; readonly memories: Memories } {
  const sources: Omit<CastSources, "found"> = {
    cast,
    cells: read?.cells ?? readableCells(listed, undefined, bottles),
    bottles,
    copied: new Map(bottles.flatMap((bottle, i) => (copied[i] ? [[bottle, copied[i]]] : []))),
    entries,
    ...(deepReference === undefined ? {} : { deepReference }),
  };
  const lines: LineResult[] = [];
  const observed = evidenceLines.map((line) => {
    const memory = line.name in memories ? memories[line.name] : line.begin;
    const brought: LineOutput<unknown> = line.observe(
      { ...sources, found: [...lines] },
      memory,
      read?.lines[line.name],
    );
    lines.push(...brought.lines);
    return { line, ...brought };
  });
  const remembered = Object.fromEntries(observed.map(({ line, memory }) => [line.name, memory]));
  const present = lines.filter(hasAnything);
  const responses = compareWithEarlier(read?.responses ?? {}, earlier, prior);
  const water = deepestWater(sources.cells, read?.deepest, bottles);
  const observations = present.flatMap((one) => one.observations);
  const calm = read?.calm ?? [];
  const found: CastEvidence = {
    cast,
    lines: present,
    shown: observed.flatMap(({ line, lines, byCell }) =>
      line.shown ? shownOf(lines.filter(hasAnything), byCell) : [],
    ),
    tracked: {
      cast: cast.id,
      ...(cast.start === undefined ? {} : { start: cast.start }),
      observations,
      onsets: read?.onsets ?? {},
      excursions: read?.excursions ?? [],
      response: Object.fromEntries(
        Object.entries(responses).map(([cell, { signs }]) => [cell, signs]),
      ),
      evolutions: Object.assign({}, ...observed.map(({ evolutions }) => evolutions ?? {})),
      ...(read?.path === undefined ? {} : { path: read.path }),
      maintenanceAfter: entries.after,
    },
    responses,
    bottleNoise: (remembered[bottlesLine.name] as typeof bottlesLine.begin).noise,
    ...(read === undefined ? {} : { health: read.health }),
    unread: read?.health.unread.filter(({ cell }) => !read.cells.includes(cell)) ?? [],
    ...(water === undefined ? {} : { water }),
    depths:
      calm.length > 0
        ? calm
        : calmDepthsOfBottles(observations.filter(({ line }) => line === bottlesLine.name)),
    hasScans: read !== undefined,
    notes: notesOf(read, lines),
  };
  return { found, memories: remembered };
}

/** If a line is shown for each cell separately, the excluded items are those of each cell, and the notes those of the line. */
function shownOf(
  lines: readonly LineResult[],
  byCell: readonly LineResult[] | undefined,
): readonly LineResult[] {
  if (byCell === undefined) return lines;
  return lines.flatMap(({ notes }) => byCell.map((own) => ({ ...own, notes })));
}

function hasAnything({ observations, leftOut }: LineResult): boolean {
  return observations.length + leftOut.length > 0;
}

function notesOf(read: CastRead | undefined, lines: readonly LineResult[]): readonly string[] {
  return [
    ...(read?.rebuiltFromSalinity
      ? ["conductivity was rebuilt from salinity, with any correction made to that salinity"]
      : []),
    ...lines.flatMap((line) => line.notes.map((note) => `${nameOf(line)}: ${note}`)),
    ...lines.filter(hasAnything).flatMap(nothingLeft),
    ...(read?.notes ?? []),
  ];
}

/** A line without any usable observation has no summary that could list its excluded items. One note for each reason. */
function nothingLeft(line: LineResult): readonly string[] {
  if (line.observations.length > 0) return [];
  return [...group(line.leftOut, ({ why }) => why)].map(
    ([why, all]) => `${nameOf(line)}: ${all.map(({ what }) => what).join(", ")} left out: ${why}`,
  );
}

function nameOf({ line, cell }: LineResult): string {
  return cell === "both" ? line : `${line}, ${cell} cell`;
}
