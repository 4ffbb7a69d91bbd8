// The contract of a line of evidence: the values that it reads from the scans of a cast, its observations, its shared
// errors, and its memory for the next cast. A new line is a folder, and a line in lines.ts.
import type { Bottle } from "../cast/bottle.js";
import type { Cast, CellName } from "../cast/cast.js";
import type { CruiseCast } from "../cast/cruise.js";
import type { DeepReference } from "../cast/deepReference.js";
import type { Legs } from "../cast/splitLegs.js";
import type { ThinLayers } from "../cast/thinLayers.js";
import type { LineResult } from "../model/observation.js";
import type { ErrorEvolutions, SharedError } from "../model/sharedError.js";
import type { EntriesAround } from "./air/airReadings.js";
import type { WithinCast } from "./path/withinCast.js";

/** The scans of a cast, its legs, their layers, and the results from the scans alone: computed once for all lines. */
export interface Scans {
  readonly data: Cast;
  readonly legs: Legs;
  readonly thin: ThinLayers;
  readonly within: WithinCast;
}

/** The inputs of a line while the scans are available. */
export interface ScanSources {
  readonly cast: CruiseCast;
  /** Cells with readings on this cast. */
  readonly cells: readonly CellName[];
  readonly scans: Scans;
  /** Bottles closed on this cast, measured or not. */
  readonly bottles: readonly Bottle[];
}

/** The inputs of a line on one cast, beside the values that it read from the scans. */
export interface CastSources {
  /** Without its scans. */
  readonly cast: CruiseCast;
  /** Cells with readings on this cast. */
  readonly cells: readonly CellName[];
  readonly bottles: readonly Bottle[];
  /** Bottles whose salinities belong to another cast, and the reason. */
  readonly copied: ReadonlyMap<Bottle, string>;
  /** The maintenance record before and after it. */
  readonly entries: EntriesAround;
  /** Results for this cast of the lines before this one in the list. */
  readonly found: readonly LineResult[];
  readonly deepReference?: DeepReference;
}

/** The output of a line for one cast. */
export interface LineOutput<Memory> {
  /** For the model; each fact once. */
  readonly lines: readonly LineResult[];
  /** For display if different: the same facts against each cell separately. */
  readonly byCell?: readonly LineResult[];
  /** Memory for the next cast: plain values. */
  readonly memory: Memory;
  /** How its shared errors passed from the cast before, if not as usual. */
  readonly evolutions?: ErrorEvolutions;
}

export interface EvidenceLine<Memory = unknown, Read = unknown> {
  /** Unique among all lines; observations carry it. */
  readonly name: string;
  /** Whether it observes the gain of a cell; other lines have no weight in the gain. */
  readonly ofGain: boolean;
  /** Whether it is shown to people beside the verdict. */
  readonly shown: boolean;
  readonly sharedErrors: readonly SharedError[];
  /** Memory before the first cast. */
  readonly begin: Memory;
  /**
   * Read the values that it needs from the scans, once for each cast: plain values of a few kB, stored after the scans are
   * discarded. It must not use bottle salinities or the record, because these may come later. Absent if the line needs no
   * scans.
   */
  readonly read?: (sources: ScanSources) => Read;
  /** @param read the result of `read`; undefined if there are only bottles */
  readonly observe: (
    sources: CastSources,
    memory: Memory,
    read: Read | undefined,
  ) => LineOutput<Memory>;
}
