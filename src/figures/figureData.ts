// Data of the figures: the verdicts, and the single values of the evidence.
import { averageByPressure } from "../cast/averageByPressure.js";
import type { Bottle } from "../cast/bottle.js";
import type { Cast, CellName, LegName } from "../cast/cast.js";
import type { Cruise } from "../cast/cruise.js";
import type { MaintenanceEvent } from "../cast/maintenance.js";
import { type Legs, splitLegs } from "../cast/splitLegs.js";
import { closureReader } from "../evidence/bottles/closureReadings.js";
import { gainTerms, type LineResult, type Observation, type Onset } from "../model/observation.js";
import { gainForSalinity } from "../model/salinityError.js";
import { cFromSp } from "../seawater/index.js";
import { cruiseEvidence } from "../verdict/gather/cruiseEvidence.js";
import { cellsOf } from "../verdict/gather/knownCruise.js";
import type { CastEvidence } from "../verdict/gather/observeCast.js";
import type { Verdict, VerdictDocument } from "../verdict/verdict.js";

/** A value in ppm at a pressure. */
export interface PlacedValue {
  readonly pressure_dbar: number;
  readonly ppm: number;
  /** Standard deviation; absent if it was not used. */
  readonly sd_ppm?: number;
}

export interface BottleResidual extends PlacedValue {
  readonly cell: CellName;
  readonly bottle: string;
  /** The reason why it was excluded; absent if it was used. */
  readonly leftOut?: string;
}

export interface PairValue extends PlacedValue {
  readonly leg: LegName;
}

/** One leg in layers, shallowest first. */
export interface Profile {
  readonly pressure_dbar: Float64Array;
  /** PSS-78. */
  readonly salinity: Float64Array;
  /** Referred to 0 dbar, degree C. */
  readonly potentialTemperature_C: Float64Array;
}

/** Both legs of one cell, and their difference. */
export interface CellLegs {
  readonly profiles: Readonly<Record<LegName, Profile>>;
  /** Up minus down. */
  readonly differences: readonly PlacedValue[];
  readonly onset?: Onset;
}

export interface FigureCast {
  readonly id: string;
  readonly verdict: Verdict;
  readonly bottles: readonly BottleResidual[];
  /** Primary minus secondary. */
  readonly pair: readonly PairValue[];
  readonly legs: Readonly<Partial<Record<CellName, CellLegs>>>;
  readonly maintenanceAfter: readonly MaintenanceEvent[];
  /** Standard deviation of the deep water about its curve, ppm. */
  readonly deepWater_sd_ppm: number;
}

export interface FigureData {
  readonly cruise: VerdictDocument["cruise"];
  /** The target in ppm of conductivity, in standard water. */
  readonly target_ppm: number;
  readonly cells: readonly CellName[];
  readonly casts: readonly FigureCast[];
}

/** Largest number of layers drawn for a leg. */
const mostLayers = 300;

/**
 * The data from which the figures of a cruise are drawn.
 * @param document the result of `assessCruise` for the same cruise
 * @throws RangeError if the document lacks a cast of the cruise
 */
export function figureData(cruise: Cruise, document: VerdictDocument): FigureData {
  const verdicts = new Map(document.casts.map((verdict) => [verdict.cast, verdict]));
  const cells = cellsOf(cruise);
  const casts: FigureCast[] = [];
  let water_ppm2 = 0;
  for (const evidence of cruiseEvidence(cruise)) {
    const verdict = verdicts.get(evidence.cast.id);
    if (verdict === undefined) {
      throw new RangeError(`the document has no verdict on cast ${evidence.cast.id}`);
    }
    water_ppm2 = waterAfter(evidence, water_ppm2);
    casts.push(castOf(cruise, cells, evidence, verdict, Math.sqrt(water_ppm2)));
  }
  const target_ppm = Math.abs(gainForSalinity(-cruise.target));
  return { cruise: document.cruise, target_ppm, cells, casts };
}

