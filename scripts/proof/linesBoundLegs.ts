// The least variance with which the legs could know the change of gain between them on one cast: the Cramer-Rao bound of
// the cast's design, from the simulator's own noise.
//
// What differs between the legs at equal temperature, heave being free at every depth: the small-scale salinity new on
// the way up, less what its own temperature makes of the match, over the local gradients; thermal lag; and scan noise.
// Told: the water as it was on the way down, between layers too, how large the new part is at every depth, how it
// remembers itself, and the course of the thermal lag. Not told: heave, which is smooth, so that who knew its modes could
// do better still; and the amplitude of the lag, of which only the estimator's prior is known, unless asked for the
// bound with lag known. Not counted: scans at stops and in the soak, and the mixed layer, which the simulator makes
// perfectly even; no ocean's is, and alone it would be worth as much as all the rest of a cast to 800 dbar.

import { priorTimesUsual } from "../../src/response/lag/lagPrior.js";
import { ptFromT, srFromSp } from "../../src/seawater/index.js";
import { geography } from "../../src/simulate/geography.js";
import {
  randomStream,
  thermalLagOfLayers,
  thermalLagOfScans,
  usualLag,
} from "../../src/simulate/index.js";
import { legTimes } from "../../src/simulate/legTimes.js";
import { oceans } from "../../src/simulate/oceans.js";
import { legAt, packagePath } from "../../src/simulate/packagePath.js";
import { pairOnCast } from "../../src/simulate/sensorPair.js";
import { compensatingTemperature } from "../../src/simulate/spiciness.js";
import { type MadeCast, worth } from "./linesBound.js";
import { informationLeft, newField, nodesPerLength, see } from "./linesField.js";

/** As in src/simulate/water.ts, which keeps them to itself. */
const spice = { length_dbar: 15, length_share: 1 / 40, setsIn: 1 / 60, drift_s: 900 };
/** @param above_dbar the change shows above this only */
export function legsBound(
  made: MadeCast,
  lagKnown: boolean,
  above_dbar = Number.POSITIVE_INFINITY,
): number {
  const { scenario, cast, water } = made;
  const { deepest_dbar: deepest, sampling } = scenario;
  const ocean = oceans[scenario.ocean];
  const station = geography(randomStream(scenario.seed).split("geography"), cast);
  const time = legTimes(scenario);
  const { noise } = pairOnCast(scenario, cast, "primary", made.truth);
  const spacing = Math.min(spice.length_dbar, spice.length_share * deepest) / nodesPerLength;
  const step = sampling.kind === "averages" ? sampling.layer_dbar : spacing / 2;
  const scans = sampling.kind === "averages" ? 1 : step * sampling.rate_Hz;
  const field = newField(Math.ceil(deepest / spacing) + 2, 2);
  const lag = lagBetween(made, step);
  for (let p = step / 2; p < deepest; p += step) {
    const { perSalinity, perKelvin, perConductivity, dSpDt } = worth(made, "down", p);
    const q = ocean.belowMixed(p, station);
    const same = Math.exp(-(time("up", p) - time("down", p)) / spice.drift_s);
    const stratified = 1 - Math.exp(-q / (spice.setsIn * deepest));
    if (stratified < 0.5) continue;
    const size = stratified * ocean.spice(q) * Math.sqrt(2 * (1 - same));
    // Salinity and potential temperature of the water of the way down, per dbar.
    const [upper, lower] = [p - spacing / 2, p + spacing / 2].map((pressure) =>
      water("down", Math.max(0, pressure)),
    );
    const theta = (parcel: { salinity: number; temperature_C: number }, at: number) =>
      ptFromT(srFromSp(parcel.salinity), parcel.temperature_C, at, 0);
    const warms = theta(lower!, p + spacing / 2) - theta(upper!, Math.max(0, p - spacing / 2));
    const slope = (lower!.salinity - upper!.salinity) / warms;
    const { salinity, temperature_C } = water("down", p);
    const pt = theta({ salinity, temperature_C }, p);
    const own = perSalinity * size * (1 - compensatingTemperature(salinity, pt, p) * slope);
    const error = Math.hypot(
      perConductivity * noise.conductivity_mS_cm,
      perSalinity * (dSpDt - slope) * noise.temperature_K,
    );
    if (!Number.isFinite(own) || !Number.isFinite(error)) continue;
    const lagged = perKelvin * lag[Math.floor(p / step)]!;
    if (!Number.isFinite(lagged)) continue;
    see(field, p / spacing, own, [p < above_dbar ? 1 : 0, lagged], scans / (2 * error ** 2));
  }
  const [[change, both], [, ofLag]] = informationLeft(field) as [
    [number, number],
    [number, number],
  ];
  return 1 / (lagKnown ? change : change - both ** 2 / (ofLag + priorTimesUsual ** -2));
}

/** Up less down of what the usual lag makes of the temperature in the cell, K, by level; NaN where a leg has no scan. */
function lagBetween({ scenario, data }: MadeCast, step: number): Float64Array {
  const path = packagePath(scenario);
  const { temperature_C } = data.columns.primary;
  const { sampling } = scenario;
  const lag =
    sampling.kind === "averages"
      ? thermalLagOfLayers(temperature_C, path.interval_s, usualLag)
      : thermalLagOfScans(temperature_C, 1 / sampling.rate_Hz, usualLag);
  const levels = Math.ceil(scenario.deepest_dbar / step);
  const sums = { down: new Float64Array(levels), up: new Float64Array(levels) };
  const counts = { down: new Float64Array(levels), up: new Float64Array(levels) };
  for (let i = 0; i < lag.length; i++) {
    const standing = i > 0 && path.reached_dbar[i] === path.reached_dbar[i - 1];
    const level = Math.floor(path.pressure_dbar[i]! / step);
    if ((standing && sampling.kind === "time-series") || level >= levels) continue;
    const leg = legAt(path, i);
    sums[leg][level]! += lag[i]!;
    counts[leg][level]!++;
  }
  return sums.up.map((sum, k) => sum / counts.up[k]! - sums.down[k]! / counts.down[k]!);
}
