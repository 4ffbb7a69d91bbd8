// All evidence of a cruise, cast by cast, each from its own cast and what came before.
import { group } from "d3-array";
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellName } from "../../cast/cast.js";
import type { Cruise, CruiseCast } from "../../cast/cruise.js";
import { type Legs, splitLegs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import { bottlesLine } from "../../evidence/bottles/bottlesLine.js";
import { copiedSalinities } from "../../evidence/bottles/copiedSalinities.js";
import { withLaboratoryRuns } from "../../evidence/bottles/laboratoryRuns.js";
import type { CastSources, Observed, Scans } from "../../evidence/evidenceLine.js";
import { evidenceLines } from "../../evidence/lines.js";
import { withinCast } from "../../evidence/path/withinCast.js";
import { type CastHealth, castHealth, type UnreadSensor } from "../../health/castHealth.js";
import type { LineOfEvidence } from "../../model/observation.js";
import type { Water } from "../../model/salinityError.js";
import type { TrackedInput } from "../../track/tracked.js";
import { type Answer, answersOf } from "./answer.js";
import { castPath } from "./castPath.js";
import { deepestWater } from "./deepestWater.js";
import { maintenanceByCast } from "./maintenanceByCast.js";
import { withoutUnread } from "./withoutUnread.js";

/** Everything that one cast brings. */
export interface CastEvidence {
  readonly cast: CruiseCast;
  /** Lines with observations, or with something left out. */
  readonly lines: readonly LineOfEvidence[];
  /** The same for display: some lines hold their facts against each cell by itself. */
  readonly shown: readonly LineOfEvidence[];
  readonly tracked: TrackedInput;
  /** The water in which this cast's salinity errors are told: the deepest it read. */
  readonly water?: Water;
  /** How each cell answered, for a comparison from cast to cast. */
  readonly answers: Readonly<Partial<Record<CellName, Answer>>>;
  /** By how much the cruise's bottles scatter more than usual, this cast's included. */
  readonly bottleScale: number;
  /** Absent without scans. */
  readonly health?: CastHealth;
  /** Sensors of cells that this cast says nothing of. */
  readonly unread: readonly UnreadSensor[];
  readonly notes: readonly string[];
}

/** The cells a cruise has readings of. */
export function cellsOf(cruise: Cruise): readonly CellName[] {
  const has = (cell: CellName) =>
    cruise.casts.some(({ data }) => data?.columns[cell] !== undefined) ||
    cruise.bottles.some(({ ctd }) => ctd?.[cell] !== undefined);
  const found = (["primary", "secondary"] as const).filter(has);
  const told = cruise.instrument.cells ?? [];
  if (told.length > 0) return told;
  return found.length > 0 ? found : ["primary"];
}

/** Evidence cast by cast; a generator, so that a caller can show progress and stop. */
export function* cruiseEvidence(cruise: Cruise): Generator<CastEvidence> {
  const cells = cellsOf(cruise);
  const bottles = group(withLaboratoryRuns(cruise.bottles), ({ cast }) => cast);
  const copied = copiedSalinities(cruise.casts, bottles, cells);
  const maintenance = maintenanceByCast(cruise);
  const answers = new Map(cells.map((cell) => [cell, [] as Answer[]]));
  let memories: Memories = new Map();
  let before: TrackedInput["maintenanceAfter"] = [];
  for (const cast of cruise.casts) {
    const own = bottles.get(cast.id) ?? [];
    const legs = cast.data && splitLegs(cast.data);
    const health = cast.data && legs && castHealth(cast.data, legs);
    const unread = health?.unread ?? [];
    const seen = cells.filter((cell) => readable(cell, cast.data, own, unread));
    const after = maintenance.get(cast.id) ?? [];
    const scans = cast.data && legs && scansOf(withoutUnread(cast.data, unread), legs, seen);
    const { deepReference } = cruise;
    const sources: CastSources = {
      cast,
      cells: seen,
      ...(scans === undefined ? {} : { scans }),
      bottles: own,
      copied,
      entries: { before, after },
      ...(deepReference === undefined ? {} : { deepReference }),
    };
    const evidence = castEvidence(sources, health, memories, answers);
    memories = evidence.memories;
    for (const cell of seen) {
      const answer = evidence.found.answers[cell];
      if (answer !== undefined) answers.get(cell)!.push(answer);
    }
    before = after;
    yield evidence.found;
  }
}

function scansOf(data: Cast, legs: Legs, cells: readonly CellName[]): Scans {
  const thin = thinLayers(data, legs);
  return { data, legs, thin, within: withinCast(data, legs, thin, cells) };
}

/** What each line remembers, by its name. */
type Memories = ReadonlyMap<string, unknown>;

function castEvidence(
  sources: CastSources,
  health: CastHealth | undefined,
  memories: Memories,
  answersBefore: ReadonlyMap<CellName, readonly Answer[]>,
): { readonly found: CastEvidence; readonly memories: Memories } {
  const { cast, cells, scans, bottles, entries } = sources;
  const observed = evidenceLines.map((line) => {
    const brought: Observed<unknown> = line.observe(sources, memories.get(line.name) ?? line.begin);
    return { line, ...brought };
  });
  const remembered = new Map(observed.map(({ line, memory }) => [line.name, memory]));
  const lines = observed.flatMap((one) => one.lines);
  const present = lines.filter(hasAnything);
  const { data, legs, within } = scans ?? {};
  const path = data && legs && castPath(data, legs);
  const answers = answersOf(data, legs, cells, within, health, answersBefore);
  const water = deepestWater(cells, data, bottles);
  const found: CastEvidence = {
    cast,
    lines: present,
    shown: observed.flatMap(({ line, lines, byCell }) =>
      line.shown ? shownOf(lines.filter(hasAnything), byCell) : [],
    ),
    tracked: {
      cast: cast.id,
      ...(cast.start === undefined ? {} : { start: cast.start }),
      observations: present.flatMap(({ observations }) => observations),
      onsets: within?.onsets ?? {},
      excursions: within?.excursions ?? [],
      response: Object.fromEntries(
        Object.entries(answers).map(([cell, { signs }]) => [cell, signs]),
      ),
      passages: Object.assign({}, ...observed.map(({ passages }) => passages ?? {})),
      ...(path === undefined ? {} : { path }),
      maintenanceAfter: entries.after,
    },
    answers,
    bottleScale: (remembered.get(bottlesLine.name) as typeof bottlesLine.begin).scale,
    ...(health === undefined ? {} : { health }),
    unread: health?.unread.filter(({ cell }) => !cells.includes(cell)) ?? [],
    ...(water === undefined ? {} : { water }),
    notes: notesOf(data, legs, lines),
  };
  return { found, memories: remembered };
}

/** Where a line is told cell by cell, each cell has its own left out; the notes are those of the line. */
function shownOf(
  lines: readonly LineOfEvidence[],
  byCell: readonly LineOfEvidence[] | undefined,
): readonly LineOfEvidence[] {
  if (byCell === undefined) return lines;
  return lines.flatMap(({ notes }) => byCell.map((own) => ({ ...own, notes })));
}

function hasAnything({ observations, leftOut }: LineOfEvidence): boolean {
  return observations.length + leftOut.length > 0;
}

function notesOf(
  data: Cast | undefined,
  legs: Legs | undefined,
  lines: readonly LineOfEvidence[],
): readonly string[] {
  return [
    ...(data?.conductivityFrom === "salinity"
      ? ["conductivity was rebuilt from salinity, with any correction made to that salinity"]
      : []),
    ...lines.flatMap(({ line, cell, notes }) =>
      notes.map((note) => `${line}${cell === "both" ? "" : `, ${cell} cell`}: ${note}`),
    ),
    ...lines.filter(hasAnything).flatMap(nothingLeft),
    ...(legs?.notes ?? []),
  ];
}

/** A line of which nothing could be used has no summary to name what was left out in. */
function nothingLeft({ line, observations, leftOut }: LineOfEvidence): readonly string[] {
  if (observations.length > 0) return [];
  return leftOut.map(({ what, why }) => `${line}: ${what} left out: ${why}`);
}

/** What a sensor that stood read as a bottle closed is no better than its scans; coarse scans may have finer readings beside the bottles. */
function readable(
  cell: CellName,
  data: Cast | undefined,
  bottles: readonly Bottle[],
  unread: readonly UnreadSensor[],
): boolean {
  const own = unread.filter((sensor) => sensor.cell === cell);
  if (own.some(({ why }) => why === "stood")) return false;
  const beside = bottles.some(({ ctd }) => ctd?.[cell] !== undefined);
  return beside || (own.length === 0 && data?.columns[cell] !== undefined);
}
