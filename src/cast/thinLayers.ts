// Both legs of a cast in thin layers, each cell averaged once: what the lines of evidence share, so that they read
// some thousand layers instead of some hundred thousand scans each for itself.
import { averageByPressure, type Layers } from "./averageByPressure.js";
import type { Cast, CellName, LegName } from "./cast.js";
import type { Legs } from "./splitLegs.js";

export interface ThinLayers {
  /** Of every layer, the first beginning at 0 dbar. */
  readonly thickness_dbar: number;
  /** Greatest less least pressure of each leg's scans, dbar; 0 of nothing. */
  readonly span_dbar: Readonly<Record<LegName, number>>;
  /** The greatest pressure of both legs' scans, dbar; 0 of nothing. */
  readonly deepest_dbar: number;
  /** Averaged when first asked for, and kept. */
  readonly of: (leg: LegName, cell: CellName) => Layers;
}

/** Layers are at most this thick, dbar, and at least this many to the cast where it has the scans. */
const thickest_dbar = 2;
const layersOfCast = 200;

export function thinLayers(cast: Cast, legs: Legs): ThinLayers {
  const { pressure_dbar } = cast.columns;
  const down = reachOf(pressure_dbar, legs.down);
  const up = reachOf(pressure_dbar, legs.up);
  const span_dbar = { down: down.deepest - down.shallowest, up: up.deepest - up.shallowest };
  const thickness_dbar = thicknessFor(legs, Math.max(span_dbar.down, span_dbar.up));
  const known = new Map<string, Layers>();
  return {
    thickness_dbar,
    span_dbar,
    deepest_dbar: Math.max(down.deepest, up.deepest),
    of: (leg, cell) => {
      const key = `${leg} ${cell}`;
      const layers = known.get(key) ?? averageByPressure(cast, legs[leg], cell, thickness_dbar);
      known.set(key, layers);
      return layers;
    },
  };
}

/** Thin enough to resolve the cast, thick enough that each layer holds a scan. */
function thicknessFor({ down, up }: Legs, span: number): number {
  const fewest = Math.min(down.length, up.length);
  const spacing = fewest > 0 ? span / fewest : 0;
  return Math.max(Math.min(thickest_dbar, span / layersOfCast), spacing) || thickest_dbar;
}

/** Least and greatest over the scans, 0 for nothing. */
function reachOf(pressure: Float64Array, scans: Uint32Array) {
  if (scans.length === 0) return { shallowest: 0, deepest: 0 };
  let shallowest = Number.POSITIVE_INFINITY;
  let deepest = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < scans.length; k++) {
    const p = pressure[scans[k]!]!;
    if (p < shallowest) shallowest = p;
    if (p > deepest) deepest = p;
  }
  return { shallowest, deepest };
}
