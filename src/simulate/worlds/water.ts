// The water of one cast: the sea at rest, displaced by waves, with spice, changing during the cast.
// Numbers without a source are judgement: fine enough that interpolation does no harm.
import { type Motion, sumOfWaves, type Wave } from "./motion.js";
import type { OceanAtRest } from "./ocean.js";

export interface WaterOverTime {
  readonly temperature: (p: number, hour: number) => number;
  readonly salinity: (p: number, hour: number) => number;
}

/** Place and time of a cast. */
interface Visit {
  readonly km: number;
  readonly from_h: number;
  readonly to_h: number;
  /** Start of other water, hours; absent if there is none. */
  readonly otherWaterFrom_h?: number;
}

/** Spacing in time of the profiles between which the water is interpolated, hours. */
const spacing_h = 1 / 6;
/** e-folding depth of spice, dbar. */
const spiceDepth = 500;
/** e-folding depth over which internal waves vanish toward the surface, dbar. */
const surfaceDepth = 60;

export function castWater(ocean: OceanAtRest, motion: Motion, visit: Visit): WaterOverTime {
  const rows = ocean.theta.length - 60;
  const knots = Math.ceil((visit.to_h - visit.from_h) / spacing_h) + 2;
  const profiles = Array.from({ length: knots }, (_, k) =>
    profileAt(ocean, motion, visit, visit.from_h + k * spacing_h, rows),
  );
  const at =
    (of: "temperature" | "salinity") =>
    (p: number, hour: number): number => {
      const depth = Math.min(Math.max(p, 0), rows - 1.001);
      const q = Math.floor(depth);
      const down = depth - q;
      const along = Math.min(Math.max((hour - visit.from_h) / spacing_h, 0), knots - 1.001);
      const k = Math.floor(along);
      const before = profiles[k]![of];
      const after = profiles[k + 1]![of];
      const share = along - k;
      const above = before[q]! + share * (after[q]! - before[q]!);
      const below = before[q + 1]! + share * (after[q + 1]! - before[q + 1]!);
      return above + down * (below - above);
    };
  return { temperature: at("temperature"), salinity: at("salinity") };
}

function profileAt(ocean: OceanAtRest, motion: Motion, visit: Visit, hour: number, rows: number) {
  const km = visit.km + motion.drift_km_h * (hour - visit.from_h);
  const lift = liftAt(motion, hour, km, rows);
  const spice = spiceAt(ocean, motion, visit, hour, km);
  const temperature = new Float64Array(rows);
  const salinity = new Float64Array(rows);
  const last = ocean.theta.length - 2;
  for (let p = 0; p < rows; p++) {
    // The water found at p rests `lift` below it.
    const rest = Math.min(Math.max(p + lift[p]!, 0), last);
    const q = Math.floor(rest);
    const share = rest - q;
    const mixed = (column: Float64Array) => column[q]! + share * (column[q + 1]! - column[q]!);
    const extra = mixed(spice);
    salinity[p] = mixed(ocean.salinity) + extra;
    temperature[p] =
      mixed(ocean.temperature) +
      mixed(ocean.lapse) * (p - rest) +
      extra * mixed(ocean.kelvinPerSalinity);
  }
  return { temperature, salinity };
}

/** Displacement of the water at each pressure, upward, dbar. */
function liftAt(motion: Motion, hour: number, km: number, rows: number): Float64Array {
  const internal = sumOfWaves(motion.internal, hour, km, rows);
  // A mode is a standing wave: sin in the vertical, its phase going with time and place.
  const modes = motion.modes.map(
    ({ amplitude, perDbar, perHour, perKm, phase }): Wave => ({
      amplitude: amplitude * Math.cos(perHour * hour + perKm * km + phase),
      perDbar,
      perHour: 0,
      perKm: 0,
      phase: -Math.PI / 2,
    }),
  );
  const standing = sumOfWaves(modes, 0, 0, rows);
  return internal.map((wave, p) => wave * -Math.expm1(-p / surfaceDepth) + standing[p]!);
}

/** Salinity anomaly by pressure at rest; uniform in the mixed layer. */
function spiceAt(
  ocean: OceanAtRest,
  motion: Motion,
  { otherWaterFrom_h }: Visit,
  hour: number,
  km: number,
): Float64Array {
  const rows = ocean.theta.length;
  const usual = sumOfWaves(motion.spice, hour, km, rows);
  const isOther = otherWaterFrom_h !== undefined && hour >= otherWaterFrom_h;
  const other = isOther ? sumOfWaves(motion.otherWater, hour, km, rows) : undefined;
  const top = Math.min(rows - 1, Math.ceil(ocean.mixedLayer_dbar));
  return usual.map((_, q) => {
    const at = Math.max(q, top);
    const wane = Math.exp(-at / spiceDepth);
    const own = usual[at]! * (motion.spiceShallow * wane + motion.spiceDeep);
    if (other === undefined) return own;
    return own + other[at]! * (motion.otherShallow * wane + motion.otherDeep);
  });
}
