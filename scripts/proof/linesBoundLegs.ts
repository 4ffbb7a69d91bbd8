// The least variance with which the legs could know the change of gain between them on one cast: the Cramer-Rao bound of
// the cast's design, from the simulator's own noise.
//
// Legs. What differs between the legs at equal temperature, heave being free at every depth: the small-scale salinity
// new on the way up, less what its own temperature makes of the match, over the local gradients; and scan noise. Told:
// the water as it was on the way down between its layers too, how large the new part is at every depth, how it
// remembers itself, and the thermal lag. Not told: heave. It is smooth, and who knew its modes could do better than this
// bound; the estimator knows neither. Scans at stops and in the soak are not counted.
import { ptFromT, srFromSp } from "../../src/seawater/index.js";
import { geography } from "../../src/simulate/geography.js";
import { randomStream } from "../../src/simulate/index.js";
import { legTimes } from "../../src/simulate/legTimes.js";
import { oceans } from "../../src/simulate/oceans.js";
import { pairOnCast } from "../../src/simulate/sensorPair.js";
import { compensatingTemperature } from "../../src/simulate/spiciness.js";
import { type MadeCast, worth } from "./linesBound.js";

/** As in src/simulate/water.ts, which keeps them to itself. */
const spice = { length_dbar: 15, length_share: 1 / 40, setsIn: 1 / 60, drift_s: 900 };
/** Nodes of the small-scale salinity to a length, and what one node keeps of the one before. */
const nodesPerLength = 4;
const kept = Math.exp(-1 / nodesPerLength);

/** @param above_dbar the change shows above this only */
export function legsBound(made: MadeCast, above_dbar = Number.POSITIVE_INFINITY): number {
  const { scenario, cast, water } = made;
  const { deepest_dbar: deepest, sampling } = scenario;
  const ocean = oceans[scenario.ocean];
  const station = geography(randomStream(scenario.seed).split("geography"), cast);
  const time = legTimes(scenario);
  const { noise } = pairOnCast(scenario, cast, "primary", made.truth);
  const spacing = Math.min(spice.length_dbar, spice.length_share * deepest) / nodesPerLength;
  const step = sampling.kind === "averages" ? sampling.layer_dbar : spacing / 2;
  const scans = sampling.kind === "averages" ? 1 : step * sampling.rate_Hz;
  const field = newField(Math.ceil(deepest / spacing) + 2);
  for (let p = step / 2; p < deepest; p += step) {
    const { perSalinity, perConductivity, dSpDt } = worth(made, "down", p);
    const q = ocean.belowMixed(p, station);
    const same = Math.exp(-(time("up", p) - time("down", p)) / spice.drift_s);
    const stratified = 1 - Math.exp(-q / (spice.setsIn * deepest));
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
    see(field, p / spacing, own, p < above_dbar ? 1 : 0, scans / (2 * error ** 2));
  }
  return 1 / informationOfChange(field);
}

/** The nodes of the small-scale salinity, of unit variance: their information, and what they share with the change. */
interface Field {
  readonly diagonal: Float64Array;
  readonly beside: Float64Array;
  readonly withChange: Float64Array;
  change: number;
}

function newField(nodes: number): Field {
  const fresh = 1 - kept ** 2;
  const diagonal = new Float64Array(nodes).fill((1 + kept ** 2) / fresh);
  diagonal[0] = 1 / fresh;
  diagonal[nodes - 1] = 1 / fresh;
  return {
    diagonal,
    beside: new Float64Array(nodes - 1).fill(-kept / fresh),
    withChange: new Float64Array(nodes),
    change: 0,
  };
}

/** A datum that is `change` x the change + `size` x the field at a place between nodes + an error. */
function see(field: Field, at: number, size: number, change: number, information: number): void {
  const i = Math.floor(at);
  const right = size * (at - i);
  const left = size - right;
  field.diagonal[i]! += information * left ** 2;
  field.diagonal[i + 1]! += information * right ** 2;
  field.beside[i]! += information * left * right;
  field.withChange[i]! += information * left * change;
  field.withChange[i + 1]! += information * right * change;
  field.change += information * change ** 2;
}

/** What is left of the information about the change once the field is as unknown as it is. */
function informationOfChange({ diagonal, beside, withChange, change }: Field): number {
  let pivot = diagonal[0]!;
  let carried = withChange[0]!;
  let left = change - carried ** 2 / pivot;
  for (let i = 1; i < diagonal.length; i++) {
    const factor = beside[i - 1]! / pivot;
    pivot = diagonal[i]! - factor * beside[i - 1]!;
    carried = withChange[i]! - factor * carried;
    left -= carried ** 2 / pivot;
  }
  return left;
}
