// A simulated cruise as the files of a cruise folder, and the truth beside them.
import type { Bottle } from "../cast/bottle.js";
import type { Cast } from "../cast/cast.js";
import type { MaintenanceEvent } from "../cast/maintenance.js";
import type { SimulatedCruise } from "./cruise.js";
import type { Truth } from "./truth.js";

/** @returns texts by file name, relative to the folder, as docs/formats.md describes them, and truth.csv */
export function cruiseFiles({ cruise, truth }: SimulatedCruise): ReadonlyMap<string, string> {
  const { name, note, instrument, target, nextStation, timeZone } = cruise;
  const files = new Map<string, string>();
  const casts = cruise.casts.map(({ data, ...about }) => {
    if (data === undefined) return about;
    const file = `cast-${about.id}.csv`;
    files.set(file, castCsv(data));
    return { ...about, file };
  });
  files.set("bottles.csv", bottlesCsv(cruise.bottles));
  files.set("maintenance.csv", maintenanceCsv(cruise.maintenance));
  files.set("truth.csv", truthCsv(truth));
  const description = {
    ...{ name, note, casts, bottles: "bottles.csv", maintenance: "maintenance.csv" },
    ...{ instrument, target, nextStation, timeZone },
  };
  files.set("cruise.json", `${JSON.stringify(description, undefined, 2)}\n`);
  return files;
}

function castCsv({ columns }: Cast): string {
  const { time_s, pressure_dbar, primary, secondary } = columns;
  return table(
    [
      ...(time_s === undefined ? [] : ["time_s"]),
      ...["pressure_dbar", "temperature_C", "conductivity_mS_cm"],
      ...(secondary === undefined ? [] : ["temperature2_C", "conductivity2_mS_cm"]),
    ],
    Array.from(pressure_dbar, (p, i) => [
      ...(time_s === undefined ? [] : [time_s[i]!.toFixed(3)]),
      // Averages are named by their layer; scans are less than a tenth apart.
      p.toFixed(time_s === undefined ? 1 : 2),
      ...[primary, secondary].flatMap((cell) =>
        cell === undefined
          ? []
          : [cell.temperature_C[i]!.toFixed(4), cell.conductivity_mS_cm[i]!.toFixed(5)],
      ),
    ]),
  );
}

function bottlesCsv(bottles: readonly Bottle[]): string {
  const timed = bottles.some(({ time_s }) => time_s !== undefined);
  const second = bottles.some(({ ctd }) => ctd?.secondary !== undefined);
  return table(
    [
      ...["cast", "bottle", "pressure_dbar", "salinity", "run"],
      ...(timed ? ["time_s"] : []),
      ...["ctd_temperature_C", "ctd_conductivity_mS_cm"],
      ...(second ? ["ctd_temperature2_C", "ctd_conductivity2_mS_cm"] : []),
    ],
    bottles.map(({ cast, bottle, pressure_dbar, salinity, run, time_s, ctd }) => {
      // A sample that is not yet measured has no run yet.
      const measured = !Number.isNaN(salinity);
      return [
        ...[cast, bottle, pressure_dbar.toFixed(1)],
        ...(measured ? [salinity.toFixed(4), run ?? ""] : ["", ""]),
        ...(timed ? [time_s?.toFixed(1) ?? ""] : []),
        ...(second ? [ctd?.primary, ctd?.secondary] : [ctd?.primary]).flatMap((reading) => [
          reading?.temperature_C.toFixed(4) ?? "",
          reading?.conductivity_mS_cm.toFixed(5) ?? "",
        ]),
      ];
    }),
  );
}

function maintenanceCsv(events: readonly MaintenanceEvent[]): string {
  const read = events.some(({ reading_mS_cm }) => reading_mS_cm !== undefined);
  const yes = (flag: boolean | undefined) => (flag === true ? "yes" : "");
  const yesOrNo = (flag: boolean | undefined) => (flag === false ? "no" : yes(flag));
  return table(
    [
      "time",
      "after_cast",
      "action",
      "cell",
      "solution",
      "concentration",
      "minutes",
      "soaked",
      "rinsed",
      ...(read ? ["drained", "reading_mS_cm"] : []),
    ],
    events.map((event) => [
      ...[event.time ?? "", event.afterCast ?? "", event.action, event.cell ?? ""],
      ...[event.solution ?? "", event.concentration ?? "", event.minutes?.toFixed(0) ?? ""],
      ...[yes(event.soaked), yesOrNo(event.rinsed)],
      ...(read ? [yesOrNo(event.drained), event.reading_mS_cm?.toFixed(4) ?? ""] : []),
    ]),
  );
}

function truthCsv(truth: Truth): string {
  const offset = truth.some(({ cells }) =>
    Object.values(cells).some((cell) => cell.additiveOffset_microsiemens_cm !== 0),
  );
  return table(
    [
      ...["cast", "cell", "leg", "gain_ppm", "film_ppm", "clean_gain_ppm"],
      ...["onset_leg", "onset_pressure_dbar", "cause"],
      ...(offset ? ["additive_offset_microsiemens_cm"] : []),
    ],
    truth.flatMap(({ id, cells }) =>
      Object.entries(cells).flatMap(([cell, own]) => {
        const { gain, film, cleanGain_ppm, onset, cause } = own;
        return (["down", "up"] as const).map((leg) => [
          ...[id, cell, leg],
          ...[gain[leg], film[leg], cleanGain_ppm].map((ppm) => ppm.toFixed(1)),
          ...[onset?.leg ?? "", onset?.pressure_dbar.toFixed(0) ?? "", cause],
          ...(offset ? [own.additiveOffset_microsiemens_cm.toFixed(1)] : []),
        ]);
      }),
    ),
  );
}

function table(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  return `${[headings, ...rows].map((row) => row.map(quoted).join(",")).join("\n")}\n`;
}

/** Quoted as in RFC 4180. */
function quoted(field: string): string {
  return /[",\r\n]/.test(field) ? `"${field.replaceAll('"', '""')}"` : field;
}