function castOf(
  cruise: Cruise,
  cells: readonly CellName[],
  evidence: CastEvidence,
  verdict: Verdict,
  deepWater_sd_ppm: number,
): FigureCast {
  const { cast, lines, shown, tracked } = evidence;
  const { data } = cast;
  const legs = data === undefined ? undefined : splitLegs(data);
  const closed = cruise.bottles.filter((bottle) => bottle.cast === cast.id);
  const pair = lines.find(({ line }) => line === "pair");
  return {
    id: cast.id,
    verdict,
    bottles: shown.flatMap((own) =>
      own.line !== "bottles" || own.cell === "both" ? [] : residualsOf(own, own.cell, closed, data),
    ),
    pair: (pair?.observations ?? []).map((observation) => ({
      ...placed(observation),
      leg: gainTerms(observation)[0]!.gain.leg,
    })),
    legs: Object.fromEntries(
      cells.flatMap((cell) => {
        const found = lines.find((line) => line.line === "legs" && line.cell === cell);
        if (data === undefined || legs === undefined || found === undefined) return [];
        return [[cell, legsOf(data, legs, cell, found)]];
      }),
    ),
    maintenanceAfter: tracked.maintenanceAfter,
    deepWater_sd_ppm,
  };
}

/** Variance of the deep water about its curve, ppm squared: a random walk from cast to cast, as in the model. */
function waterAfter({ tracked }: CastEvidence, before_ppm2: number): number {
  const passage = tracked.evolutions.deepWater;
  if (passage?.kind === "independent") return passage.variance ?? 0;
  return passage?.kind === "random-walk" ? before_ppm2 + passage.variance : before_ppm2;
}

function placed({ pressure_dbar, value, variance }: Observation): PlacedValue {
  return { pressure_dbar, ppm: value, sd_ppm: Math.sqrt(variance) };
}

/** Every bottle that could be compared with the cell, used or excluded. */
function residualsOf(
  line: LineResult,
  cell: CellName,
  bottles: readonly Bottle[],
  data: Cast | undefined,
): readonly BottleResidual[] {
  const reader = closureReader(data, bottles);
  return bottles.flatMap((bottle): BottleResidual[] => {
    const { pressure_dbar, salinity } = bottle;
    const used = line.observations.find(
      (one) => one.bottle === bottle.bottle && one.pressure_dbar === pressure_dbar,
    );
    if (used !== undefined) return [{ cell, bottle: bottle.bottle, ...placed(used) }];
    const reading = reader.of(bottle, cell);
    if (reading === undefined) return [];
    const { conductivity_mS_cm, temperature_C } = reading;
    const ppm =
      1e6 * Math.log(conductivity_mS_cm / cFromSp(salinity, temperature_C, pressure_dbar));
    if (!Number.isFinite(ppm) || !Number.isFinite(pressure_dbar)) return [];
    const why = line.leftOut.find(({ what }) =>
      what.startsWith(`bottle ${bottle.bottle} at `),
    )?.why;
    return [{ cell, bottle: bottle.bottle, pressure_dbar, ppm, leftOut: why ?? "not used" }];
  });
}

function legsOf(data: Cast, legs: Legs, cell: CellName, line: LineResult): CellLegs {
  const pressure = data.columns.pressure_dbar;
  const deepest = legs.down.reduce((deep, scan) => Math.max(deep, pressure[scan]!), 0);
  const thickness = Math.max(1, deepest / mostLayers);
  const profile = (leg: LegName): Profile => {
    const layers = averageByPressure(data, legs[leg], cell, thickness);
    const { pressure_dbar, salinity, potentialTemperature_C } = layers;
    return { pressure_dbar, salinity, potentialTemperature_C };
  };
  return {
    profiles: { down: profile("down"), up: profile("up") },
    differences: line.observations.map(placed),
    ...(line.onset === undefined ? {} : { onset: line.onset }),
  };
}
