// How long one verdict takes, from a cast's columns in memory to advice, beside the yardstick: deriving
// salinity, Conservative Temperature and density from the same columns by native code, once a cell.
import type { Cruise } from "../../src/cast/cruise.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import type { CruiseState } from "../../src/verdict/incremental/cruiseState.js";
import { addCast, openCruise } from "../../src/verdict/incremental/openCruise.js";
import { readState, writeState } from "../../src/verdict/incremental/stateText.js";
import { best, REPEATS } from "./best.js";
import { fullCast } from "./fullCast.js";
import { peakMemory } from "./peakMemory.js";
import { median, used } from "./processorTime.js";
import { withYardstick } from "./yardstick.js";

const ROUNDS = 5;

/** Print time and memory of verdicts on a deep cast, and how time grows with the cruise. */
export function benchVerdict(): void {
  for (const cells of [1, 2] as const) benchCast(fullCast(cells), cells, "");
  benchCast(fullCast(2, true), 2, ", a film within it, 24 bottles");
  benchCruise();
  benchCarried();
}

function benchCast(cruise: Cruise, cells: 1 | 2, what: string): void {
  const { pressure_dbar: pressure, primary } = cruise.casts[0]!.data!.columns;
  const { temperature_C: temperature, conductivity_mS_cm: conductivity } = primary;
  console.log(
    `one verdict, ${pressure.length} scans, ${cells} cell${cells === 1 ? "" : "s"}${what}`,
  );
  const rounds = withYardstick({ conductivity, temperature, pressure }, (yardstick) =>
    Array.from({ length: ROUNDS }, () => {
      const { chain, chainUsed } = yardstick?.() ?? { chain: Number.NaN, chainUsed: Number.NaN };
      const times = Array.from({ length: REPEATS }, () => used(() => assessCruise(cruise)));
      return {
        reference: cells * chain,
        referenceUsed: cells * chainUsed,
        own: best(() => assessCruise(cruise)),
        ownUsed: median(times),
      };
    }),
  );
  const own = Math.min(...rounds.map((round) => round.own));
  const reference = Math.min(...rounds.map((round) => round.reference));
  console.log(
    `  best of ${ROUNDS} rounds of ${REPEATS}: ${own.toFixed(1)} ms, ` +
      `reference ${reference.toFixed(1)} ms, ratio ${(own / reference).toFixed(2)}`,
  );
  const shares = rounds.map((round) => round.ownUsed / round.referenceUsed);
  console.log(
    `  median in processor time, all threads: ${median(rounds.map(({ ownUsed }) => ownUsed)).toFixed(0)} ms, ` +
      `ratio ${median(shares).toFixed(2)} (${Math.min(...shares).toFixed(2)} to ${Math.max(...shares).toFixed(2)})`,
  );
  console.log(`  ratio by round: ${rounds.map((r) => (r.own / r.reference).toFixed(2)).join(" ")}`);
  const { columns, growth, firstVerdict } = peakMemory(cruise);
  console.log(
    `  in a new process: ${firstVerdict.toFixed(0)} ms, memory grows by ${megabytes(growth)}, ` +
      `${(growth / columns).toFixed(1)} times the ${megabytes(columns)} of the columns`,
  );
}

/** Casts to 1000 dbar, 24 Hz: each new cast should cost what one cast costs. */
function benchCruise(): void {
  const whole = simulateCruise({
    seed: 7,
    casts: 32,
    deepest_dbar: 1000,
    bottles: 12,
    sampling: { kind: "time-series", rate_Hz: 24 },
  }).cruise;
  const times = [1, 2, 4, 8, 16, 32].map((casts) => {
    const cruise: Cruise = { ...whole, casts: whole.casts.slice(0, casts) };
    return `${casts}: ${(best(() => assessCruise(cruise), 5) / casts).toFixed(1)}`;
  });
  console.log(
    `a cruise of casts to 1000 dbar, 24 Hz, 2 cells; ms a cast by casts: ${times.join(", ")}`,
  );
}

/** One cast more after 100, beside one cast alone: the scans of those before are not held. */
function benchCarried(): void {
  const { casts, bottles, ...opening } = simulateCruise({
    seed: 7,
    casts: 101,
    deepest_dbar: 1000,
    bottles: 12,
    sampling: { kind: "time-series", rate_Hz: 24 },
  }).cruise;
  const add = (state: CruiseState, index: number) => {
    const cast = casts[index]!;
    return addCast(state, cast, { bottles: bottles.filter((bottle) => bottle.cast === cast.id) });
  };
  const opened = openCruise(opening);
  const alone = best(() => add(opened, 0), 5);
  const second = add(opened, 0).state;
  let state = second;
  for (let index = 1; index < 100; index++) ({ state } = add(state, index));
  const [after1, after100] = [second, state].map((before, i) =>
    best(() => add(before, i === 0 ? 1 : 100), 5),
  );
  const text = writeState(state);
  const [written, read] = [best(() => writeState(state), 5), best(() => readState(text), 5)];
  console.log(
    `carried on, casts to 1000 dbar, 24 Hz, 2 cells: one alone ${alone.toFixed(0)} ms, one more after 1 ${after1!.toFixed(0)} ms, ` +
      `after 100 ${after100!.toFixed(0)} ms; after 100 : alone ${(after100! / alone).toFixed(2)}; state of 100 casts ` +
      `${megabytes(text.length)}, written in ${written.toFixed(0)} ms, read in ${read.toFixed(0)} ms`,
  );
}

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(1)} MB`;
}
