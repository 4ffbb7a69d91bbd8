// All lines of evidence of a cruise, cast by cast, each from its own cast and what came before.
import { group } from "d3-array";
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellName } from "../../cast/cast.js";
import type { Cruise, CruiseCast } from "../../cast/cruise.js";
import type { MaintenanceEvent } from "../../cast/maintenance.js";
import { type Legs, splitLegs } from "../../cast/splitLegs.js";
import { type ThinLayers, thinLayers } from "../../cast/thinLayers.js";
import type { EntriesAround } from "../../evidence/air/airReadings.js";
import { airZeroEvidence } from "../../evidence/air/airZero.js";
import { bottleNoiseScale } from "../../evidence/bottles/bottleNoise.js";
import { type BottleResiduals, bottleResiduals } from "../../evidence/bottles/bottleResiduals.js";
import { judgeBottles } from "../../evidence/bottles/bottles.js";
import { copiedSalinities } from "../../evidence/bottles/copiedSalinities.js";
import { runOfCast, withLaboratoryRuns } from "../../evidence/bottles/laboratoryRuns.js";
import { salinityGradients } from "../../evidence/bottles/salinityGradients.js";
import {
  type DeepWaterMemory,
  type DeepWaterOfCast,
  deepWaterEvidence,
  noDeepWaterYet,
} from "../../evidence/deepWater/deepWater.js";
import { pairDifferences, pairEvidence } from "../../evidence/pair/pair.js";
import { temperaturePairEvidence } from "../../evidence/thermometers/temperaturePair.js";
import { type CastHealth, castHealth } from "../../health/castHealth.js";
import type { LineOfEvidence } from "../../model/observation.js";
import type { TrackedInput } from "../../track/track.js";
import type { Water } from "../salinityError.js";
import { type Answer, answersOf } from "./answer.js";
import { deepestWater } from "./deepestWater.js";
import { withinCast } from "./withinCast.js";

/** Everything that one cast brings. */
export interface CastEvidence {
  readonly cast: CruiseCast;
  readonly lines: readonly LineOfEvidence[];
  /** The bottles held against each cell on its own, for display: the model uses each bottle once. */
  readonly bottlesByCell: readonly LineOfEvidence[];
  readonly tracked: TrackedInput;
  /** The water in which this cast's salinity errors are told: the deepest it read. */
  readonly water?: Water;
  /** This cruise's bottle noise scale so far. */
  readonly bottleScale: number;
  /** How each cell answered, for a comparison from cast to cast. */
  readonly answers: Readonly<Partial<Record<CellName, Answer>>>;
  /** What the deep water has shown so far; absent without scans. */
  readonly deepWater?: DeepWaterMemory;
  /** Absent without scans. */
  readonly health?: CastHealth;
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
  const maintenance = maintenanceByCast(cruise);
  const standardised: number[] = [];
  const copied = copiedSalinities(cruise.casts, bottles, cells);
  const answers = new Map(cells.map((cell) => [cell, [] as Answer[]]));
  let deepWater = noDeepWaterYet;
  let doneBefore: readonly MaintenanceEvent[] = [];
  for (const cast of cruise.casts) {
    const own = bottles.get(cast.id) ?? [];
    const seen = cells.filter((cell) => readable(cell, cast.data, own));
    // A cast's own scatter counts towards the scale at which its bottles are judged.
    const scaleBefore = bottleNoiseScale(standardised);
    const scans = cast.data && scansOf(cast.data);
    const gradients = salinityGradients(own, seen, scans?.thin);
    const residuals = bottleResiduals(own, seen, cast.data, gradients, {
      ...(scans === undefined ? {} : { legs: scans.legs }),
      ...(cast.start === undefined ? {} : { start: cast.start }),
      copied,
    });
    standardised.push(...judgeBottles(cast.id, residuals, seen, scaleBefore).standardised);
    const scale = bottleNoiseScale(standardised);
    const doneAfter = maintenance.get(cast.id) ?? [];
    const evidence = castEvidence(
      cast,
      scans,
      { own, residuals },
      seen,
      scale,
      { before: doneBefore, after: doneAfter },
      answers,
      ({ data, legs, thin }) =>
        deepWaterEvidence(data, legs, seen, deepWater, cruise.deepReference, thin),
    );
    deepWater = evidence.deepWater ?? deepWater;
    for (const cell of seen) {
      const answer = evidence.answers[cell];
      if (answer !== undefined) answers.get(cell)!.push(answer);
    }
    doneBefore = doneAfter;
    yield evidence;
  }
}

/** The scans of a cast, its legs, and these in layers: made once for all lines of evidence. */
interface Scans {
  readonly data: Cast;
  readonly legs: Legs;
  readonly thin: ThinLayers;
}

