// Changes of the water between legs and stations: internal tides, waves and eddies, which move it up and down, and spice.
// Spice is warm and salty beside cold and fresh water of the same density.
// Numbers without a source are judgement: waves, eddies and spice from calm to lively seas.
import type { RandomStream } from "../random.js";
import { between, betweenLog } from "./draws.js";

/** A wave in the vertical: amplitude x cos(perDbar x pressure + perHour x hour + perKm x km + phase). */
export interface Wave {
  readonly amplitude: number;
  readonly perDbar: number;
  readonly perHour: number;
  readonly perKm: number;
  readonly phase: number;
}

export interface Motion {
  /** Vertical modes of displacement, dbar: 0 at the surface and at the bottom. */
  readonly modes: readonly Wave[];
  /** Internal waves of 20 to 400 dbar vertical wavelength, displacement in dbar. */
  readonly internal: readonly Wave[];
  /** Unit variance. */
  readonly spice: readonly Wave[];
  /** Standard deviation of spice near the surface and at great depth, salinity. */
  readonly spiceShallow: number;
  readonly spiceDeep: number;
  /** Other water of the up leg: short vertical wavelengths, unit variance, and its standard deviations. */
  readonly otherWater: readonly Wave[];
  readonly otherShallow: number;
  readonly otherDeep: number;
  /** Distance between stations, and drift during a cast. */
  readonly stationSpacing_km: number;
  readonly drift_km_h: number;
}

/** The semidiurnal lunar tide, hours. */
const tide_h = 12.42;
/** Greatest strain d(displacement)/dp: at 1 the water would overturn. */
const mostStrain = 0.75;

export function drawMotion(random: RandomStream, bottom_dbar: number): Motion {
  const turn = () => 2 * Math.PI * random.uniform();
  const strength = betweenLog(random, 0.5, 2);
  const tides = [9, 5, 3].map(
    (metres, j): Wave => ({
      amplitude: strength * metres * between(random, 0.5, 1.5),
      perDbar: ((j + 1) * Math.PI) / bottom_dbar,
      perHour: (2 * Math.PI) / tide_h,
      perKm: (2 * Math.PI * (j + 1)) / 150,
      phase: turn(),
    }),
  );
  const eddy: Wave = {
    amplitude: betweenLog(random, 8, 40),
    perDbar: Math.PI / bottom_dbar,
    perHour: 2 * Math.PI * between(random, -1, 1) * 1e-3,
    perKm: (2 * Math.PI) / between(random, 150, 400),
    phase: turn(),
  };
  const waves = Array.from({ length: 8 }, (): Wave & { readonly strain: number } => {
    const perDbar = (2 * Math.PI) / betweenLog(random, 20, 400);
    const strain = strength * between(random, 0.05, 0.16);
    return {
      amplitude: strain / perDbar,
      strain,
      perDbar: perDbar * (random.uniform() < 0.5 ? -1 : 1),
      perHour: (2 * Math.PI) / betweenLog(random, 1.5, 16),
      perKm: (2 * Math.PI) / betweenLog(random, 2, 30),
      phase: turn(),
    };
  });
  const strains = waves.reduce((sum, { strain }) => sum + strain, 0);
  const gentle = Math.min(1, mostStrain / strains);
  const spice = Array.from({ length: 12 }, () => {
    const wavelength_km = betweenLog(random, 2, 500);
    return {
      amplitude: wavelength_km ** 0.3,
      perDbar: ((2 * Math.PI) / betweenLog(random, 50, 1500)) * (random.uniform() < 0.5 ? -1 : 1),
      perHour: 0,
      perKm: (2 * Math.PI) / wavelength_km,
      phase: turn(),
    };
  });
  const otherWater = Array.from({ length: 12 }, () => ({
    amplitude: 1,
    perDbar: (2 * Math.PI) / betweenLog(random, 15, 120),
    perHour: 0,
    perKm: (2 * Math.PI) / betweenLog(random, 2, 20),
    phase: turn(),
  }));
  return {
    modes: [...tides, eddy],
    internal: waves.map(({ strain: _, amplitude, ...wave }) => ({
      ...wave,
      amplitude: gentle * amplitude,
    })),
    spice: ofUnitSquare(spice),
    spiceShallow: betweenLog(random, 0.005, 0.03),
    spiceDeep: betweenLog(random, 0.0001, 0.0006),
    otherWater: ofUnitSquare(otherWater),
    otherShallow: betweenLog(random, 0.015, 0.05),
    otherDeep: betweenLog(random, 0.0008, 0.003),
    stationSpacing_km: betweenLog(random, 8, 60),
    drift_km_h: betweenLog(random, 0.2, 2),
  };
}

function ofUnitSquare(waves: readonly Wave[]): readonly Wave[] {
  const square = waves.reduce((sum, { amplitude }) => sum + amplitude ** 2 / 2, 0);
  return waves.map((wave) => ({ ...wave, amplitude: wave.amplitude / Math.sqrt(square) }));
}

/**
 * Sum of waves at one time and place, by pressure from 0 dbar in steps of 1 dbar. The phase is advanced by rotation,
 * many times faster than a cosine for each step.
 */
export function sumOfWaves(
  waves: readonly Wave[],
  hour: number,
  km: number,
  rows: number,
): Float64Array {
  const sum = new Float64Array(rows);
  for (const { amplitude, perDbar, perHour, perKm, phase } of waves) {
    const angle = phase + perHour * hour + perKm * km;
    const turnCos = Math.cos(perDbar);
    const turnSin = Math.sin(perDbar);
    let cos = amplitude * Math.cos(angle);
    let sin = amplitude * Math.sin(angle);
    for (let k = 0; k < rows; k++) {
      sum[k]! += cos;
      const next = cos * turnCos - sin * turnSin;
      sin = cos * turnSin + sin * turnCos;
      cos = next;
    }
  }
  return sum;
}
