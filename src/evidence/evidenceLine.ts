// The contract of a line of evidence: what it may look at on a cast, what it observes there, which errors it shares, and
// what it remembers for the next cast. A new line is a folder, and a line in lines.ts.
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

/** Everything that a line may look at on one cast. */
export interface CastSources {
  readonly cast: CruiseCast;
  /** Cells that this cast has readings of. */
  readonly cells: readonly CellName[];
  /** Absent where there are only bottles. */
  readonly scans?: Scans;
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

export interface EvidenceLine<Memory = unknown> {
  /** Unique among all lines; observations carry it. */
  readonly name: string;
  /** Whether it speaks of the gain of a cell: others get no weight beside those that do. */
  readonly ofGain: boolean;
  /** Whether people are shown it beside the verdict. */
  readonly shown: boolean;
  readonly sharedErrors: readonly SharedError[];
  /** Before the first cast. */
  readonly begin: Memory;
  readonly observe: (sources: CastSources, memory: Memory) => Observed<Memory>;
}
