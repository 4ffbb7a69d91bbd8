// One cell minus the other in thin layers along the path. The water is the same for both and cancels. So a change of either
// gain shows within a few layers, also in strong gradients of temperature and salinity.
import type { Layers } from "../../cast/averageByPressure.js";
import type { Cast } from "../../cast/cast.js";
import { joinLayers } from "../../cast/joinLayers.js";
import { layersInCommon } from "../../cast/layersInCommon.js";
import type { Legs } from "../../cast/splitLegs.js";
import type { ThinLayers } from "../../cast/thinLayers.js";
import { depthScatter_ppm } from "../../model/pairDesign.js";
import { pathAt } from "../../model/placesOnCast.js";
import {
  type CellLag,
  outerHeat,
  priorTimesUsual,
  publishedLag,
  slowestPublishedLag,
  usualLagAt,
} from "../../response/lag/lagPrior.js";
import { wallHeatOfLayers } from "../../response/lag/wallHeatOfLayers.js";
import { waterScatter } from "../../response/match/waterScatter.js";
import { spFromCFirstDerivatives } from "../../seawater/index.js";
import { median } from "../../statistics/robustCentre.js";
import { changePerDbar, delayEffect } from "../pair/delayEffect.js";
import { unknownScatter_ppm } from "../pair/responseDifference.js";
import type { PathRows } from "./pathRows.js";
import { smoothProfile } from "./smoothProfile.js";

/** In a deep cast thin layers are joined to about this share of it (speed; judgement). */
const deepShare = 1 / 600;
/** Scatter is estimated from differences over this many layers (judgement: short, because the water cancels). */
const scatterReach = 4;
/** Assumed scatter of the pair if there are too few layers, ppm (judgement: twice that of the pair's blocks). */
const unknown_ppm = 2 * unknownScatter_ppm;
/**
 * A value this many standard deviations from the median of its neighbours is a spike; this many neighbours on each side
 * (common practice, no source).
 */
const spike = 4;
const neighbours = 5;
/** Number of knots of the curve for the depth dependence of the pair (judgement). */
const knots = 6;
/**
 * Prior standard deviations of possible differences between the cells (judgement): gain, ppm; thermal lag, times the usual;
 * delay, dbar of path; thermometers, K.
 */
const priorLevel_ppm = 3000;
const priorLag = priorTimesUsual;
/** The package moves differently on the two legs, so their lags, and their delays, are not exactly equal (judgement). */
const priorLagOfLeg = 1;
/** Prior of the difference in outer heat: it is proportional to the lag, which may differ by `priorTimesUsual`. */
const priorOuterHeat = priorTimesUsual * outerHeat.share;
/** At the start of the lowering a cell may hold heat of the deck or the soak in its outer parts (judgement). */
const priorAtStart_K = 0.02;
/** A film in one of the cells may grow by this within half of a cast (judgement). */
const priorGrowth_ppm = 30;
const priorDelay_dbar = 0.2;
const priorOffset_K = 0.003;

/** Layers of both cells on one leg, and the effects of heat in one cell. */
type PairLayers = Readonly<
  Record<"primary" | "secondary", Layers> &
    Record<"lag_ppm" | "slowLag_ppm" | "outerHeat_ppm", Float64Array>
>;

/**
 * @param thin as from `thinLayers`
 * @returns the primary cell minus the secondary; undefined unless there are two cells
 */
