// How long one verdict takes, from a cast's columns in memory to advice, beside the yardstick: deriving
// salinity, Conservative Temperature and density from the same columns by native code, once a cell.
import type { Cruise } from "../../src/cast/cruise.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { best, REPEATS } from "./best.js";
import { fullCast } from "./fullCast.js";
import { peakMemory } from "./peakMemory.js";
import { withYardstick } from "./yardstick.js";

const ROUNDS = 5;

/** Print time and memory of verdicts on a deep cast, and how time grows with the cruise. */
export function benchVerdict(): void {
  for (const cells of [1, 2] as const) benchCast(cells);
  benchCruise();
}

function benchCast(cells: 1 | 2): void {
  const cruise = fullCast(cells);
  const { pressure_dbar: pressure, primary } = cruise.casts[0]!.data!.columns;
  const { temperature_C: temperature, conductivity_mS_cm: conductivity } = primary;
  console.log(`one verdict, ${pressure.length} scans, ${cells} cell${cells === 1 ? "" : "s"}`);
  const rounds = withYardstick({ conductivity, temperature, pressure }, (yardstick) =>
    Array.from({ length: ROUNDS }, () => ({
      reference: cells * (yardstick?.().chain ?? Number.NaN),
      own: best(() => assessCruise(cruise)),
    })),
  );
  const own = Math.min(...rounds.map((round) => round.own));
  const reference = Math.min(...rounds.map((round) => round.reference));
  console.log(
    `  best of ${ROUNDS} rounds of ${REPEATS}: ${own.toFixed(1)} ms, ` +
      `reference ${reference.toFixed(1)} ms, ratio ${(own / reference).toFixed(2)}`,
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

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(1)} MB`;
}
