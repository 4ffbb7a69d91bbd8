// One cast as measured by its sensors: water, thermal lag of the cell, gain, noise.
import type { Cast, CellColumns, CellName } from "../cast/cast.js";
import { cFromSp } from "../seawater/index.js";
import type { CellTruth } from "./cellTruth.js";
import { thermalLagOfLayers, thermalLagOfScans } from "./cellWallHeat.js";
import { joined, pressureInAir, readingsInAir, type Side, scansInAir } from "./deck.js";
import { delayedPlace, delayedValue } from "./delayedPath.js";
import { legAt, type PackagePath, packagePath } from "./packagePath.js";
import { randomStream } from "./random.js";
import { type CompleteScenario, castId } from "./scenario.js";
import { flowOf, misalignmentOf, pairOnCast, reading } from "./sensorPair.js";
import type { CastTruth } from "./truth.js";
import { filmAt, gainAt } from "./truth.js";
import type { CastWater, Parcel } from "./water.js";

/**
 * The readings of one cast.
 * @param cast  counted from 1
 * @param about time and place, copied to the cast
 */
export function simulateCast(
  scenario: CompleteScenario,
  cast: number,
  water: CastWater,
  truth: CastTruth,
  about: Pick<Cast, "start" | "latitude" | "longitude">,
): Cast {
  const path = packagePath(scenario);
  const parcels = Array.from(path.pressure_dbar, (p, i) => water(legAt(path, i), p));
  const columnsOf = (cell: CellName) => {
    const own = truth.cells[cell]!;
    const inWater = cellColumns(scenario, cast, cell, path, parcels, water, own);
    const [before, after] = (["before", "after"] as const).map((side) =>
      readingsInAir(scenario, cast, cell, side, own.additiveOffset_microsiemens_cm),
    );
    return {
      temperature_C: joined(before!.temperature_C, inWater.temperature_C, after!.temperature_C),
      conductivity_mS_cm: joined(
        before!.conductivity_mS_cm,
        inWater.conductivity_mS_cm,
        after!.conductivity_mS_cm,
      ),
    };
  };
  const { sampling } = scenario;
  return {
    id: castId(cast),
    ...about,
    ...(sampling.kind === "time-series" ? { sampleRate_Hz: sampling.rate_Hz } : {}),
    conductivityFrom: "measured",
    columns: {
      ...timeOf(scenario, path),
      pressure_dbar: joined(
        pressureInAir(scenario, cast, "before"),
        path.pressure_dbar,
        pressureInAir(scenario, cast, "after"),
      ),
      primary: columnsOf("primary"),
      ...(scenario.cells.includes("secondary") ? { secondary: columnsOf("secondary") } : {}),
      others: {},
    },
  };
}

/** Seconds since the first scan, on deck or in the water. */
function timeOf(
  scenario: CompleteScenario,
  { time_s }: PackagePath,
): { readonly time_s?: Float64Array } {
  const { sampling } = scenario;
  if (time_s === undefined || sampling.kind === "averages") return {};
  const timesOf = (side: Side, from: number) =>
    Float64Array.from(
      { length: scansInAir(scenario, side) },
      (_, i) => from + i / sampling.rate_Hz,
    );
  const after_s = time_s.at(-1)! + 1 / sampling.rate_Hz;
  return { time_s: joined(timesOf("before", 0), time_s, timesOf("after", after_s)) };
}

function cellColumns(
  scenario: CompleteScenario,
  cast: number,
  cell: CellName,
  path: PackagePath,
  parcels: readonly Parcel[],
  water: CastWater,
  truth: CellTruth,
): CellColumns {
  const { pressure_dbar: pressure, reached_dbar: reached } = path;
  const pair = pairOnCast(scenario, cast, cell, truth);
  const flow = flowOf(scenario, cast, cell);
  const temperature = Float64Array.from(parcels, (parcel) => parcel.temperature_C);
  const lag =
    scenario.sampling.kind === "averages"
      ? thermalLagOfLayers(temperature, path.interval_s, pair.lag)
      : thermalLagOfScans(temperature, 1 / scenario.sampling.rate_Hz, pair.lag);
  const late = misalignmentOf(scenario, cast, cell) * scansPerSecond(scenario);
  const noise = randomStream(scenario.seed).split("scans").split(cast).split(cell);
  const conductivity = new Float64Array(pressure.length);
  for (let i = 0; i < pressure.length; i++) {
    const leg = legAt(path, i);
    const p = pressure[i]!;
    // With little flow the cell holds water that the thermometer passed earlier.
    const behind = leg === "down" ? -flow.behind_dbar : flow.behind_dbar;
    const place = late === 0 ? { leg, pressure_dbar: p } : delayedPlace(path, i, late);
    const inCell =
      behind === 0 && late === 0
        ? parcels[i]!
        : water(place.leg, Math.max(0, place.pressure_dbar + behind));
    const lagged = late === 0 ? lag[i]! : delayedValue(lag, i, late);
    const c = cFromSp(inCell.salinity, inCell.temperature_C - lagged, p);
    // The film follows the progress of the leg, the pressure response the actual pressure.
    const gain =
      gainAt(truth, leg, reached[i]!) + (truth.pressureResponse * (p - reached[i]!)) / 1000;
    const blocked = flow.noise * blockage(truth, leg, reached[i]!);
    conductivity[i] =
      reading(c, gain, truth.additiveOffset_microsiemens_cm) +
      pair.noise.conductivity_mS_cm * blocked * noise.normal();
    temperature[i]! += pair.temperatureOffset_K + pair.noise.temperature_K * noise.normal();
  }
  return { temperature_C: temperature, conductivity_mS_cm: conductivity };
}

function scansPerSecond({ sampling }: CompleteScenario): number {
  return sampling.kind === "averages" ? 0 : sampling.rate_Hz;
}

/** Something stuck in the cell makes it noisy, by this factor at its height (judgement). */
const blockedNoise = 10;

/** The factor on the noise while a transient passes. */
function blockage(truth: CellTruth, leg: "down" | "up", reached_dbar: number): number {
  const passing = truth.within.filter(({ recovery_dbar }) => recovery_dbar !== undefined);
  const all = passing.reduce((sum, { ppm }) => sum + ppm, 0);
  if (all === 0) return 1;
  const alone = { film: { down: 0, up: 0 }, within: passing, deepest_dbar: truth.deepest_dbar };
  return 1 + (blockedNoise - 1) * (filmAt(alone, leg, reached_dbar) / all);
}
