// Whether a cast more costs as much late in a cruise as early, what a cruise that goes on holds in memory, and how the
// corrections at its end grow with it. Processor time, of casts that are averages: so what grows is not hidden by scans.
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { group } from "d3-array";
import type { CruiseCast } from "../../src/cast/cruise.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { correctCruise } from "../../src/verdict/correctCruise.js";
import type { CruiseState } from "../../src/verdict/incremental/cruiseState.js";
import { addCast, openCruise } from "../../src/verdict/incremental/openCruise.js";
import { writeState } from "../../src/verdict/incremental/stateText.js";
import { median, used } from "./processorTime.js";

const places = [50, 100, 250, 500, 1000];
const corrected = [125, 250, 500, 1000];
/** A cast's cost is the median of so many up to it. */
const window = 15;

/** @param most casts of the cruise */
export function benchGrowth(most: number): void {
  const simulated = simulateCruise({ seed: 7, casts: most, deepest_dbar: 4000, bottles: 4 }).cruise;
  const cruise = { ...simulated, casts: simulated.casts.map(withoutPlace) };
  const { casts, bottles, ...opening } = cruise;
  const closed = group(bottles, ({ cast }) => cast);
  const add = (state: CruiseState, index: number) => {
    const cast = casts[index]!;
    return addCast(state, cast, { bottles: closed.get(cast.id) ?? [] }).state;
  };
  const opened = openCruise(opening);
  // Once for the compiler.
  casts.slice(0, window).reduce((state, _, index) => add(state, index), opened);

  const costs: number[] = [];
  let state = opened;
  let first = Number.NaN;
  console.log(
    `a cruise of casts of ${casts[0]!.data?.columns.pressure_dbar.length} averages, ${bottles.length / most} bottles each, carried on`,
  );
  for (let index = 0; index < most; index++) {
    costs.push(used(() => (state = add(state, index))));
    const cost = median(costs.slice(-window));
    if (costs.length === window) {
      first = cost;
      console.log(`  the first ${window}: ${first.toFixed(0)} ms a cast`);
    }
    if (!places.includes(costs.length)) continue;
    console.log(
      `  ${costs.length} casts: ${(cost / first).toFixed(2)} times that; ${held().toFixed(0)} MB in memory, ` +
        `of which the scans of all casts are ${scansOf(most).toFixed(0)}; as text ${(writeState(state).length / 1e6).toFixed(1)} MB`,
    );
  }

  let shortest = Number.NaN;
  for (const count of corrected.filter((count) => count <= most)) {
    const own = casts.slice(0, count);
    const ids = new Set(own.map(({ id }) => id));
    const part = { ...cruise, casts: own, bottles: bottles.filter(({ cast }) => ids.has(cast)) };
    const perCast = used(() => correctCruise(part)) / count;
    if (Number.isNaN(shortest)) shortest = perCast;
    console.log(
      `  correct, ${count} casts: ${perCast.toFixed(0)} ms a cast, ${(perCast / shortest).toFixed(2)} times that of ${corrected[0]}`,
    );
  }

  function scansOf(count: number): number {
    const one = casts[0]!.data!.columns;
    const columns = 1 + (one.time_s === undefined ? 0 : 1) + (one.secondary === undefined ? 2 : 4);
    return (count * columns * one.pressure_dbar.byteLength) / 1e6;
  }
}

/** So long a track of simulated stations runs past the pole. */
function withoutPlace({ latitude: _, longitude: __, ...cast }: CruiseCast): CruiseCast {
  if (cast.data === undefined) return cast;
  const { latitude: ___, longitude: ____, ...data } = cast.data;
  return { ...cast, data };
}

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;

/** What is held once all that can be is given back, MB. */
function held(): number {
  // The first leaves what finalisers and weak references still hold.
  collect();
  collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return (heapUsed + arrayBuffers) / 1e6;
}
