// The least variance with which the deep water could know a gain: the Bayesian Cramer-Rao bound of the design
// [VanTrees1968], from the simulator's own noise.
//
// What a station's water differs by from another's at equal temperature is told as one number for the station, of known
// spread, and known in how it goes along the track; small-scale salinity, heave being free at every depth, scan noise,
// and the thermometer's wander from cast to cast are each of known size. Told: the shape of the curve, which levels
// differ alike from station to station, how the small-scale salinity remembers itself, and that no lag differs between
// casts. Not told: the level of the cruise's own water, and the pattern in which stations differ over depth: in the
// simulator it is the same few shapes everywhere and passes through nothing near 1250 dbar, so that who knew it could do
// better still. Levels that do not differ as the deepest do are left out, as no one number is theirs.

import { condition } from "../../src/model/gaussian.js";
import { ptFromT, srFromSp } from "../../src/seawater/index.js";
import { oceans, type Station } from "../../src/simulate/oceans.js";
import { pairOnCast } from "../../src/simulate/sensorPair.js";
import { compensatingTemperature } from "../../src/simulate/spiciness.js";
import { type MadeCast, thermometerWander_K, unknown_ppm, worth } from "./linesBound.js";
import { informationLeft, newField, nodesPerLength, see } from "./linesField.js";

/** As in src/simulate/water.ts and geography.ts, which keep them to themselves. */
const spice = { length_dbar: 15, common: 2.5, drift_s: 900 };
const lengths = [
  { least: 9, most: 16 },
  { least: 25, most: 60 },
];
/** Levels that differ between stations as the deepest does, to within this share. */
const alike = 0.1;
/** Where the line looks. */
const shallowest_dbar = 1000;
const meanStation: Station = [0, 0, 0, 0];
const small = 0.1;

/** What one cast's deep water can tell. */
export interface DeepDatum {
  /** Variance of gain + water, ppm squared. */
  readonly variance: number;
  /** Standard deviation of the water between stations, ppm. */
  readonly water: number;
}

/** @param seconds between the legs at a pressure */
export function deepDatum(made: MadeCast, seconds: (pressure_dbar: number) => number): DeepDatum {
  const { scenario, cast } = made;
  const { deepest_dbar: deepest, sampling } = scenario;
  const ocean = oceans[scenario.ocean];
  const { noise } = pairOnCast(scenario, cast, "primary", made.truth);
  const spacing = spice.length_dbar / nodesPerLength;
  const step = sampling.kind === "averages" ? sampling.layer_dbar : spacing / 2;
  const scans = sampling.kind === "averages" ? 1 : step * sampling.rate_Hz;
  const field = newField(Math.ceil(deepest / spacing) + 2, 2);
  const atBottom = between(made, deepest);
  for (let p = shallowest_dbar + step / 2; p < deepest; p += step) {
    const here = between(made, p);
    if (here.some((ofOne, i) => Math.abs(ofOne - atBottom[i]!) > alike * Math.hypot(...atBottom)))
      continue;
    const { perSalinity, perConductivity, dSpDt } = worth(made, "down", p);
    const q = ocean.belowMixed(p, meanStation);
    const same = Math.exp(-seconds(p) / spice.drift_s);
    const slope = slopeAt(made, q);
    const { salinity, temperature_C } = made.water("down", p);
    const pt = ptFromT(srFromSp(salinity), temperature_C, p, 0);
    // Of the mean of the legs, which share what is common and part of what is their own.
    const size = ocean.spice(q) * Math.sqrt(spice.common ** 2 + (1 + same) / 2);
    const own = perSalinity * size * (1 - compensatingTemperature(salinity, pt, p) * slope);
    const ofThermometer = perSalinity * (dSpDt - slope);
    const error = Math.hypot(
      perConductivity * noise.conductivity_mS_cm,
      ofThermometer * noise.temperature_K,
    );
    see(field, p / spacing, own, [1, ofThermometer], (2 * scans) / error ** 2);
  }
  const [[gain, both], [, wander]] = informationLeft(field) as [[number, number], [number, number]];
  const { perSalinity } = worth(made, "down", deepest);
  return {
    variance: 1 / (gain - both ** 2 / (wander + thermometerWander_K ** -2)),
    water: perSalinity * Math.hypot(...atBottom),
  };
}

/** The change of gain since the casts before, on all of which it is known to have been one and the same. */
export function changeBound(before: readonly DeepDatum[], now: DeepDatum): number {
  const casts = [...before, now];
  const n = casts.length;
  // Water of each cast, and the gain now. The level of the cruise's water is in that of each.
  const size = n + 1;
  const state = { mean: new Float64Array(size), covariance: new Float64Array(size * size) };
  for (const [i, a] of casts.entries()) {
    for (const [j, b] of casts.entries()) {
      state.covariance[i * size + j] = unknown_ppm ** 2 + a.water * b.water * alongTrack(i - j);
    }
  }
  state.covariance[n * size + n] = unknown_ppm ** 2;
  for (const [i, { variance }] of casts.entries()) {
    const row = new Float64Array(size);
    row[i] = 1;
    if (i === n - 1) row[n] = 1;
    condition(state, row, 0, variance);
  }
  return state.covariance[n * size + n]!;
}

/** Correlation of two stations so many apart: the mean of waves of unit amplitude and any phase. */
function alongTrack(apart: number): number {
  const nodes = 200;
  return lengths.reduce((sum, { least, most }) => {
    let own = 0;
    for (let k = 0; k < nodes; k++) {
      own += Math.cos((2 * Math.PI * apart) / (least + ((most - least) * (k + 0.5)) / nodes));
    }
    return sum + own / nodes / lengths.length;
  }, 0);
}

/** What one unit of each of a station's numbers changes salinity by at equal potential temperature, PSS-78. */
function between({ scenario }: MadeCast, p: number): readonly number[] {
  const ocean = oceans[scenario.ocean];
  const at = (station: Station) => {
    const q = ocean.belowMixed(p, station);
    return { sp: ocean.salinity(q, station), pt: ocean.potentialTemperature(q, station) };
  };
  const mean = at(meanStation);
  const slope = slopeAt({ scenario }, ocean.belowMixed(p, meanStation));
  return meanStation.map((_, i) => {
    const other = at(meanStation.map((_, k) => (k === i ? small : 0)) as unknown as Station);
    return (other.sp - mean.sp - slope * (other.pt - mean.pt)) / small;
  });
}

/** dS/d(potential temperature) of the undisturbed water. */
function slopeAt({ scenario }: Pick<MadeCast, "scenario">, q: number): number {
  const ocean = oceans[scenario.ocean];
  const change = (of: "salinity" | "potentialTemperature") =>
    ocean[of](q + 1, meanStation) - ocean[of](q - 1, meanStation);
  return change("salinity") / change("potentialTemperature");
}
