import { describe, expect, it } from "vitest";
import { cellRecordSchema } from "../../src/history/cellRecord.js";
import { cellHistory } from "../../src/history.js";
import { assessCruise, type Cruise } from "../../src/index.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { cruiseEvidence } from "../../src/verdict/gather/cruiseEvidence.js";

const film_ppm = -220;
const { cruise: simulated } = simulateCruise({
  seed: 83,
  casts: 5,
  deepest_dbar: 1500,
  cells: ["primary"],
  events: [
    { kind: "film-step", cells: ["primary"], cast: 2, at: "before-cast", ppm: film_ppm },
    { kind: "cleaning", afterCast: 3, intensity: "soak", retained: 0.05 },
  ],
});
const cruise: Cruise = {
  ...simulated,
  instrument: {
    ...simulated.instrument,
    sensors: { primary: { cell: "K-17", cellCalibrated: "2021-01-10" } },
    spares: [{ kind: "cell", serial: "K-18", calibrated: "2021-02-20" }],
  },
  maintenance: [
    ...simulated.maintenance,
    { action: "exchange", afterCast: "004", cell: "primary", serial: "K-18" },
    { action: "calibration", time: "2021-06-01T00:00:00.000Z", cell: "primary", serial: "K-17" },
  ],
};
const document = assessCruise(cruise);
const records = cellHistory(cruise, document);
const [old, fitted] = records;

describe("the results of a cruise for its cells", () => {
  it("each serial number has a record over the casts on which the cell was fitted", () => {
    expect(
      records.map(({ serial, from, to, casts }) => [serial, from.cast, to.cast, casts]),
    ).toEqual([
      ["K-17", "001", "004", 4],
      ["K-18", "005", "005", 1],
    ]);
    expect(old!.calibrated).toBe("2021-01-10");
    expect(fitted!.calibrated).toBe("2021-02-20");
  });

  it("a cell record is plain data that its schema accepts and JSON does not change", () => {
    for (const record of records)
      expect(cellRecordSchema.parse(JSON.parse(JSON.stringify(record)))).toEqual(record);
  });

  it("a cell record contains the film with its onset and its true size", () => {
    expect(old!.films).toHaveLength(1);
    const [film] = old!.films;
    expect(film).toMatchObject({ cast: "002", sinceCast: "002", kind: "step" });
    const { ppm, standardUncertainty } = film!.largest;
    expect(Math.abs(ppm - film_ppm)).toBeLessThan(3 * standardUncertainty);
    expect(fitted!.films).toEqual([]);
  });

  it("a cell record contains the share that the soak left, 5 % in truth, and no rinse", () => {
    expect(old!.cleanings.map(({ afterCast, intensity }) => [afterCast, intensity])).toEqual([
      ["003", "soak"],
    ]);
    const { retained, standardUncertainty } = old!.cleanings[0]!;
    expect(Math.abs(retained - 0.05)).toBeLessThan(3 * standardUncertainty);
    expect(retained).toBeLessThan(0.35);
  });

  it("a calibration after the cruise is in the record of that cell alone", () => {
    expect(old!.calibrations).toEqual([{ time: "2021-06-01T00:00:00.000Z" }]);
    expect(fitted!.calibrations).toEqual([]);
  });

  it("without a serial number there is no record, and verdicts of another cruise are refused", () => {
    const { sensors: _, ...nameless } = simulated.instrument;
    const bare = { ...simulated, instrument: nameless, casts: simulated.casts.slice(0, 1) };
    expect(cellHistory(bare, assessCruise(bare))).toEqual([]);
    expect(() => cellHistory(bare, document)).toThrow(RangeError);
  });

  it("the usual response of earlier cruises counts as one cast before the first", () => {
    const lag = (value?: number) => {
      const carried =
        value === undefined ? {} : { primary: { lag: { value, standardUncertainty: 0.1 } } };
      return cruiseEvidence(cruise, carried).next().value!.tracked.response!.primary!.lag!;
    };
    expect(old!.response.lag).toBeDefined();
    // For a cell that lagged three times as much before, the lag of this cast is little.
    expect(lag().value).toBeGreaterThan(1);
    expect(lag(3).value).toBeLessThan(lag().value - 0.5);
    expect(lag(3).standardUncertainty).toBeLessThan(lag().standardUncertainty);
  });
});
