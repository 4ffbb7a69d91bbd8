// The deep water in the scans of a cast, before comparison with a curve.
import type { Cast, CellName, LegName } from "../../cast/cast.js";
import type { ThinLayers } from "../../cast/thinLayers.js";
import { type DeepProfile, deepProfile } from "./deepProfile.js";
import type { Position } from "./deepWaterNoise.js";
import { positionOf } from "./deepWaterStep.js";

/** The deep water in the scans of a cast: plain values. */
export interface DeepWaterRead {
  readonly cast: string;
  readonly position?: Position;
  /** Both legs of each cell. */
  readonly profiles: readonly {
    readonly cell: CellName;
    readonly leg: LegName;
    readonly profile: DeepProfile;
  }[];
}

export function deepWaterRead(
  cast: Cast,
  cells: readonly CellName[],
  thin: ThinLayers,
): DeepWaterRead {
  const position = positionOf(cast);
  const profiles = cells.flatMap((cell) =>
    (["down", "up"] as const).map((leg) => ({
      cell,
      leg,
      profile: deepProfile(thin.of(leg, cell)),
    })),
  );
  return { cast: cast.id, ...(position === undefined ? {} : { position }), profiles };
}
