// What a cruise's own record and settings say of the next cast, and which cell a verdict speaks of.
import { describe, expect, it } from "vitest";
import type { Cruise } from "../../src/cast/cruise.js";
import type { MaintenanceEvent } from "../../src/cast/maintenance.js";
import { cautionsByHazard } from "../../src/cleaning/cautions.js";
import { beforeNextCast } from "../../src/cleaning/record/beforeNextCast.js";
import { nextCastOfCruise } from "../../src/cleaning/record/nextCastOfCruise.js";
import { recordOfCruise } from "../../src/cleaning/record/recordOfCruise.js";
import { cellSerials } from "../../src/cleaning/record/serials.js";
import { report } from "../../src/report/html/report.js";
import { markdownReport } from "../../src/report/markdown/markdownReport.js";
import { assessed, bottleCruise } from "../figures/cruises.js";

const cells = ["primary", "secondary"] as const;
const battery = (afterCast: string, batteryVolts: number): MaintenanceEvent => ({
  ...{ action: "battery", afterCast, time: `2031-01-01T${afterCast.slice(1)}:30:00Z` },
  ...{ batteryVolts, batteryCells: 10, batteryKind: "alkaline" },
});
const plain = bottleCruise(3, 6);
const cruise = (maintenance: readonly MaintenanceEvent[], more: Partial<Cruise> = {}): Cruise => ({
  ...plain,
  maintenance,
  ...more,
});

describe("the list before the next cast of a cruise", () => {
  it("the list of a cruise is that of its record at the time of the next station, with its settings", () => {
    const own = cruise([battery("001", 14), battery("002", 13)], {
      nextStation: { time: "2031-01-02T06:00:00Z", air_C: -5, castsToCome: 9 },
    });
    expect(nextCastOfCruise(own, cells)).toEqual(
      beforeNextCast(recordOfCruise(own, cells, "2031-01-02T06:00:00Z"), {
        air_C: -5,
        castsToCome: 9,
      }),
    );
    const words = nextCastOfCruise(own, cells)!
      .due.map(({ because }) => because)
      .join(" ");
    expect(words).toMatch(/Down to -5 degree C/);
    expect(words).toMatch(/of the next 9 casts \(95 %\)/);
  });

  it("without a next station is valid for the last time in the files, not for the time of the computer", () => {
    const own = cruise([{ action: "rinse", time: "2031-01-01T13:00:00Z", minutes: 30 }]);
    expect(nextCastOfCruise(own, cells)).toEqual(
      beforeNextCast(recordOfCruise(own, cells, "2031-01-01T13:30:00Z")),
    );
  });

  it("without a record there is no list; otherwise document, page and log show it with hazards and cautions", () => {
    const first = { casts: plain.casts.slice(0, 1), bottles: [] };
    expect(assessed(cruise([], first)).document.beforeNextCast).toBeUndefined();
    const { document, data } = assessed(
      cruise([battery("001", 14), battery("002", 11.9)], { bottles: [] }),
    );
    const { due, cautions } = document.beforeNextCast!;
    expect(due.map(({ what }) => what)).toContain("Change the battery pack.");
    expect(cautions).toEqual(expect.arrayContaining([...cautionsByHazard.battery]));
    const page = report(document, data);
    const log = markdownReport(document);
    for (const { what, because } of due) {
      expect(page).toContain(what);
      expect(page).toContain(because.replaceAll("'", "&#39;"));
      expect(log).toContain(what.slice(0, 40));
    }
    for (const caution of cautions) expect(page).toContain(caution.replaceAll("'", "&#39;"));
  });
});

describe("the serial number that a verdict speaks of", () => {
  const instrument = { cells, sensors: { primary: { cell: "C-17" }, secondary: { cell: "C-18" } } };
  const fitted: MaintenanceEvent = {
    ...{ action: "exchange", afterCast: "002", cell: "secondary", serial: "C-31" },
  };

  it("the serial number is the instrument's until an exchange, then that of the spare, or unknown if not recorded", () => {
    const { serial: _, ...silent } = fitted;
    expect(cellSerials(cruise([fitted], { instrument }), cells)).toEqual([
      ["C-17", "C-18"],
      ["C-17", "C-18"],
      ["C-17", "C-31"],
    ]);
    expect(cellSerials(cruise([silent], { instrument }), cells)[2]).toEqual(["C-17", undefined]);
    expect(cellSerials(cruise([]), cells)[0]).toEqual([undefined, undefined]);
  });

  it("the serial number is in the verdict of each cell and on the page", () => {
    const { document, data } = assessed(cruise([fitted], { instrument, bottles: [] }));
    expect(document.casts.map(({ cells: of }) => of.secondary!.serial)).toEqual([
      ...["C-18", "C-18", "C-31"],
    ]);
    expect(report(document, data)).toContain("C-31");
  });
});
