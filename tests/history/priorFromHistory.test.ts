import { describe, expect, it } from "vitest";
import { priorFromHistory } from "../../src/history/priorFromHistory.js";
import { defaultRecovery, updateRecovery } from "../../src/model/recovery.js";
import { cleaning, recordFor } from "./recordFor.js";

const start = "2021-11-23T14:00:00.000Z";
const days = 200;
const calibrated = "2021-01-10";
const next = { serial: "K-17", start, calibrated };

describe("the values that a history carries into the next cruise", () => {
  it("the clean gain is carried over, widened by random walk, drift and the next batch of standards", () => {
    const { cellPrior, days: between } = priorFromHistory([recordFor()], next)!;
    expect(between).toBe(days);
    expect(cellPrior.clean!.mean).toBe(-12);
    // [JAMSTECRecords]: 0.0001 in salinity a month, 2.6 ppm; [KawanoEtAl2006]: 0.0003, 8 ppm.
    const walked = 0.5 ** 2 * days;
    const drifted = ((2.6 / 30.4) * days) ** 2;
    expect(cellPrior.clean!.sd).toBeCloseTo(Math.sqrt(10 ** 2 + walked + drifted + 8 ** 2), 9);
  });

  it("no value comes from another cell, from this cruise or from a later one", () => {
    const others = [
      recordFor({ serial: "K-22" }),
      recordFor({ to: { cast: "003", start } }),
      recordFor({ to: { cast: "003", start: "2022-01-01T00:00:00.000Z" } }),
      recordFor({ to: { cast: "003" } }),
    ];
    expect(priorFromHistory(others, next)).toBeUndefined();
  });

  it("a new calibration removes the clean gain, but not recovery, pressure response and lag", () => {
    const record = recordFor({ cleanings: [cleaning("soak", 0.9)] });
    const found = priorFromHistory([record], { ...next, calibrated: "2021-09-01" })!;
    expect(found.cellPrior.clean).toBeUndefined();
    expect(found.calibratedSince).toBe("2021-09-01");
    expect(found.cellPrior.pressure.mean).toBe(3);
    expect(found.outcomes).toHaveLength(1);
    expect(found.response.lag!.value).toBe(1.1);
  });

  it("a calibration after the last cast removes the clean gain", () => {
    const record = recordFor({ calibrations: [{ time: "2021-06-01T00:00:00Z" }] });
    expect(priorFromHistory([record], { serial: "K-17", start })!.cellPrior.clean).toBeUndefined();
  });

  it("the last film is carried over, less probable and less certain, unless the cell was calibrated or cleaned", () => {
    const filmAtEnd = { ppm: -150, standardUncertainty: 20, probability: 0.9 };
    const of = (
      more: Parameters<typeof recordFor>[0],
      at: Partial<typeof next> & { cleaned?: boolean } = {},
    ) => priorFromHistory([recordFor(more)], { ...next, ...at })!.cellPrior.film;
    const film = of({ filmAtEnd })!;
    expect(film.mean).toBe(-150);
    expect(film.sd).toBeGreaterThan(20);
    expect(film.probability).toBeLessThan(0.9);
    expect(of({})).toBeUndefined();
    expect(of({ filmAtEnd }, { cleaned: true })).toBeUndefined();
    expect(of({ filmAtEnd }, { calibrated: "2021-09-01" })).toBeUndefined();
  });

  it("without the day of calibration the prior is less certain, and decreases with time", () => {
    const probability = (from: string, day?: string) =>
      priorFromHistory([recordFor()], {
        serial: "K-17",
        start: from,
        ...(day === undefined ? {} : { calibrated: day }),
      })!.cellPrior.probability;
    expect(probability(start, calibrated)).toBe(0.9);
    expect(probability(start)).toBeLessThan(0.9);
    expect(probability("2023-11-23T14:00:00.000Z")).toBeLessThan(probability(start));
  });

  it("past cleanings of all earlier cruises: two failed soaks lower the expected effect of a soak", () => {
    const failed = [2021, 2022].map((year) =>
      recordFor({
        cruise: `Cruise of ${year} (invented)`,
        to: { cast: "014", start: `${year}-05-07T14:00:00.000Z` },
        cleanings: [cleaning("soak", 0.9)],
      }),
    );
    const { outcomes } = priorFromHistory(failed, {
      serial: "K-17",
      start: "2023-05-01T00:00:00Z",
    })!;
    const own = outcomes.map((one) => ({ ...one, cell: "primary" as const }));
    const { soak } = updateRecovery(defaultRecovery, own, "primary");
    expect(soak.probabilityWorks).toBeLessThan(0.75 * defaultRecovery.soak.probabilityWorks);
    // Two failures on one cell rule the soak out.
    expect(soak.failed).toBe("on this cell");
  });
});
