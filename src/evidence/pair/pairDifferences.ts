// One cell minus the other at the same places; the conductivity of each cell is taken with its own temperature.
import type { Layers } from "../../cast/averageByPressure.js";
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, LegName } from "../../cast/cast.js";
import { layersInCommon } from "../../cast/layersInCommon.js";
import type { Legs } from "../../cast/splitLegs.js";
import { type ThinLayers, thinLayers } from "../../cast/thinLayers.js";
import type { Observation, Onset } from "../../model/observation.js";
import { type CellLag, outerHeat, publishedLag, usualLagAt } from "../../response/lag/lagPrior.js";
import { wallHeatOfLayers } from "../../response/lag/wallHeatOfLayers.js";
import { spFromC, spFromCFirstDerivatives } from "../../seawater/index.js";
import { ppmPerSalinity } from "../../seawater/ppmPerSalinity.js";
import { closureReading } from "../bottles/closureReadings.js";

/**
 * Readings in a layer of the profile are averaged over this, dbar, or this share of a shallow cast: in fewer parts neither
 * their scatter nor the responses of the cells can be seen (judgement).
 */
const layer = { dbar: 50, share: 1 / 12 };
/** Skip thin layers whose numbers of readings differ by this share or more between the cells (judgement). */
const lacking = 0.05;

/** The difference of the two gains at one place. */
export interface PairDifference {
  readonly pressure: number;
  /** Unit: ppm. */
  readonly value: number;
  readonly water: NonNullable<Observation["water"]>;
  /** Temperature 1 minus 2, K. */
  readonly temperature: number;
  /** The effect of one kelvin of temperature error, ppm. */
  readonly perKelvin: number;
  /** The effect of the usual thermal lag on one cell there, ppm; 0 at closures, where the package stands. */
  readonly lag: number;
  /** The same for heat in the outer parts of one cell, as large as the usual lag in a steady gradient. */
  readonly outerHeat: number;
  /** The effect on one cell of water that arrives later, by one dbar of the path, ppm; 0 at closures. */
  readonly delay: number;
  /** Number of onsets above it; only differences with the same number are averaged together. */
  readonly stretch: number;
}

/** Both cells at the same places, by leg. */
export interface PairDifferences {
  readonly from: "scans" | "closures";
  readonly byLeg: Readonly<Partial<Record<LegName, readonly PairDifference[]>>>;
}

/**
 * The two cells in the same water, from the scans of both legs if available, otherwise from the closures.
 * @param legs   as from `splitLegs`
 * @param thin   precomputed by `thinLayers`, optional
 * @param onsets places of steps: readings above and below are kept separate, those near a step are excluded
 */
export function pairDifferences(
  cast: Cast | undefined,
  legs: Legs | undefined,
  bottles: readonly Bottle[],
  thin = cast && legs && thinLayers(cast, legs),
  onsets: readonly Onset[] = [],
): PairDifferences {
  if (cast?.columns.secondary === undefined || thin === undefined) {
    return { from: "closures", byLeg: { up: closureDifferences(bottles) } };
  }
  const [down, up] = (["down", "up"] as const).map((leg) =>
    layerDifferences(thin, leg, legs?.clock, onsets),
  );
  return { from: "scans", byLeg: { down: down ?? [], up: up ?? [] } };
}

/** What one cell reads. */
type Water = PairDifference["water"];
/** Where it reads it: at a closure the responses have died away. */
type Place = Pick<PairDifference, "pressure" | "lag" | "outerHeat" | "delay" | "stretch">;

function difference(first: Water, second: Water, place: Place): PairDifference {
  const { pressure } = place;
  const [c1, t1] = [first.conductivity_mS_cm, first.temperature_C];
  const [c2, t2] = [second.conductivity_mS_cm, second.temperature_C];
  const { dSpDc, dSpDt } = spFromCFirstDerivatives(c1, t1, pressure);
  const perSalinity = 1e6 / (c1 * dSpDc);
  return {
    ...place,
    value: perSalinity * (spFromC(c1, t1, pressure) - spFromC(c2, t2, pressure)),
    water: { conductivity_mS_cm: c1, temperature_C: t1 },
    temperature: t1 - t2,
    perKelvin: perSalinity * Math.abs(dSpDt),
  };
}