function scansOf(data: Cast): Scans {
  const legs = splitLegs(data);
  return { data, legs, thin: thinLayers(data, legs) };
}

interface BottlesOfCast {
  readonly own: readonly Bottle[];
  readonly residuals: BottleResiduals;
}

function castEvidence(
  cast: CruiseCast,
  scans: Scans | undefined,
  { own: bottles, residuals }: BottlesOfCast,
  seen: readonly CellName[],
  scale: number,
  done: EntriesAround,
  answersBefore: ReadonlyMap<CellName, readonly Answer[]>,
  deepWaterFrom: (scans: Scans) => DeepWaterOfCast,
): CastEvidence {
  const { data, legs } = scans ?? {};
  const within = scans && withinCast(scans.data, scans.legs, scans.thin, seen);
  const lines: LineOfEvidence[] = [];
  const held = judgeBottles(cast.id, residuals, seen, scale);
  if (bottles.length > 0) lines.push(held.evidence);
  if (seen.length > 1) {
    const onsets = Object.values(within?.onsets ?? {});
    const differences = pairDifferences(data, legs, bottles, scans?.thin, onsets);
    lines.push(pairEvidence(cast.id, differences), temperaturePairEvidence(cast.id, differences));
  }
  lines.push(...(within?.lines ?? []));
  const deep = scans && deepWaterFrom(scans);
  // As bottles are: held against the first cell, which the pair ties the other to.
  lines.push(...(deep?.lines.filter(({ cell }) => cell === seen[0]) ?? []));
  for (const cell of seen) {
    const air = airZeroEvidence(cast.id, cell, data, done);
    if (air.observations.length + air.leftOut.length > 0) lines.push(air);
  }
  const health = data && legs && castHealth(data, legs);
  const answers = answersOf(data, legs, seen, within, health, answersBefore);
  const water = deepestWater(seen, data, bottles);
  const present = lines.filter(
    ({ observations, leftOut }) => observations.length + leftOut.length > 0,
  );
  return {
    cast,
    lines: present,
    bottlesByCell: held.byCell,
    tracked: {
      cast: cast.id,
      ...(cast.start === undefined ? {} : { start: cast.start }),
      observations: present.flatMap(({ observations }) => observations),
      onsets: within?.onsets ?? {},
      excursions: within?.excursions ?? [],
      response: Object.fromEntries(
        Object.entries(answers).map(([cell, { signs }]) => [cell, signs]),
      ),
      ...(deep?.step === undefined ? {} : { deepWater: deep.step }),
      ...runOf(bottles),
      maintenanceAfter: done.after,
    },
    answers,
    ...(deep === undefined ? {} : { deepWater: deep.memory }),
    ...(health === undefined ? {} : { health }),
    ...(water === undefined ? {} : { water }),
    bottleScale: scale,
    notes: [
      ...(data?.conductivityFrom === "salinity"
        ? ["conductivity was rebuilt from salinity: whatever was done to that salinity is in it"]
        : []),
      ...lines.flatMap(({ line, cell, notes }) =>
        notes.map((note) => `${line}${cell === "both" ? "" : `, ${cell} cell`}: ${note}`),
      ),
      ...present.flatMap(nothingLeft),
      ...(legs?.notes ?? []),
    ],
  };
}

/** A line of which nothing could be used has no summary to name what was left out in. */
function nothingLeft({ line, observations, leftOut }: LineOfEvidence): readonly string[] {
  if (observations.length > 0) return [];
  return leftOut.map(({ what, why }) => `${line}: ${what} left out: ${why}`);
}

function readable(cell: CellName, data: Cast | undefined, bottles: readonly Bottle[]): boolean {
  return data?.columns[cell] !== undefined || bottles.some(({ ctd }) => ctd?.[cell] !== undefined);
}

function runOf(bottles: readonly Bottle[]): { readonly run?: string } {
  const run = runOfCast(bottles);
  return run === undefined ? {} : { run };
}

/** Each entry of the record under the cast it came after. */
function maintenanceByCast({
  casts,
  maintenance,
}: Cruise): ReadonlyMap<string, MaintenanceEvent[]> {
  const found = new Map<string, MaintenanceEvent[]>();
  for (const event of maintenance) {
    const cast = event.afterCast ?? lastCastBefore(casts, event.time);
    if (cast === undefined) continue;
    const events = found.get(cast);
    if (events === undefined) found.set(cast, [event]);
    else events.push(event);
  }
  return found;
}

function lastCastBefore(
  casts: readonly CruiseCast[],
  time: string | undefined,
): string | undefined {
  const at = Date.parse(time ?? "");
  return casts.filter(({ start }) => Date.parse(start ?? "") <= at).at(-1)?.id;
}
