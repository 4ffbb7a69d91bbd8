// The contract of a line of evidence: what it reads from the scans of a cast, what it observes there, which errors it
// shares, and what it remembers for the next cast. A new line is a folder, and a line in lines.ts.
import type { Bottle } from "../cast/bottle.js";
import type { Cast, CellName } from "../cast/cast.js";
import type { CruiseCast } from "../cast/cruise.js";
import type { DeepReference } from "../cast/deepReference.js";
import type { Legs } from "../cast/splitLegs.js";
import type { ThinLayers } from "../cast/thinLayers.js";
import type { LineOfEvidence } from "../model/observation.js";
import type { Passages, SharedError } from "../model/sharedError.js";
import type { EntriesAround } from "./air/airReadings.js";
import type { WithinCast } from "./path/withinCast.js";

/** The scans of a cast, its legs, these in layers, and what they say by themselves: computed once for all lines. */
export interface Scans {
  readonly data: Cast;
  readonly legs: Legs;
  readonly thin: ThinLayers;
  readonly within: WithinCast;
}

/** What a line may look at while the scans are at hand. */
export interface ScanSources {
  readonly cast: CruiseCast;
  /** Cells that this cast has readings of. */
  readonly cells: readonly CellName[];
  readonly scans: Scans;
  /** Those closed on it, measured or not. */
  readonly bottles: readonly Bottle[];
}

/** Everything that a line may look at on one cast, beside what it read from the scans. */
export interface CastSources {
  /** Without its scans. */
  readonly cast: CruiseCast;
  /** Cells that this cast has readings of. */
  readonly cells: readonly CellName[];
  readonly bottles: readonly Bottle[];
  /** Bottles whose salinities are those of another cast, and why that is known. */
  readonly copied: ReadonlyMap<Bottle, string>;
  /** What the maintenance record says was done before and after it. */
  readonly entries: EntriesAround;
  readonly deepReference?: DeepReference;
}

/** What a line brings of one cast. */
export interface Observed<Memory> {
  /** For the model; each fact once. */
  readonly lines: readonly LineOfEvidence[];
  /** For display where it differs: the same facts held against each cell by itself. */
  readonly byCell?: readonly LineOfEvidence[];
  /** For the next cast: plain values. */
  readonly memory: Memory;
  /** How its shared errors passed from the cast before, where that is not as usual. */
  readonly passages?: Passages;
}

export interface EvidenceLine<Memory = unknown, Read = unknown> {
  /** Unique among all lines; observations carry it. */
  readonly name: string;
  /** Whether it speaks of the gain of a cell: others get no weight beside those that do. */
  readonly ofGain: boolean;
  /** Whether people are shown it beside the verdict. */
  readonly shown: boolean;
  readonly sharedErrors: readonly SharedError[];
  /** Before the first cast. */
  readonly begin: Memory;
  /**
   * What it needs of the scans, once a cast: plain values of a few kB, kept when the scans are gone. No salinity of a
   * bottle and no entry of the record is looked at: they may come later. Absent where the line needs no scans.
   */
  readonly read?: (sources: ScanSources) => Read;
  /** @param read what `read` gave; undefined where there are only bottles */
  readonly observe: (
    sources: CastSources,
    memory: Memory,
    read: Read | undefined,
  ) => Observed<Memory>;
}