function closureDifferences(bottles: readonly Bottle[]): readonly PairDifference[] {
  return bottles.flatMap((bottle) => {
    const first = closureReading(bottle, "primary", undefined);
    const second = closureReading(bottle, "secondary", undefined);
    if (first === undefined || second === undefined) return [];
    const place = { pressure: bottle.pressure_dbar, lag: 0, outerHeat: 0, delay: 0, stretch: 0 };
    const found = difference(first, second, place);
    return Number.isFinite(found.value) ? [found] : [];
  });
}

/** Means of both cells in joined layers, from the thin layers that both cells have, and the pair there. */
function layerDifferences(
  { of, thickness_dbar, deepest_dbar }: ThinLayers,
  leg: LegName,
  clock: Legs["clock"] | undefined,
  onsets: readonly Onset[],
): readonly PairDifference[] {
  const [one, other] = [of(leg, "primary"), of(leg, "secondary")];
  const before = leg === "up" ? of("down", "primary") : undefined;
  const heatOf = (lag: CellLag) => clock && wallHeatOfLayers(one, clock, lag, before);
  const lag_ppm = heatOf(publishedLag);
  const outer_ppm = heatOf(usualLagAt(outerHeat.tau_s));
  const joined_dbar = Math.min(layer.dbar, layer.share * deepest_dbar);
  const found: PairDifference[] = [];
  let [place, stretch] = [Number.NaN, 0];
  let [c1, t1, c2, t2, p, lag, outer, late, count] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  const finish = () => {
    if (count > 0) {
      const first = { conductivity_mS_cm: c1 / count, temperature_C: t1 / count };
      const second = { conductivity_mS_cm: c2 / count, temperature_C: t2 / count };
      const [pressure, delay] = [p / count, late / count];
      const at = { pressure, lag: lag / count, outerHeat: outer / count, delay, stretch };
      found.push(difference(first, second, at));
    }
    [c1, t1, c2, t2, p, lag, outer, late, count] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  };
  for (const [k, j] of layersInCommon(one, other, thickness_dbar)) {
    const pressure = one.pressure_dbar[k]!;
    const own = Math.floor(pressure / joined_dbar);
    const passed = onsets.filter(({ pressure_dbar }) => pressure_dbar < pressure).length;
    if (own !== place || passed !== stretch) finish();
    [place, stretch] = [own, passed];
    if (onsets.some((onset) => isAbout(onset, pressure))) continue;
    const scans = one.count[k]!;
    // If one cell lacks readings, its mean belongs to other water.
    if (Math.abs(other.count[j]! - scans) > lacking * scans) continue;
    c1 += scans * one.conductivity_mS_cm[k]!;
    t1 += scans * one.temperature_C[k]!;
    c2 += scans * other.conductivity_mS_cm[j]!;
    t2 += scans * other.temperature_C[j]!;
    p += scans * one.pressure_dbar[k]!;
    lag += scans * (lag_ppm?.[k] ?? 0);
    outer += scans * (outer_ppm?.[k] ?? 0);
    late += scans * delayEffect(one, k, leg);
    count += scans;
  }
  finish();
  return found.filter(({ value }) => Number.isFinite(value));
}

/**
 * The effect on a cell of water that arrives later, temperature and conductivity alike, by one dbar of the path, ppm: on the
 * way down it is water from above, on the way up from below.
 * @param layer position in the layers of the leg
 */
export function delayEffect(layers: Layers, layer: number, leg: LegName): number {
  const { conductivity_mS_cm, temperature_C, pressure_dbar } = layers;
  const perDbar = changePerDbar(layers, layers.salinity, layer);
  const change =
    ppmPerSalinity(conductivity_mS_cm[layer]!, temperature_C[layer]!, pressure_dbar[layer]!) *
    perDbar;
  return leg === "down" ? -change : change;
}

/** The change of a column with pressure about a layer; 0 for a layer alone. */
export function changePerDbar(
  { pressure_dbar }: Layers,
  column: Float64Array,
  layer: number,
): number {
  const before = Math.max(0, layer - 1);
  const after = Math.min(pressure_dbar.length - 1, layer + 1);
  const over = pressure_dbar[after]! - pressure_dbar[before]!;
  return over > 0 ? (column[after]! - column[before]!) / over : 0;
}

function isAbout({ pressure_dbar, standardUncertainty_dbar }: Onset, pressure: number): boolean {
  return Math.abs(pressure - pressure_dbar) <= standardUncertainty_dbar;
}
