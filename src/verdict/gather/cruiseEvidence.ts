// All evidence of a cruise, cast by cast; each cast uses only itself and the casts before.
import type { Cruise } from "../../cast/cruise.js";
import type { PriorResponse } from "./cellResponse.js";
import { castInputs, cellsKnown, knownFromScans } from "./knownCruise.js";
import { type CastEvidence, type Memories, observeCast } from "./observeCast.js";
import type { CastRead } from "./readCast.js";

/**
 * The evidence of each cast, with its scans; a generator, so that a caller can show progress and stop.
 * @param prior response of the cells on earlier cruises
 */
export function* cruiseEvidence(
  cruise: Cruise,
  prior: PriorResponse = {},
): Generator<CastEvidence> {
  const known = knownFromScans(cruise);
  const inputsOf = castInputs(known, cellsKnown(known));
  const earlier: CastRead["responses"][] = [];
  let memories: Memories = {};
  for (const [i, cast] of cruise.casts.entries()) {
    const inputs = inputsOf(i);
    const listed = cruise.instrument.cells ?? [];
    const { deepReference } = cruise;
    const observed = observeCast(inputs, listed, deepReference, earlier, memories, prior);
    memories = observed.memories;
    earlier.push(inputs.read?.responses ?? {});
    yield { ...observed.found, cast };
  }
}
