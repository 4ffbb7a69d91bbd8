// The demonstration cruise: its story as a scenario, and the files of its folder. Everything in it is invented.
import type { Bottle } from "../src/cast/bottle.js";
import type { Cast } from "../src/cast/cast.js";
import type { MaintenanceEvent } from "../src/cast/maintenance.js";
import { type Scenario, simulateCruise, type Truth } from "../src/simulate/index.js";

/** Told in fixtures/demo-cruise/README.md. */
export const demoScenario: Scenario = {
  seed: 20310503,
  name: "RV Quillwort in the Sea of Marrowen (invented)",
  casts: 14,
  deepest_dbar: 1800,
  bottles: 12,
  hoursBetweenCasts: 8,
  sampling: { kind: "averages", layer_dbar: 5 },
  calibrationResidual_ppm: { primary: -6, secondary: 21 },
  // The two bad bottles are told below; chance adds none.
  laboratory: { leakRate: 0, misTripRate: 0, newestUnmeasured: 2 },
  events: [
    { kind: "film-growth", cell: "primary", fromCast: 3, untilCast: 7, ppmPerDay: -21 },
    { kind: "leak", cast: 5, bottle: 4, share: 0.03 },
    {
      kind: "film-step",
      cells: ["primary"],
      cast: 8,
      at: { leg: "down", pressure_dbar: 620 },
      ppm: -190,
    },
    { kind: "cleaning", afterCast: 8, intensity: "soak", retained: 0.5 },
    { kind: "mis-trip", cast: 10, bottle: 3, closedWith: 6 },
  ],
};

/** Minutes that the watch has before the next station. */
const minutesAvailable = 90;

/** @returns text by file name, relative to the cruise folder */
export function demoCruiseFiles(): ReadonlyMap<string, string> {
  const { cruise, truth } = simulateCruise(demoScenario);
  const files = new Map<string, string>();
  const casts = cruise.casts.map(({ id, start, latitude, longitude, data }) => {
    const file = `cast-${id}.csv`;
    if (data !== undefined) files.set(file, castCsv(data));
    return { id, file, start, latitude, longitude };
  });
  const { name, note, instrument, target, nextStation } = cruise;
  files.set("bottles.csv", bottlesCsv(cruise.bottles));
  files.set("maintenance.csv", maintenanceCsv(cruise.maintenance));
  files.set("truth.csv", truthCsv(truth));
  const description = {
    name,
    note,
    casts,
    bottles: "bottles.csv",
    maintenance: "maintenance.csv",
    instrument: { ...instrument, oxygenSensorInLine: true },
    target,
    nextStation: { ...nextStation, minutesAvailable },
  };
  files.set("cruise.json", `${JSON.stringify(description, undefined, 2)}\n`);
  return files;
}

function castCsv({ columns }: Cast): string {
  const { pressure_dbar, primary, secondary } = columns;
  const headings = ["pressure_dbar", "temperature_C", "conductivity_mS_cm"];
  if (secondary !== undefined) headings.push("temperature2_C", "conductivity2_mS_cm");
  const cells = secondary === undefined ? [primary] : [primary, secondary];
  return table(
    headings,
    Array.from(pressure_dbar, (p, i) => [
      p.toFixed(1),
      ...cells.flatMap(({ temperature_C, conductivity_mS_cm }) => [
        temperature_C[i]!.toFixed(4),
        conductivity_mS_cm[i]!.toFixed(5),
      ]),
    ]),
  );
}

function bottlesCsv(bottles: readonly Bottle[]): string {
  return table(
    [
      "cast",
      "bottle",
      "pressure_dbar",
      "salinity",
      "run",
      "ctd_temperature_C",
      "ctd_conductivity_mS_cm",
      "ctd_temperature2_C",
      "ctd_conductivity2_mS_cm",
    ],
    bottles.map(({ cast, bottle, pressure_dbar, salinity, run, ctd }) => {
      const measured = !Number.isNaN(salinity);
      return [
        cast,
        bottle,
        pressure_dbar.toFixed(1),
        measured ? salinity.toFixed(4) : "",
        measured ? (run ?? "") : "",
        ...[ctd?.primary, ctd?.secondary].flatMap((reading) => [
          reading?.temperature_C.toFixed(4) ?? "",
          reading?.conductivity_mS_cm.toFixed(5) ?? "",
        ]),
      ];
    }),
  );
}

function maintenanceCsv(events: readonly MaintenanceEvent[]): string {
  const yes = (flag: boolean | undefined) => (flag === true ? "yes" : "");
  return table(
    [
      "time",
      "after_cast",
      "action",
      "solution",
      "concentration",
      "minutes",
      "soaked",
      "rinsed",
      "note",
    ],
    events.map((event) => [
      event.time ?? "",
      event.afterCast ?? "",
      event.action,
      event.solution ?? "",
      event.concentration ?? "",
      event.minutes === undefined ? "" : String(event.minutes),
      yes(event.soaked),
      yes(event.rinsed),
      "both cells",
    ]),
  );
}

function truthCsv(truth: Truth): string {
  return table(
    [
      "cast",
      "cell",
      "leg",
      "gain_ppm",
      "film_ppm",
      "clean_gain_ppm",
      "onset_leg",
      "onset_pressure_dbar",
      "cause",
    ],
    truth.flatMap(({ id, cells }) =>
      Object.entries(cells).flatMap(([cell, own]) =>
        (["down", "up"] as const).map((leg) => [
          id,
          cell,
          leg,
          own.gain[leg].toFixed(1),
          own.film[leg].toFixed(1),
          own.cleanGain_ppm.toFixed(1),
          own.onset?.leg ?? "",
          own.onset === undefined ? "" : String(own.onset.pressure_dbar),
          own.cause,
        ]),
      ),
    ),
  );
}

/** No field of ours holds a comma or a quote. */
function table(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  return `${[headings, ...rows].map((row) => row.join(",")).join("\n")}\n`;
}
