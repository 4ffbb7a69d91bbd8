// Where at this station a bottle says most of a cell: the calmest water near the surface, in the middle and deep down.
import { believablePressure } from "../cast/believablePressure.js";
import type { Cast, CellColumns } from "../cast/cast.js";
import { indexOfDeepest } from "../cast/indexOfDeepest.js";
import type { Observation } from "../evidence/evidence.js";
import { spFromC, spFromCFirstDerivatives } from "../seawater/index.js";

export interface BottleDepth {
  readonly pressure_dbar: number;
  readonly water: NonNullable<Observation["water"]>;
  /** dSP/dp, per dbar, positive where it grows saltier downward. */
  readonly salinityGradient_per_dbar: number;
}

/** A stop is not placed more finely than this, dbar, nor than this share of the cast. */
const finest_dbar = 10;
const layersOfCast = 60;
const parts = 3;

/**
 * At most three, shallowest first: one in each third of the pressures that the cast reached, where salinity changes
 * least with depth.
 * @param cast    its scans; the stops of its bottles are taken where it has none
 * @param bottles observations of the line `bottles`
 */
export function calmDepths(
  cast: Cast | undefined,
  bottles: readonly Observation[],
): readonly BottleDepth[] {
  const fromScans = cast === undefined ? [] : depthsOfScans(cast);
  const depths = fromScans.length > 0 ? fromScans : depthsOfBottles(bottles);
  const deepest = Math.max(0, ...depths.map(({ pressure_dbar }) => pressure_dbar));
  return Array.from({ length: parts }, (_, part) => {
    const within = depths.filter(
      ({ pressure_dbar: p }) => Math.min(parts - 1, Math.floor((parts * p) / deepest)) === part,
    );
    return calmest(within);
  }).filter((depth) => depth !== undefined);
}

function calmest(depths: readonly BottleDepth[]): BottleDepth | undefined {
  const steepness = (depth: BottleDepth) => Math.abs(depth.salinityGradient_per_dbar);
  return depths.reduce<BottleDepth | undefined>(
    (best, depth) => (best === undefined || steepness(depth) < steepness(best) ? depth : best),
    undefined,
  );
}

/** The up leg in layers, each with the steeper of the gradients towards its neighbours. */
function depthsOfScans({ columns }: Cast): readonly BottleDepth[] {
  const cell = columns.primary ?? columns.secondary;
  if (cell === undefined) return [];
  const layers = layersOf(believablePressure(columns.pressure_dbar).pressure, cell);
  return layers.map(({ pressure_dbar, water }, i) => ({
    pressure_dbar,
    water,
    salinityGradient_per_dbar: steeper(
      slope(layers[i - 1], layers[i]),
      slope(layers[i], layers[i + 1]),
    ),
  }));
}

interface Layer {
  readonly pressure_dbar: number;
  readonly water: BottleDepth["water"];
  readonly salinity: number;
}

function layersOf(
  pressure: Float64Array,
  { conductivity_mS_cm, temperature_C }: CellColumns,
): readonly Layer[] {
  const deepest = indexOfDeepest(pressure);
  // A file of the down leg alone ends at its deepest scan, and serves as well.
  const turn = deepest > 0.9 * pressure.length ? 0 : deepest;
  const thickness = Math.max(finest_dbar, pressure[deepest]! / layersOfCast);
  const count = Math.max(0, Math.floor(pressure[deepest]! / thickness)) + 1 || 0;
  const sums = new Float64Array(4 * count);
  for (let i = turn; i < pressure.length; i++) {
    const layer = Math.floor(pressure[i]! / thickness);
    const [c, t] = [conductivity_mS_cm[i]!, temperature_C[i]!];
    if (!(layer >= 0 && c > 0 && t > -5)) continue;
    sums[4 * layer]! += 1;
    sums[4 * layer + 1]! += pressure[i]!;
    sums[4 * layer + 2]! += c;
    sums[4 * layer + 3]! += t;
  }
  return Array.from({ length: count }, (_, k): Layer => {
    const [n, p, c, t] = sums.subarray(4 * k, 4 * k + 4) as unknown as [
      number,
      number,
      number,
      number,
    ];
    const water = { conductivity_mS_cm: c / n, temperature_C: t / n };
    const salinity = spFromC(water.conductivity_mS_cm, water.temperature_C, p / n);
    return { pressure_dbar: p / n, water, salinity };
  }).filter(({ salinity }) => salinity > 0);
}

function slope(above: Layer | undefined, below: Layer | undefined): number {
  if (above === undefined || below === undefined) return 0;
  return (below.salinity - above.salinity) / (below.pressure_dbar - above.pressure_dbar);
}

function steeper(a: number, b: number): number {
  return Math.abs(a) > Math.abs(b) ? a : b;
}

/** What the wake would do to a bottle holds the gradient where it closed. */
function depthsOfBottles(bottles: readonly Observation[]): readonly BottleDepth[] {
  return bottles.flatMap(({ pressure_dbar, water, perWake_ppm = 0 }) =>
    water === undefined
      ? []
      : [
          {
            pressure_dbar,
            water,
            salinityGradient_per_dbar: -perWake_ppm / ppmPerSalinity(water, pressure_dbar),
          },
        ],
  );
}

/** What 1 of salinity is of conductivity in this water, ppm. */
export function ppmPerSalinity(
  { conductivity_mS_cm, temperature_C }: BottleDepth["water"],
  pressure_dbar: number,
): number {
  const { dSpDc } = spFromCFirstDerivatives(conductivity_mS_cm, temperature_C, pressure_dbar);
  return 1e6 / (conductivity_mS_cm * dSpDc);
}
