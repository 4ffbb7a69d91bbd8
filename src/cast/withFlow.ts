// The down leg of one cell from where water flows through it. The pump may start only during the lowering. Until then the
// cell reads old water and bubbles.
import type { Layers } from "./averageByPressure.js";
import { layersInCommon } from "./layersInCommon.js";

/**
 * A cell has no flow from the start of the leg to the last layer down to which this part of the layers have a salinity that
 * differs from that of the up leg by more than this share. No film is so thick. At most this part of the leg is given up
 * (judgement).
 */
const noFlow = { share: 0.02, layers: 0.8, ofLeg: 0.5 };

/** Layers of a leg, and where water begins to flow through the cell; without it, it flows from the start. */
export interface FlowLayers extends Layers {
  readonly flowFrom_dbar?: number;
}

/**
 * @param down  layers of one cell
 * @param up    the same of the other leg
 * @param other the down leg of the other cell, if there is one: where both cells agree, other water came, as in an estuary
 */
export function withFlow(
  down: Layers,
  up: Layers,
  other: Layers | undefined,
  thickness_dbar: number,
): FlowLayers {
  const common = layersInCommon(down, up, thickness_dbar);
  const apart = other && differing(down, other, layersInCommon(down, other, thickness_dbar));
  const changed = differing(down, up, common);
  let from = 0;
  let without = 0;
  for (const [n, [k]] of common.slice(0, noFlow.ofLeg * common.length).entries()) {
    if (!changed.has(k) || apart?.has(k) === false) continue;
    if (++without >= noFlow.layers * (n + 1)) from = k + 1;
  }
  if (from === 0) return down;
  const { spikes, ...columns } = down;
  const kept = Object.entries(columns).map(([name, column]) => [name, column.subarray(from)]);
  return { ...Object.fromEntries(kept), spikes, flowFrom_dbar: down.pressure_dbar[from] };
}

/** The layers of the one whose salinity differs from that of the other, by their positions. */
function differing(
  one: Layers,
  other: Layers,
  common: readonly (readonly [number, number])[],
): ReadonlySet<number> {
  const share = (k: number, j: number) => Math.abs(one.salinity[k]! / other.salinity[j]! - 1);
  return new Set(common.filter(([k, j]) => share(k, j) > noFlow.share).map(([k]) => k));
}
