// Reference bottles closed on the way up, and the laboratory's salinities of them.
// Numbers without a source are judgement: leaks as large as in real bottle data, and as small as pass unnoticed.
import type { Bottle, ClosureReading } from "../cast/bottle.js";
import type { CellName } from "../cast/cast.js";
import { cFromSp } from "../seawater/index.js";
import { packagePath } from "./packagePath.js";
import { randomStream } from "./random.js";
import { type CompleteScenario, castId, runOf } from "./scenario.js";
import { flowOf, noiseAtClosure, pairOnCast, reading } from "./sensorPair.js";
import { referenceOffset } from "./trueCauses.js";
import { type CastTruth, gainAt } from "./truth.js";
import type { CastWater } from "./water.js";

/** Depth from which water leaks in on the way up, dbar, or a share of a shallow cast. */
const leak = { dbar: 20, share: 0.1, least: 0.03, most: 0.3 };

/** The bottles of one cast, deepest first. @param cast counted from 1 */
export function simulateBottles(
  scenario: CompleteScenario,
  cast: number,
  water: CastWater,
  truth: CastTruth,
): readonly Bottle[] {
  const { laboratory, bottlePressures_dbar: pressures, deepest_dbar } = scenario;
  const root = randomStream(scenario.seed);
  const own = root.split("bottles").split(cast);
  const run = runOf(scenario, cast);
  const shared =
    laboratory.runSd * root.split("runs").split(run).normal() + referenceOffset(scenario, cast);
  const surface = Math.min(leak.dbar, leak.share * deepest_dbar);
  const unmeasured = cast > scenario.casts - laboratory.newestUnmeasured;
  const closed =
    scenario.sampling.kind === "time-series" ? packagePath(scenario).closed_s : undefined;

  return pressures.map((p, i) => {
    const number = i + 1;
    const { wake, scatter, bad, share, other, cells } = streamsOf(own.split(number));
    const fate = fateOf(scenario, cast, number, { bad, share, other });
    const closedAt = pressures[fate.closedWith - 1]!;
    // The wake of the package brings water from below.
    const from = closedAt + laboratory.wake_dbar * Math.abs(wake);
    const drawn = water("up", from).salinity;
    const held = drawn + fate.leak * (water("up", surface).salinity - drawn);
    const salinity = held + laboratory.salinitySd * scatter + shared;
    return {
      cast: castId(cast),
      bottle: String(number),
      pressure_dbar: p,
      salinity: unmeasured ? Number.NaN : Math.max(0, salinity),
      run,
      ...(closed?.[i] === undefined ? {} : { time_s: closed[i] }),
      ctd: Object.fromEntries(
        scenario.cells.map((cell) => [
          cell,
          closureOf(scenario, cast, cell, p, water, truth, cells[cell]),
        ]),
      ),
    };
  });
}

/** All numbers are drawn whether used or not, so that a fault of one bottle changes no other number. */
function streamsOf(stream: ReturnType<typeof randomStream>) {
  const reading = stream.split("reading");
  const cells = { primary: reading.split("primary"), secondary: reading.split("secondary") };
  return {
    wake: stream.normal(),
    scatter: stream.normal(),
    bad: stream.uniform(),
    share: stream.uniform(),
    other: stream.uniform(),
    cells: {
      primary: [cells.primary.normal(), cells.primary.normal()] as const,
      secondary: [cells.secondary.normal(), cells.secondary.normal()] as const,
    },
  };
}

/** The fault of this bottle from an event, otherwise by chance. */
function fateOf(
  { laboratory, bottlePressures_dbar, events }: CompleteScenario,
  cast: number,
  number: number,
  drawn: { readonly bad: number; readonly share: number; readonly other: number },
): { readonly leak: number; readonly closedWith: number } {
  const told = events.find(
    (event) =>
      (event.kind === "leak" || event.kind === "mis-trip") &&
      event.cast === cast &&
      event.bottle === number,
  );
  if (told?.kind === "leak") return { leak: told.share, closedWith: number };
  if (told?.kind === "mis-trip") return { leak: 0, closedWith: told.closedWith };
  const { bad, share, other } = drawn;
  const { leakRate, misTripRate } = laboratory;
  if (bad < leakRate) {
    return { leak: leak.least * (leak.most / leak.least) ** share, closedWith: number };
  }
  if (bad < leakRate + misTripRate) {
    const others = bottlePressures_dbar.map((_, i) => i + 1).filter((k) => k !== number);
    return { leak: 0, closedWith: others[Math.floor(other * others.length)] ?? number };
  }
  return { leak: 0, closedWith: number };
}

/** The package has stood for several time constants of the cell: no thermal lag is left. */
function closureOf(
  scenario: CompleteScenario,
  cast: number,
  cell: CellName,
  p: number,
  water: CastWater,
  truth: CastTruth,
  [temperatureNoise, conductivityNoise]: readonly [number, number],
): ClosureReading {
  const own = truth.cells[cell]!;
  const { salinity, temperature_C } = water("up", p);
  const { temperatureOffset_K } = pairOnCast(scenario, cast, cell, own);
  const noisy = flowOf(scenario, cast, cell).noise * noiseAtClosure.conductivity_mS_cm;
  return {
    temperature_C:
      temperature_C + temperatureOffset_K + noiseAtClosure.temperature_K * temperatureNoise,
    conductivity_mS_cm:
      reading(
        cFromSp(salinity, temperature_C, p),
        gainAt(own, "up", p),
        own.additiveOffset_microsiemens_cm,
      ) +
      noisy * conductivityNoise,
  };
}
