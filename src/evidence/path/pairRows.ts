// One cell less the other in thin layers along the path. The water is the same for both and drops out, so that a
// change of either gain shows within a few layers, also where temperature and salinity change most.
import type { Layers } from "../../cast/averageByPressure.js";
import type { Cast } from "../../cast/cast.js";
import { joinLayers } from "../../cast/joinLayers.js";
import { layersInCommon } from "../../cast/layersInCommon.js";
import type { Legs } from "../../cast/splitLegs.js";
import type { ThinLayers } from "../../cast/thinLayers.js";
import { pathAt } from "../../model/course.js";
import { unevenness_ppm } from "../../model/pairDesign.js";
import { priorTimesUsual, slowLag, usualLag } from "../../response/lag/usualLag.js";
import { wallHeatOfLayers } from "../../response/lag/wallHeatOfLayers.js";
import { waterScatter } from "../../response/match/waterScatter.js";
import { spFromCFirstDerivatives } from "../../seawater/index.js";
import { median } from "../../statistics/robustCentre.js";
import { unknownScatter_ppm } from "../pair/pair.js";
import type { PathRows } from "./pathRows.js";
import { smoothCourse } from "./smoothCourse.js";

/** In a deep cast thin layers are joined to about this share of it (speed; judgement). */
const deepShare = 1 / 600;
/** Scatter is learnt from differences this many layers apart (judgement: short, because the water drops out). */
const scatterReach = 4;
/** The scatter of the pair where too few layers tell it, ppm (judgement: twice that of the pair's blocks). */
const unknown_ppm = 2 * unknownScatter_ppm;
/**
 * A value this many standard deviations from the median of its neighbours, so many on each side, is a spike (common
 * practice, no source).
 */
const spike = 4;
const neighbours = 5;
/** The unevenness of the pair is a course through so many knots (judgement). */
const knots = 6;
/**
 * Prior standard deviations of what may differ between the cells (judgement): gain, ppm; thermal lag, times the usual;
 * delay, dbar of path; thermometers, K.
 */
const priorLevel_ppm = 3000;
const priorLag = priorTimesUsual;
/** The package moves unlike on the two legs, and so the lag of the up leg is not quite that of the down leg (judgement). */
const priorLagOfLeg = 1;
const priorDelay_dbar = 0.2;
const priorOffset_K = 0.003;

/** Layers of both cells on one leg. */
interface PairLayers {
  readonly primary: Layers;
  readonly secondary: Layers;
  readonly lag_ppm: Float64Array;
  readonly slowLag_ppm: Float64Array;
}

/**
 * @param thin as from `thinLayers`
 * @returns the primary cell less the secondary; undefined where there are not two cells
 */
export function pairRows(cast: Cast, legs: Legs, thin: ThinLayers): PathRows | undefined {
  if (cast.columns.secondary === undefined) return undefined;
  if (legs.down.length === 0 || legs.up.length === 0) return undefined;
  const { deepest_dbar, thickness_dbar } = thin;
  const together = Math.max(1, Math.round((deepShare * deepest_dbar) / thickness_dbar));
  const thickness = together * thickness_dbar;
  const own: Row[] = [];
  for (const leg of ["down", "up"] as const) {
    const primary = joinLayers(thin.of(leg, "primary"), thickness);
    const secondary = joinLayers(thin.of(leg, "secondary"), thickness);
    const lag_ppm = wallHeatOfLayers(primary, legs.clock, usualLag);
    const slowLag_ppm = wallHeatOfLayers(primary, legs.clock, slowLag);
    const rows = rowsOf({ primary, secondary, lag_ppm, slowLag_ppm }, thickness, leg === "up");
    for (const row of rows) own.push({ ...row, at: pathAt(leg, row.pressure, deepest_dbar) });
  }
  own.sort((a, b) => a.at - b.at);
  const column = (value: (row: Row) => number) => Float64Array.from(own, value);
  const value_ppm = column(({ value }) => value);
  return {
    value_ppm,
    weight: weightsOf(value_ppm),
    at_dbar: column(({ at }) => at),
    background: [
      { column: column(() => 1), standardDeviation: priorLevel_ppm },
      { column: column(({ lag }) => lag), standardDeviation: priorLag },
      { column: column(({ lag, up }) => (up ? lag : 0)), standardDeviation: priorLagOfLeg },
      { column: column(({ slowLag }) => slowLag), standardDeviation: priorLag },
      { column: column(({ delay }) => delay), standardDeviation: priorDelay_dbar },
      { column: column(({ delay, up }) => (up ? delay : 0)), standardDeviation: priorDelay_dbar },
      { column: column(({ perKelvin }) => perKelvin), standardDeviation: priorOffset_K },
      ...smoothCourse(
        column(({ pressure }) => pressure),
        deepest_dbar,
        knots,
        unevenness_ppm,
      ),
      // What the one leg shows and the other does not, evenly along the way.
      ...smoothCourse(
        column(({ at }) => at),
        2 * deepest_dbar,
        2 * knots,
        unevenness_ppm,
      ),
    ],
  };
}

interface Row {
  readonly at: number;
  readonly pressure: number;
  /** Primary less secondary, ppm. */
  readonly value: number;
  /** What the usual lag makes of one cell, ppm. */
  readonly lag: number;
  /** The same of a cell that answers slowly. */
  readonly slowLag: number;
  readonly up: boolean;
  /** What one dbar of path makes of the conductivity, ppm. */
  readonly delay: number;
  readonly perKelvin: number;
}

function rowsOf(
  { primary, secondary, lag_ppm, slowLag_ppm }: PairLayers,
  thickness: number,
  up: boolean,
): Row[] {
  const rows: Row[] = [];
  for (const [k, other] of layersInCommon(primary, secondary, thickness)) {
    const c = primary.conductivity_mS_cm[k]!;
    const { dSpDc, dSpDt } = spFromCFirstDerivatives(
      c,
      primary.temperature_C[k]!,
      primary.pressure_dbar[k]!,
    );
    const perSalinity = 1e6 / (c * dSpDc);
    const before = Math.max(0, k - 1);
    const after = Math.min(primary.count.length - 1, k + 1);
    const over = primary.pressure_dbar[after]! - primary.pressure_dbar[before]!;
    const change = primary.conductivity_mS_cm[after]! - primary.conductivity_mS_cm[before]!;
    const value = perSalinity * (primary.salinity[k]! - secondary.salinity[other]!);
    if (!Number.isFinite(value + lag_ppm[k]!)) continue;
    rows.push({
      at: 0,
      pressure: primary.pressure_dbar[k]!,
      value,
      lag: lag_ppm[k]!,
      slowLag: slowLag_ppm[k]!,
      up,
      // Going down, a cell that is behind holds water from above; going up, from below.
      delay: over > 0 ? (1e6 * change) / over / c : 0,
      perKelvin: perSalinity * dSpDt,
    });
  }
  return rows;
}

function weightsOf(value_ppm: Float64Array): Float64Array {
  const { standardDeviation, memory } = waterScatter(value_ppm, scatterReach, unknown_ppm);
  return value_ppm.map((value, k) => {
    // As many on either side, so that a step close to an end of the path is no spike.
    const side = Math.min(neighbours, k, value_ppm.length - 1 - k);
    const around = median(value_ppm.subarray(k - side, k + side + 1));
    const scale = standardDeviation[k]!;
    return Math.abs(value - around) > spike * scale ? 0 : 1 / (scale ** 2 * (memory[k]! || 1));
  });
}
