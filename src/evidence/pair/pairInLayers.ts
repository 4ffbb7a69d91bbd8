// The two cells in joined layers of one leg, without bubbles and without the places of steps.
import type { Layers } from "../../cast/averageByPressure.js";
import type { LegName } from "../../cast/cast.js";
import { layersInCommon } from "../../cast/layersInCommon.js";
import type { Legs } from "../../cast/splitLegs.js";
import type { ThinLayers } from "../../cast/thinLayers.js";
import type { Onset } from "../../model/observation.js";
import { type CellLag, outerHeat, publishedLag, usualLagAt } from "../../response/lag/lagPrior.js";
import { wallHeatOfLayers } from "../../response/lag/wallHeatOfLayers.js";
import { madScale } from "../../statistics/madScale.js";
import { median } from "../../statistics/robustCentre.js";
import { delayEffect } from "./delayEffect.js";
import { type PairDifference, pairDifference } from "./pairDifference.js";

/**
 * Readings in a layer of the profile are averaged over this, dbar, or this share of a shallow cast: in fewer parts neither
 * their scatter nor the responses of the cells can be seen (judgement).
 */
const layer = { dbar: 50, share: 1 / 12 };
/** Skip thin layers whose numbers of readings differ by this share or more between the cells (judgement). */
const lacking = 0.05;

/** Skip thin layers this many robust standard deviations from the median of those joined (common practice, no source). */
const spike = 4;
/** Least scatter of thin layers, in salinity (judgement). */
const leastScatter = 0.0003;

/** A thin layer of one cell, and the same one of the other, by their positions. */
type InCommon = readonly [number, number];

/** Means of both cells in joined layers, from the thin layers that both cells have, and the pair there. */
export function pairInLayers(
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
  const stretchAt = (pressure: number) =>
    onsets.filter(({ pressure_dbar }) => pressure_dbar < pressure).length;
  const joined = new Map<string, InCommon[]>();
  for (const [k, j] of layersInCommon(one, other, thickness_dbar)) {
    const pressure = one.pressure_dbar[k]!;
    if (onsets.some((onset) => isAbout(onset, pressure))) continue;
    // If one cell lacks readings, its mean belongs to other water.
    if (Math.abs(other.count[j]! - one.count[k]!) > lacking * one.count[k]!) continue;
    const place = `${Math.floor(pressure / joined_dbar)} ${stretchAt(pressure)}`;
    const together = joined.get(place) ?? [];
    joined.set(place, together);
    together.push([k, j]);
  }
  return [...joined.values()].flatMap((all) => {
    const thin = withoutSpikes(one, other, all);
    const mean = (value: (k: number, j: number) => number) => meanByScans(one, thin, value);
    const pressure = mean((k) => one.pressure_dbar[k]!);
    const found = pairDifference(
      {
        conductivity_mS_cm: mean((k) => one.conductivity_mS_cm[k]!),
        temperature_C: mean((k) => one.temperature_C[k]!),
      },
      {
        conductivity_mS_cm: mean((_, j) => other.conductivity_mS_cm[j]!),
        temperature_C: mean((_, j) => other.temperature_C[j]!),
      },
      {
        pressure,
        lag: mean((k) => lag_ppm?.[k] ?? 0),
        outerHeat: mean((k) => outer_ppm?.[k] ?? 0),
        delay: mean((k) => delayEffect(one, k, leg)),
        stretch: stretchAt(pressure),
      },
    );
    return Number.isFinite(found.value) ? [found] : [];
  });
}

/** Bubbles make a thin layer of one cell read low, as comparison with the median of its neighbours shows. */
function withoutSpikes(one: Layers, other: Layers, thin: readonly InCommon[]): readonly InCommon[] {
  const differences = thin.map(([k, j]) => one.salinity[k]! - other.salinity[j]!);
  const centre = median(differences);
  const allowed = spike * Math.max(madScale(differences, centre), leastScatter);
  return thin.filter((_, i) => Math.abs(differences[i]! - centre) <= allowed);
}

function meanByScans(
  { count }: Layers,
  thin: readonly InCommon[],
  value: (k: number, j: number) => number,
): number {
  let sum = 0;
  let scans = 0;
  for (const [k, j] of thin) {
    sum += count[k]! * value(k, j);
    scans += count[k]!;
  }
  return sum / scans;
}

function isAbout({ pressure_dbar, standardUncertainty_dbar }: Onset, pressure: number): boolean {
  return Math.abs(pressure - pressure_dbar) <= standardUncertainty_dbar;
}
