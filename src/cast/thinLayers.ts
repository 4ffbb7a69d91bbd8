// Both legs of a cast in thin layers, each cell averaged once. The lines of evidence share them, so that none reads the hundred
// thousand scans again.
import { averageByPressure, type Layers } from "./averageByPressure.js";
import type { Cast, CellName, LegName } from "./cast.js";
import type { Legs } from "./splitLegs.js";
import { type Reach, reachOf } from "./sumByLayer.js";

export interface ThinLayers {
  /** Of every layer, the first beginning at 0 dbar. */
  readonly thickness_dbar: number;
  /** Greatest less least pressure of each leg's scans, dbar; 0 of nothing. */
  readonly span_dbar: Readonly<Record<LegName, number>>;
  /** The greatest pressure of both legs' scans, dbar; 0 of nothing. */
  readonly deepest_dbar: number;
  /** Computed at the first call, then kept. */
  readonly of: (leg: LegName, cell: CellName) => Layers;
}

/**
 * Layers are this thick, dbar (common practice, no source); thinner where the cast would have fewer layers than the least,
 * thicker where it would have more than the most (judgement: resolution against time).
 */
const usual_dbar = 2;
const layersOfCast = { fewest: 200, most: 1500 };

export function thinLayers(cast: Cast, legs: Legs): ThinLayers {
  const { pressure_dbar } = cast.columns;
  const down = reachOf(pressure_dbar, legs.down);
  const up = reachOf(pressure_dbar, legs.up);
  const reach = { down, up };
  const span_dbar = { down: spanOf(down), up: spanOf(up) };
  const thickness_dbar = thicknessFor(legs, Math.max(span_dbar.down, span_dbar.up));
  const known = new Map<string, Layers>();
  return {
    thickness_dbar,
    span_dbar,
    deepest_dbar: Math.max(0, down.deepest, up.deepest),
    of: (leg, cell) => {
      const key = `${leg} ${cell}`;
      const layers =
        known.get(key) ?? averageByPressure(cast, legs[leg], cell, thickness_dbar, reach[leg]);
      known.set(key, layers);
      return layers;
    },
  };
}

/** Thin enough to resolve the cast, thick enough that each layer holds a scan. */
function thicknessFor({ down, up }: Legs, span: number): number {
  const fewest = Math.min(down.length, up.length);
  const spacing = fewest > 0 ? span / fewest : 0;
  const thin = Math.min(usual_dbar, span / layersOfCast.fewest);
  return Math.max(thin, span / layersOfCast.most, spacing) || usual_dbar;
}

/** 0 for nothing. */
function spanOf({ shallowest, deepest }: Reach): number {
  return Math.max(0, deepest - shallowest);
}
