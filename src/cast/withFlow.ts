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
 * @param down layers of one cell
 * @param up   the same of the other leg
 */
export function withFlow(down: Layers, up: Layers, thickness_dbar: number): FlowLayers {
  const common = layersInCommon(down, up, thickness_dbar);
  let from = 0;
  let differ = 0;
  for (const [n, [k, j]] of common.slice(0, noFlow.ofLeg * common.length).entries()) {
    if (!(Math.abs(down.salinity[k]! / up.salinity[j]! - 1) > noFlow.share)) continue;
    if (++differ >= noFlow.layers * (n + 1)) from = k + 1;
  }
  if (from === 0) return down;
  const { spikes, ...columns } = down;
  const kept = Object.entries(columns).map(([name, column]) => [name, column.subarray(from)]);
  return { ...Object.fromEntries(kept), spikes, flowFrom_dbar: down.pressure_dbar[from] };
}