export function pairRows(cast: Cast, legs: Legs, thin: ThinLayers): PathRows | undefined {
  if (cast.columns.secondary === undefined) return undefined;
  const { deepest_dbar, thickness_dbar } = thin;
  const thickness =
    thickness_dbar * Math.max(1, Math.round((deepShare * deepest_dbar) / thickness_dbar));
  const own: PairRow[] = [];
  const withScans = (["down", "up"] as const).filter((leg) => legs[leg].length > 0);
  for (const leg of withScans) {
    const primary = joinLayers(thin.of(leg, "primary"), thickness);
    const secondary = joinLayers(thin.of(leg, "secondary"), thickness);
    // On the way up the cell still holds heat of the way down.
    const before = leg === "up" && withScans.length > 1 ? thin.of("down", "primary") : undefined;
    const heatOf = (lag: CellLag) => wallHeatOfLayers(primary, legs.clock, lag, before);
    const [lag_ppm, slowLag_ppm] = [heatOf(publishedLag), heatOf(slowestPublishedLag)];
    const outerHeat_ppm = heatOf(usualLagAt(outerHeat.tau_s));
    const layers = { primary, secondary, lag_ppm, slowLag_ppm, outerHeat_ppm };
    const rows = rowsOf(layers, thickness, leg === "up", sinceStart(legs));
    own.push(...rows.map((row) => ({ ...row, at: pathAt(leg, row.pressure, deepest_dbar) })));
  }
  own.sort((a, b) => a.at - b.at);
  const column = (value: (row: PairRow) => number) => Float64Array.from(own, value);
  const onUpLeg = (value: (row: PairRow) => number) => column((row) => (row.up ? value(row) : 0));
  const value_ppm = column(({ value }) => value);
  return {
    value_ppm,
    weight: weightsOf(value_ppm),
    at_dbar: column(({ at }) => at),
    background: [
      { column: column(() => 1), standardDeviation: priorLevel_ppm },
      { column: column(({ lag }) => lag), standardDeviation: priorLag },
      { column: onUpLeg(({ lag }) => lag), standardDeviation: priorLagOfLeg },
      { column: column(({ slowLag }) => slowLag), standardDeviation: priorLag },
      { column: column(({ outerHeat }) => outerHeat), standardDeviation: priorOuterHeat },
      { column: column(({ start }) => start), standardDeviation: priorAtStart_K },
      { column: column(({ delay }) => delay), standardDeviation: priorDelay_dbar },
      { column: onUpLeg(({ delay }) => delay), standardDeviation: priorDelay_dbar },
      { column: column(({ misaligned }) => misaligned), standardDeviation: priorDelay_dbar },
      { column: onUpLeg(({ misaligned }) => misaligned), standardDeviation: priorDelay_dbar },
      { column: column(({ perKelvin }) => perKelvin), standardDeviation: priorOffset_K },
      ...smoothProfile(
        column(({ pressure }) => pressure),
        deepest_dbar,
        knots,
        depthScatter_ppm,
      ),
      { column: column(({ at }) => at / deepest_dbar - 1), standardDeviation: priorGrowth_ppm },
      // A difference between the legs, constant along each leg.
      ...smoothProfile(
        column(({ at }) => at),
        2 * deepest_dbar,
        2 * knots,
        depthScatter_ppm,
      ),
    ],
  };
}

/** Seconds since the start of the lowering at each scan. */
function sinceStart({ clock, down }: Legs): (scan: number) => number {
  const start = down.length > 0 ? clock.seconds[down[0]!]! : 0;
  return (scan) => clock.seconds[scan]! - start;
}

interface PairRow {
  readonly at: number;
  readonly pressure: number;
  /** Primary minus secondary, ppm. */
  readonly value: number;
  /** The effect of the usual lag on one cell, ppm. */
  readonly lag: number;
  /** The same for a cell with a slow response. */
  readonly slowLag: number;
  /** The same for heat in the outer parts of one cell. */
  readonly outerHeat: number;
  /** Effect on one cell of being one kelvin off at the start of the lowering, ppm; it fades with time. */
  readonly start: number;
  readonly up: boolean;
  /** The effect on one cell of water that arrives later, by one dbar of the path, ppm. */
  readonly delay: number;
  /** The same for its conductivity alone, without its temperature; the sign is that of the way down on both legs. */
  readonly misaligned: number;
  readonly perKelvin: number;
}

function rowsOf(
  { primary, secondary, lag_ppm, slowLag_ppm, outerHeat_ppm }: PairLayers,
  thickness: number,
  up: boolean,
  since_s: (scan: number) => number,
): PairRow[] {
  const rows: PairRow[] = [];
  for (const [k, other] of layersInCommon(primary, secondary, thickness)) {
    const c = primary.conductivity_mS_cm[k]!;
    const { dSpDc, dSpDt } = spFromCFirstDerivatives(
      c,
      primary.temperature_C[k]!,
      primary.pressure_dbar[k]!,
    );
    const perSalinity = 1e6 / (c * dSpDc);
    const value = perSalinity * (primary.salinity[k]! - secondary.salinity[other]!);
    if (!Number.isFinite(value + lag_ppm[k]!)) continue;
    rows.push({
      at: 0,
      pressure: primary.pressure_dbar[k]!,
      value,
      lag: lag_ppm[k]!,
      slowLag: slowLag_ppm[k]!,
      outerHeat: outerHeat_ppm[k]!,
      start: up
        ? 0
        : perSalinity * dSpDt * Math.exp(-since_s(primary.firstScan[k]!) / outerHeat.tau_s),
      up,
      delay: delayEffect(primary, k, up ? "up" : "down"),
      misaligned: (1e6 * changePerDbar(primary, primary.conductivity_mS_cm, k)) / c,
      perKelvin: perSalinity * dSpDt,
    });
  }
  return rows;
}

function weightsOf(value_ppm: Float64Array): Float64Array {
  const { standardDeviation, memory } = waterScatter(value_ppm, scatterReach, unknown_ppm);
  return value_ppm.map((value, k) => {
    // Both ends of the path are at the surface, where a spike is more likely than a step.
    const around = median(value_ppm.subarray(Math.max(0, k - neighbours), k + neighbours + 1));
    const scale = standardDeviation[k]!;
    return Math.abs(value - around) > spike * scale ? 0 : 1 / (scale ** 2 * (memory[k]! || 1));
  });
}
