// Invented oceans: potential temperature and salinity of the undisturbed water at a station, by pressure. They represent no
// real place. Each has a mixed layer, a stratified part, and a calm lower part, where salinity changes little with
// potential temperature. All are statically stable, which a test checks.
// Numbers without a source are judgement: invented waters of realistic shape and size.

export const oceanNames = ["open-ocean", "shelf", "brackish"] as const;
export type OceanName = (typeof oceanNames)[number];

/** Four numbers of about unit size for the difference of this station from the cruise's mean. */
export type Station = readonly [number, number, number, number];

interface Ocean {
  readonly usualDeepest_dbar: number;
  /** Pressure below the mixed layer: next to 0 within it, growing as p below it. */
  readonly belowMixed: (p: number, station: Station) => number;
  /** Degree C referred to 0 dbar, PSS-78; of the water `q` dbar below the mixed layer. */
  readonly potentialTemperature: (q: number, station: Station) => number;
  readonly salinity: (q: number, station: Station) => number;
  /** Small-scale variability of salinity at equal density, standard deviation, at `q`. */
  readonly spice: (q: number) => number;
}

/** Salinity variability decreases with depth to this, PSS-78 (judgement: the deep theta-S scatter of quiet basins). */
const calm = 0.0002;

export const oceans: Readonly<Record<OceanName, Ocean>> = {
  // Subtropical: warm and salty above, a salinity minimum near 700 dbar, cold and even below.
  "open-ocean": {
    usualDeepest_dbar: 2000,
    belowMixed: (p, [a]) => softened(p, 45 + 8 * a, 4),
    potentialTemperature: (q, [, b, c]) =>
      1.6 +
      3.4 * Math.exp(-q / 900) +
      (5 + 0.6 * b) * Math.exp(-q / 60) +
      (8 + 0.3 * c) * Math.exp(-q / 300),
    salinity: (q, [, , c, d]) =>
      34.7 +
      0.0015 * d +
      0.02 * (1 - Math.exp(-q / 2000)) +
      (0.7 + 0.03 * c) * Math.exp(-q / 260) -
      (0.12 + 0.01 * d) * Math.exp(-(((q - 700) / 400) ** 2)),
    spice: (q) => calm + 0.003 * Math.exp(-q / 300),
  },
  // A shelf sea in summer: warm and a little fresh above a sharp thermocline, even below.
  shelf: {
    usualDeepest_dbar: 120,
    belowMixed: (p, [a]) => softened(p, 18 + 3 * a, 1.5),
    potentialTemperature: (q, [, b, c]) =>
      7.5 + 0.2 * c + (5 + 0.5 * b) * Math.exp(-q / 10) + 0.6 * Math.exp(-q / 60),
    salinity: (q, [, , c, d]) => 35 + 0.004 * d - (0.4 + 0.03 * c) * Math.exp(-q / 15),
    spice: (q) => calm + 0.004 * Math.exp(-q / 20),
  },
  // An enclosed sea: a warm layer over cold winter water, both brackish, over saltier water below a halocline.
  brackish: {
    usualDeepest_dbar: 110,
    belowMixed: (p, [a]) => softened(p, 12 + 2 * a, 1),
    potentialTemperature: (q, [, b]) =>
      5.2 + (9 + 0.5 * b) * Math.exp(-q / 5) - 1.7 * Math.exp(-(((q - 32) / 14) ** 2)),
    salinity: (q, [, , c, d]) =>
      7 +
      0.02 * d +
      0.15 * (1 - Math.exp(-q / 20)) +
      (3.2 + 0.1 * c) / (1 + Math.exp((50 - q) / 6)),
    spice: (q) => calm + 0.001 * Math.exp(-q / 20),
  },
};

/** A corner at `depth` between 0 above and p - depth below, rounded over `width`; rises everywhere. */
function softened(p: number, depth: number, width: number): number {
  const x = (p - depth) / width;
  return x > 30 ? width * x : width * Math.log1p(Math.exp(x));
}
