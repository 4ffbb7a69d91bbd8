import { describe, expect, it } from "vitest";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { readBottlesCsv } from "../../src/read/bottlesCsv.js";
import { readCastCsv } from "../../src/read/castCsv.js";
import { readCruiseDescription } from "../../src/read/cruiseDescription.js";
import { readMaintenance } from "../../src/read/maintenanceRecord.js";
import { simulateCruise } from "../../src/simulate/cruise.js";
import { cruiseFiles } from "../../src/simulate/cruiseFiles.js";

const simulated = simulateCruise({
  seed: 2,
  casts: 3,
  deepest_dbar: 300,
  sampling: { kind: "time-series", rate_Hz: 1 },
  laboratory: { newestUnmeasured: 1 },
  events: [
    { kind: "cleaning", afterCast: 1, cells: ["secondary"], intensity: "disinfect", retained: 1 },
  ],
});
const { cruise } = simulated;
const files = cruiseFiles(simulated);
const text = (file: string) => files.get(file)!;
/** Printed to this many places. */
const close = (a: ArrayLike<number>, b: ArrayLike<number>, places: number) => {
  expect(a.length).toBe(b.length);
  for (let i = 0; i < a.length; i++)
    expect(Math.abs(a[i]! - b[i]!)).toBeLessThan(0.51 * 10 ** -places);
};

describe("the files of a simulated cruise", () => {
  it("the files of a simulated cruise are read as the simulated casts", () => {
    const description = readCruiseDescription(text("cruise.json"), { file: "cruise.json" });
    expect(description.casts.map(({ id }) => id)).toEqual(["001", "002", "003"]);
    description.casts.forEach(({ id, file }, i) => {
      const { cast } = readCastCsv(text(file!), { id, file: file! });
      const { columns } = cruise.casts[i]!.data!;
      close(cast.columns.pressure_dbar, columns.pressure_dbar, 2);
      close(cast.columns.time_s!, columns.time_s!, 3);
      for (const cell of ["primary", "secondary"] as const) {
        close(cast.columns[cell]!.temperature_C, columns[cell]!.temperature_C, 4);
        close(cast.columns[cell]!.conductivity_mS_cm, columns[cell]!.conductivity_mS_cm, 5);
      }
    });
  });

  it("the files of a simulated cruise are read as the simulated bottles and maintenance record", () => {
    const { bottles } = readBottlesCsv(text("bottles.csv"), { file: "bottles.csv" });
    const measured = cruise.bottles.filter(({ salinity }) => !Number.isNaN(salinity));
    close(
      bottles.slice(0, measured.length).map(({ salinity }) => salinity),
      measured.map(({ salinity }) => salinity),
      4,
    );
    expect(bottles.slice(measured.length).every(({ salinity }) => Number.isNaN(salinity))).toBe(
      true,
    );
    expect(bottles).toHaveLength(cruise.bottles.length);
    const { events } = readMaintenance(text("maintenance.csv"), { file: "maintenance.csv" });
    expect(events.map(({ action, cell, solution }) => ({ action, cell, solution }))).toEqual(
      cruise.maintenance.map(({ action, cell, solution }) => ({ action, cell, solution })),
    );
  });

  it("the files contain readings in air in the record and on deck, and the true offset", () => {
    const ran = simulateCruise({
      seed: 4,
      casts: 2,
      cells: ["primary"],
      deepest_dbar: 60,
      sampling: {
        kind: "time-series",
        rate_Hz: 1,
        deck: { before: { seconds: 30 }, after: { seconds: 45, left_microsiemens_cm: 2 } },
      },
      events: [
        { kind: "additive-offset", cell: "primary", fromCast: 2, microsiemens_cm: -7 },
        { kind: "cleaning", afterCast: 2, intensity: "rinse", retained: 1 },
        { kind: "air-reading", afterCast: 2, cell: "primary", rinsed: true, drained: false },
      ],
    });
    const written = cruiseFiles(ran);
    const { events } = readMaintenance(written.get("maintenance.csv")!, {
      file: "maintenance.csv",
    });
    expect(events.map(({ line, ...event }) => event)).toMatchObject([
      { action: "rinse" },
      ran.cruise.maintenance[1]!,
    ]);
    expect(Math.abs(1000 * events[1]!.reading_mS_cm! + 7)).toBeLessThan(1.5);
    const { cast } = readCastCsv(written.get("cast-002.csv")!, { id: "002", file: "cast-002.csv" });
    const simulated = ran.cruise.casts[1]!.data!.columns;
    close(cast.columns.primary.conductivity_mS_cm, simulated.primary.conductivity_mS_cm, 5);
    expect(splitLegs(cast).leftOut.onDeck).toBe(75);
    const rows = written.get("truth.csv")!.trim().split("\n");
    expect(rows[0]).toMatch(/,additive_offset_microsiemens_cm$/);
    expect(rows.slice(1).map((row) => row.split(",").at(-1))).toEqual([
      "0.0",
      "0.0",
      "-7.0",
      "-7.0",
    ]);
    expect(text("truth.csv")).not.toMatch(/additive/);
    expect(text("maintenance.csv")).not.toMatch(/reading/);
  });

  it("the truth is in a separate file that no reader needs", () => {
    expect(text("truth.csv").split("\n")).toHaveLength(1 + 3 * 2 * 2 + 1);
    expect(text("cruise.json")).not.toMatch(/truth/);
  });
});
