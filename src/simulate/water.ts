// The water that the package passes on one cast: an invented ocean at this station, moved by internal waves, with
// small-scale variability at equal density ("spice"). Part of the spice is new on the second leg, and the scenario may have
// a front between the legs.
// Numbers without a source are judgement: an ordinary sea.
import type { LegName } from "../cast/cast.js";
import { ptFromT, srFromSp } from "../seawater/index.js";
import { correlatedProfile } from "./correlated.js";
import { geography } from "./geography.js";
import { internalWaves } from "./internalWaves.js";
import { legTimes } from "./legTimes.js";
import { oceans } from "./oceans.js";
import { randomStream } from "./random.js";
import type { CompleteScenario } from "./scenario.js";
import { compensatingTemperature } from "./spiciness.js";

export interface Parcel {
  /** PSS-78. */
  readonly salinity: number;
  /** In-situ, ITS-90 degree C. */
  readonly temperature_C: number;
}

/** The water at a pressure on a leg, also somewhat below the cast's deepest pressure. */
export type CastWater = (leg: LegName, pressure_dbar: number) => Parcel;

/** Distance of the sea floor below the deepest of the cast. */
const bottom = { share: 1.02, dbar: 10 };
/** Correlation length of spice, dbar, or this share of a shallow cast (judgement). */
const spiceLength = { dbar: 15, share: 1 / 40 };
/** Ratio of the part of the spice that both legs pass to the part that each leg has alone (judgement). */
const commonSpice = 2.5;
/** The package drifts into other water in about this time, s (judgement: some hundred metres at a knot or less). */
const drift_s = 900;
/** Decay of a front with depth, and its interleaving scale, as shares of the cast (judgement). */
const front = { fades: 1 / 3, interleaves: 1 / 25, uniform: 0.4 };
/** Depth below the mixed layer at which variability at equal density begins, share of the cast. */
const setsIn = 1 / 60;
const ratioNodes = 40;

/**
 * The water of one cast.
 * @param cast counted from 1
 */
export function waterOf(scenario: CompleteScenario, cast: number): CastWater {
  const { deepest_dbar: deepest } = scenario;
  const ocean = oceans[scenario.ocean];
  const root = randomStream(scenario.seed);
  const station = geography(root.split("geography"), cast);
  const own = root.split("water").split(cast);
  const time = legTimes(scenario);
  const waves = internalWaves(own.split("waves"), bottom.share * deepest + bottom.dbar);
  const length = Math.min(spiceLength.dbar, spiceLength.share * deepest);
  const common = correlatedProfile(own.split("spice"), deepest, length);
  const downOnly = correlatedProfile(own.split("spice down"), deepest, length);
  const upOnly = correlatedProfile(own.split("spice up"), deepest, length);
  const interleaving = correlatedProfile(own.split("front"), deepest, front.interleaves * deepest);
  const contrast = scenario.events.reduce(
    (sum, event) => sum + (event.kind === "front" && event.cast === cast ? event.salinity : 0),
    0,
  );
  const temperatureOf = compensation(scenario, (p) => {
    const q = ocean.belowMixed(p, station);
    return { sp: ocean.salinity(q, station), pt: ocean.potentialTemperature(q, station) };
  });

  return (leg, p) => {
    // The water that the wave has brought here is at `rest` when undisturbed, `q` below the mixed layer.
    const rest = p - waves(p, time(leg, p));
    const q = ocean.belowMixed(rest, station);
    const stratified = 1 - Math.exp(-q / (setsIn * deepest));
    let unlike = downOnly(rest);
    let across = 0;
    if (leg === "up") {
      const same = Math.exp(-(time("up", p) - time("down", p)) / drift_s);
      unlike = same * unlike + Math.sqrt(1 - same * same) * upOnly(rest);
      if (contrast !== 0) {
        const shape = front.uniform + (1 - front.uniform) * interleaving(rest);
        across = contrast * (1 - same) * shape * Math.exp(-rest / (front.fades * deepest));
      }
    }
    const salty = stratified * (ocean.spice(q) * (commonSpice * common(rest) + unlike) + across);
    const salinity = ocean.salinity(q, station) + salty;
    const theta = ocean.potentialTemperature(q, station) + temperatureOf(rest) * salty;
    return { salinity, temperature_C: ptFromT(srFromSp(salinity), theta, 0, p) };
  };
}

/** `compensatingTemperature` of the undisturbed water by pressure, interpolated between nodes. */
function compensation(
  { deepest_dbar }: CompleteScenario,
  at: (p: number) => { readonly sp: number; readonly pt: number },
): (pressure_dbar: number) => number {
  const step = deepest_dbar / (ratioNodes - 1);
  const ratios = Float64Array.from({ length: ratioNodes }, (_, i) => {
    const { sp, pt } = at(i * step);
    return compensatingTemperature(sp, pt, i * step);
  });
  return (p) => {
    const x = Math.min(ratioNodes - 1.001, Math.max(0, p / step));
    const i = Math.floor(x);
    return ratios[i]! + (x - i) * (ratios[i + 1]! - ratios[i]!);
  };
}
