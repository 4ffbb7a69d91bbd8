// False alarms: nothing is the matter, and nothing may be claimed. Truth is what was simulated; for open data,
// that no remark on failing sensors was made with it.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Cast } from "../../src/cast/cast.js";
import { readExchangeCast } from "../../src/read/exchangeCast.js";
import { oceanNames, type SimulatedEvent } from "../../src/simulate/index.js";
import { coastal, coastalCast } from "../cast/castOf.js";
import { healthOf, metres, scansAt, soundCast } from "./faults.js";

const slow = 180_000;

describe("sound simulated casts", () => {
  for (const ocean of oceanNames) {
    it(
      `of the ocean "${ocean}" have no finding, at 24, 4, 2 and 1 Hz and as averages of 1 dbar`,
      () => {
        for (const sampling of [scansAt(24), scansAt(4), scansAt(2), scansAt(1), metres]) {
          for (let seed = 0; seed < 4; seed++) {
            const cells = seed % 2 === 0 ? (["primary"] as const) : undefined;
            const cast = soundCast({ seed, ocean, sampling, ...(cells ? { cells } : {}) });
            expect(healthOf(cast).findings).toEqual([]);
          }
        }
      },
      slow,
    );
  }

  it("sound casts have the simulated noise of 0.0004 mS/cm and 0.4 mK within a tenth at 24 Hz", () => {
    for (const ocean of oceanNames) {
      const { cells } = healthOf(soundCast({ seed: 7, ocean, sampling: scansAt(24) }));
      for (const cell of [cells.primary!, cells.secondary!]) {
        expect(Math.abs(cell.conductivityNoise_mS_cm / 0.0004 - 1)).toBeLessThan(0.1);
        expect(Math.abs(cell.temperatureNoise_K / 0.0004 - 1)).toBeLessThan(0.1);
      }
    }
  });

  it("note the limits of coarse sampling", () => {
    const { notes } = healthOf(soundCast({ seed: 1, sampling: metres }));
    expect(notes.join()).toMatch(/too far apart/);
    expect(notes.join()).toMatch(/no time/);
    expect(healthOf(soundCast({ seed: 1, sampling: scansAt(24) })).notes).toEqual([]);
  });
});

describe("a cell that reads wrong but answers well has no finding", () => {
  const wrong: readonly (readonly [string, readonly SimulatedEvent[]])[] = [
    [
      "a film that comes within the cast",
      [
        {
          kind: "film-step",
          cells: ["primary"],
          cast: 1,
          at: { leg: "down", pressure_dbar: 60 },
          ppm: -1000,
        },
      ],
    ],
    [
      "a calibration that is off",
      [{ kind: "calibration-shift", cell: "primary", fromCast: 1, ppm: 300 }],
    ],
    [
      "a thermometer that is off",
      [{ kind: "temperature-error", cell: "primary", fromCast: 1, mK: 15 }],
    ],
    ["a front between the legs", [{ kind: "front", cast: 1, salinity: 0.2 }]],
    [
      "twice the usual thermal lag",
      [{ kind: "thermal-lag", cells: ["primary"], cast: 1, factor: 2 }],
    ],
  ];
  it.each(wrong)("%s", (_, events) => {
    for (const ocean of oceanNames) {
      for (const rate of [24, 2]) {
        const cast = soundCast({ seed: 11, ocean, sampling: scansAt(rate), events });
        expect(healthOf(cast).findings).toEqual([]);
      }
    }
  });
});

const arctic = "../shared/data/arctic-2015";
describe.skipIf(!existsSync(arctic))("open data: 25 Arctic casts in averages of 1 dbar", () => {
  it("have no finding", () => {
    const files = readdirSync(arctic).filter((file) => file.endsWith("_ct1.csv"));
    expect(files.length).toBe(25);
    for (const file of files) {
      const text = readFileSync(`${arctic}/${file}`, "utf8");
      const { cast } = readExchangeCast(text, { id: file, file });
      expect(healthOf(cast).findings).toEqual([]);
    }
  });
});

describe.skipIf(!existsSync(coastal.folder))("open data: four shallow coastal casts", () => {
  it.each(coastal.stations)("station %s has no finding", (station) => {
    expect(healthOf(coastalCast(station)).findings).toEqual([]);
  });
});

const shelf = "../shared/data/shelf-two-sensors-2018a/profiles.csv";
describe.skipIf(!existsSync(shelf))("open data: 28 shelf casts with two cells", () => {
  it("have no finding but the one false pressure that they are published with, if that", () => {
    for (const cast of shelfCasts()) {
      const findings = healthOf(cast).findings.filter(({ sensor }) => sensor !== "pressure");
      expect(findings).toEqual([]);
    }
  });
});

/** Rows stand as in the source, not in order of time: they are put in order of pressure. */
function shelfCasts(): readonly Cast[] {
  const rows = readFileSync(shelf, "utf8")
    .trim()
    .split("\n")
    .slice(1)
    .map((row) => row.split(",").map(Number));
  return [...new Set(rows.map((row) => row[0]!))].map((id) => {
    const sorted = rows.filter((row) => row[0] === id).sort((a, b) => a[3]! - b[3]!);
    const column = (k: number) => Float64Array.from(sorted, (row) => row[k]!);
    return {
      id: String(id),
      conductivityFrom: "measured" as const,
      columns: {
        pressure_dbar: column(3),
        primary: { temperature_C: column(4), conductivity_mS_cm: column(6) },
        secondary: { temperature_C: column(5), conductivity_mS_cm: column(7) },
        others: {},
      },
    };
  });
}
