// The maintenance record of a simulated cruise: the entries of its crew on cleanings and on readings of the cells in air.
// Numbers without a source are judgement: the habits of an invented crew.
import type { MaintenanceEvent } from "../cast/maintenance.js";
import type { Cleaning, ReadingInAir } from "./events.js";
import { legTimes } from "./legTimes.js";
import { randomStream } from "./random.js";
import { type CompleteScenario, castId } from "./scenario.js";
import type { Truth } from "./truth.js";

/** Begun this long after the recovery of the package, minutes. */
const begunAfter_min = 20;

type CleaningDetails = Pick<
  MaintenanceEvent,
  "solution" | "concentration" | "minutes" | "soaked" | "rinsed"
>;
/** The words of a record; the instructions are in src/cleaning, with their cautions. */
const entries: Readonly<Record<Cleaning["intensity"], CleaningDetails>> = {
  rinse: { solution: "deionised water", minutes: 5, rinsed: true },
  wash: { solution: "nonionic detergent", concentration: "0.1 %", minutes: 15, rinsed: true },
  soak: {
    solution: "nonionic detergent",
    concentration: "1 %",
    minutes: 30,
    soaked: true,
    rinsed: true,
  },
  disinfect: {
    solution: "sodium hypochlorite, then nonionic detergent",
    concentration: "1000 ppm available chlorine; 1 %",
    minutes: 45,
    soaked: true,
    rinsed: true,
  },
  descale: {
    solution: "dilute hydrochloric acid",
    concentration: "0.1 mol/l",
    minutes: 60,
    soaked: true,
    rinsed: true,
  },
};

/** Error of a reading, uS/cm, and number of decimals in mS/cm in the record (judgement). */
const readOff_uS_cm = 0.3;
const places = 4;

/**
 * After each cast its cleanings, then its readings in air.
 * @param startOf ISO 8601 UTC of a cast, counted from 1
 */
export function maintenanceOf(
  scenario: CompleteScenario,
  truth: Truth,
  startOf: (cast: number) => string,
): readonly MaintenanceEvent[] {
  return [...cleaningsOf(scenario, startOf), ...readingsOf(scenario, truth)].toSorted(
    (a, b) => Number(a.afterCast) - Number(b.afterCast),
  );
}

function readingsOf(scenario: CompleteScenario, truth: Truth): readonly MaintenanceEvent[] {
  const draw = randomStream(scenario.seed).split("readings in air");
  return scenario.events
    .filter((event) => event.kind === "air-reading")
    .map((event, i) => entryOf(event, truth, draw.split(i).normal()));
}

function entryOf(
  { afterCast, cell, rinsed, drained, water_microsiemens_cm = 0 }: ReadingInAir,
  truth: Truth,
  scatter: number,
): MaintenanceEvent {
  const { additiveOffset_microsiemens_cm: offset } = truth[afterCast - 1]!.cells[cell]!;
  const read = (offset + water_microsiemens_cm + readOff_uS_cm * scatter) / 1000;
  return {
    action: "air-reading",
    afterCast: castId(afterCast),
    cell,
    rinsed,
    drained,
    // Nobody writes a zero with a minus.
    reading_mS_cm: Number(read.toFixed(places)) + 0,
  };
}

function cleaningsOf(
  scenario: CompleteScenario,
  startOf: (cast: number) => string,
): readonly MaintenanceEvent[] {
  const upAfter_s = legTimes(scenario)("up", 0);
  const cleanings = scenario.events.filter((event) => event.kind === "cleaning");
  return cleanings
    .toSorted((a, b) => a.afterCast - b.afterCast)
    .flatMap(({ afterCast, cells, intensity }) => {
      const time_ms = Date.parse(startOf(afterCast)) + 1000 * (upAfter_s + 60 * begunAfter_min);
      const entry = {
        action: intensity,
        time: `${new Date(time_ms).toISOString().slice(0, 16)}Z`,
        afterCast: castId(afterCast),
        ...entries[intensity],
      };
      const some = cells !== undefined && cells.length < scenario.cells.length;
      return some ? cells.map((cell) => ({ ...entry, cell })) : [entry];
    });
}
