import { describe, expect, it } from "vitest";
import { cellYears } from "../../src/figures/cellYears.js";
import { fleetOf } from "../../src/history/fleet.js";
import { cellSummary, fleetSummary } from "../../src/report/terminal/historySummary.js";
import { cleaning, recordFor } from "./recordFor.js";

const film = {
  cast: "005",
  sinceCast: "004",
  kind: "step",
  casts: 3,
  largest: { ppm: -180, standardUncertainty: 12 },
} as const;
const spring = recordFor({
  films: [film],
  cleanings: [cleaning("wash", 0.9), cleaning("soak", 0.05)],
  inWater_hours: 20,
});
const autumn = recordFor({
  cruise: "RV Quillwort, autumn <invented>",
  from: { cast: "001", start: "2021-10-03T06:00:00.000Z" },
  to: { cast: "006", start: "2021-10-07T14:00:00.000Z" },
  casts: 6,
  cleanings: [cleaning("wash", 0.3)],
  shifts: [{ sinceCast: "004", change: { ppm: 90, standardUncertainty: 15 } }],
});
const other = recordFor({
  serial: "K-22",
  calibrated: "2021-09-01",
  cleanGain: {
    first: { ppm: 90, standardUncertainty: 10 },
    last: { ppm: 95, standardUncertainty: 10 },
  },
});
const now = "2022-02-01T00:00:00Z";
const { cells, cleanings } = fleetOf([autumn, other, spring], { now });

describe("the fleet", () => {
  it("a fleet counts films per cast and per hour in the water", () => {
    expect(cells[0]).toMatchObject({
      serial: "K-17",
      cruises: 2,
      casts: 20,
      films: 1,
      filmsPer100Casts: 5,
      inWater_hours: 20,
      filmsPer100Hours: 5,
    });
  });

  it("a fleet shows which cleaning worked on which film, over all cells", () => {
    expect(cleanings).toEqual([
      { intensity: "wash", film: "step", tried: 2, worked: 1, retained: 0.6 },
      { intensity: "soak", film: "step", tried: 1, worked: 1, retained: 0.05 },
    ]);
  });

  it("a cell is due by date a year after its calibration, and by drift beyond its target", () => {
    expect(cells[0]!.due).toEqual(["by date"]);
    // 95 ppm is 0.0037 in salinity, and the target 0.002.
    expect(cells[1]!.due).toEqual(["by drift"]);
    expect(cells[1]!.probabilityBeyondTarget).toBeGreaterThan(0.9);
  });

  it("a cell calibrated after the last cruise is not due", () => {
    const sent = { ...other, calibrations: [{ time: "2022-01-10T00:00:00Z" }] };
    const [cell] = fleetOf([sent], { now }).cells;
    expect(cell).toMatchObject({ due: [], calibrated: "2022-01-10" });
  });

  it("due cells are listed first", () => {
    const [first, second] = fleetSummary({ cells, cleanings }, { colour: false }).split("\n");
    expect(first).toMatch(/^Cell K-17 is due for calibration: \d+ days since its calibration/);
    expect(second).toMatch(/^Cell K-22 is due for calibration: clean gain \+95 ± 10 ppm/);
  });

  it("text of a file cannot move the cursor", () => {
    const odd = recordFor({ serial: "K\u001b[2J", cruise: "a\u0007b" });
    const fleet = fleetOf([odd], { now });
    for (const text of [
      fleetSummary(fleet, { colour: false }),
      cellSummary([odd], { colour: false }),
    ]) {
      expect(text).not.toContain("\u001b");
      expect(text).not.toContain("\u0007");
    }
  });
});

describe("the figure of a cell over the years", () => {
  const svg = cellYears([autumn, spring]);

  it("the figure marks both ends of each cruise, each film and each shift, with its number", () => {
    const hints = [...svg.matchAll(/<title>([^<]*)<\/title><\/path>/g)].map(([, words]) => words!);
    expect(hints.filter((words) => words.includes("clean"))).toHaveLength(4);
    expect(hints.filter((words) => words.includes("film \u2212180 ± 12 ppm"))).toHaveLength(1);
    expect(hints.filter((words) => words.includes("shift +90 ± 15 ppm"))).toHaveLength(1);
  });

  it("all text of a record is escaped in the figure", () => {
    expect(svg).toContain("autumn &lt;invented&gt;");
    expect(svg).not.toContain("<invented>");
  });

  it("records without a time are not drawn", () => {
    expect(cellYears([recordFor({ from: { cast: "001" }, to: { cast: "002" } })])).toBe("");
  });
});
