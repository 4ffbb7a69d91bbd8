// The up leg against the down leg at the same water. Internal waves move water up and down between the legs
// by metres to tens of metres; they leave its potential temperature and salinity as they are, so salinity is
// compared where potential temperature is equal, not where pressure is.
import { averageByPressure, type Layers } from "../cast/averageByPressure.js";
import type { Cast, CellName } from "../cast/cast.js";
import type { Legs } from "../cast/splitLegs.js";
import { spFromCFirstDerivatives } from "../seawater/index.js";
import { findWater } from "./findWater.js";
import { usualThermalLag } from "./thermalLag.js";

/**
 * Places where the two legs passed the same water, shallowest first; one value a match in each column.
 * Layers of either leg are looked for on the other: one way alone favours one leg where temperature is rough.
 */
export interface MatchedLegs {
  /** Pressure of the water on the up leg and on the down leg, dbar. */
  readonly pressureUp_dbar: Float64Array;
  readonly pressureDown_dbar: Float64Array;
  /** Degree C, referred to 0 dbar. */
  readonly potentialTemperature_C: Float64Array;
  /** Salinity as read on either leg, PSS-78. */
  readonly salinityUp: Float64Array;
  readonly salinityDown: Float64Array;
  /** Up minus down in ppm of conductivity. */
  readonly difference_ppm: Float64Array;
  /** How far salinity differs among the places of that temperature on the leg that was searched, ppm. */
  readonly ambiguity_ppm: Float64Array;
  /** Up minus down that the usual thermal lag alone would make, ppm. */
  readonly lag_ppm: Float64Array;
  /** What one of salinity is in ppm of conductivity: 1e6 / (C dSP/dC). */
  readonly ppmPerSalinity: Float64Array;
  /** Thickness of the layers that were matched, dbar. */
  readonly thickness_dbar: number;
  /** Layers of either leg whose water was not found on the other. */
  readonly unmatched: number;
  /** Matches at equal pressure, temperature being uniform. */
  readonly atPressure: number;
  /** Scans left out as spikes on both legs. */
  readonly spikes: number;
}

/** Layers are at most this thick, dbar, and at least this many to the cast where it has the scans. */
const thickest_dbar = 2;
const layersOfCast = 200;
/** The same water is looked for within this, dbar, the heave of deep internal waves, or a share of the cast. */
const window_dbar = 50;
const windowShare = 1 / 8;
/** Layers further apart than this many thicknesses are not joined. */
const widestGap = 3;

export function matchLegs(cast: Cast, legs: Legs, cell: CellName): MatchedLegs {
  const thickness_dbar = thicknessFor(cast, legs);
  const down = averageByPressure(cast, legs.down, cell, thickness_dbar);
  const up = averageByPressure(cast, legs.up, cell, thickness_dbar);
  const lagDown = usualThermalLag(down, legs.clock);
  const lagUp = usualThermalLag(up, legs.clock);
  const window = Math.min(window_dbar, windowShare * spanOf(cast.columns.pressure_dbar, legs.down));
  const search = { window_dbar: window, gap_dbar: widestGap * thickness_dbar };
  const rows = [
    ...matchOneWay(up, lagUp, down, lagDown, search),
    ...matchOneWay(down, lagDown, up, lagUp, search).map(turned),
  ].sort((a, b) => meanPressure(a) - meanPressure(b));
  const column = (value: (row: Match) => number) => Float64Array.from(rows.map(value));
  return {
    pressureUp_dbar: column((row) => row.pressure),
    pressureDown_dbar: column((row) => row.pressureOther),
    potentialTemperature_C: column((row) => row.theta),
    salinityUp: column((row) => row.salinity),
    salinityDown: column((row) => row.salinityOther),
    difference_ppm: column((row) => (row.salinity - row.salinityOther) * row.ppmPerSalinity),
    ambiguity_ppm: column((row) => row.spread * row.ppmPerSalinity),
    lag_ppm: column((row) => row.lag - row.lagOther),
    ppmPerSalinity: column((row) => row.ppmPerSalinity),
    thickness_dbar,
    unmatched: up.count.length + down.count.length - rows.length,
    atPressure: rows.filter((row) => row.atPressure).length,
    spikes: down.spikes + up.spikes,
  };
}

/** One layer of a leg and its water on the other leg. */
interface Match {
  readonly pressure: number;
  readonly pressureOther: number;
  readonly theta: number;
  readonly salinity: number;
  readonly salinityOther: number;
  readonly lag: number;
  readonly lagOther: number;
  readonly spread: number;
  readonly ppmPerSalinity: number;
  readonly atPressure: boolean;
}

function matchOneWay(
  leg: Layers,
  lag: Float64Array,
  other: Layers,
  lagOther: Float64Array,
  search: Parameters<typeof findWater>[5],
): readonly Match[] {
  const matches: Match[] = [];
  let from = 0;
  for (let i = 0; i < leg.count.length; i++) {
    const p = leg.pressure_dbar[i]!;
    const theta = leg.potentialTemperature_C[i]!;
    while (from < other.count.length && other.pressure_dbar[from]! < p - search.window_dbar) from++;
    const found = findWater(other, lagOther, from, p, theta, search);
    const perSalinity = ppmPerSalinity(leg, i);
    if (found === undefined || !Number.isFinite(perSalinity)) continue;
    matches.push({
      pressure: p,
      pressureOther: found.pressure,
      theta,
      salinity: leg.salinity[i]!,
      salinityOther: found.salinity,
      lag: lag[i]!,
      lagOther: found.lag,
      spread: found.spread,
      ppmPerSalinity: perSalinity,
      atPressure: found.atPressure,
    });
  }
  return matches;
}

/** The same match seen from the other leg. */
function turned(match: Match): Match {
  return {
    ...match,
    pressure: match.pressureOther,
    pressureOther: match.pressure,
    salinity: match.salinityOther,
    salinityOther: match.salinity,
    lag: match.lagOther,
    lagOther: match.lag,
  };
}

function meanPressure({ pressure, pressureOther }: Match): number {
  return (pressure + pressureOther) / 2;
}

/** 1e6 / (C dSP/dC): what one of salinity is in ppm of conductivity in this layer. */
function ppmPerSalinity({ conductivity_mS_cm, temperature_C, pressure_dbar }: Layers, i: number) {
  const c = conductivity_mS_cm[i]!;
  return 1e6 / (c * spFromCFirstDerivatives(c, temperature_C[i]!, pressure_dbar[i]!).dSpDc);
}

/** Thin enough to resolve the cast, thick enough that each layer holds a scan. */
function thicknessFor(cast: Cast, { down, up }: Legs): number {
  const { pressure_dbar } = cast.columns;
  const span = Math.max(spanOf(pressure_dbar, down), spanOf(pressure_dbar, up));
  const fewest = Math.min(down.length, up.length);
  const spacing = fewest > 0 ? span / fewest : 0;
  return Math.max(Math.min(thickest_dbar, span / layersOfCast), spacing) || thickest_dbar;
}

/** Greatest less least over the scans, 0 for nothing. */
function spanOf(pressure: Float64Array, scans: Uint32Array): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < scans.length; k++) {
    const p = pressure[scans[k]!]!;
    if (p < least) least = p;
    if (p > most) most = p;
  }
  return most >= least ? most - least : 0;
}
