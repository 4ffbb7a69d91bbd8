import { expect, it } from "vitest";
import { airScans } from "../../../src/evidence/air/airScans.js";

/** Ten scans in air, sixty in the water, ten in air. */
const wet = (i: number) => i >= 10 && i < 70;
const column = (of: (i: number) => number) => Float64Array.from({ length: 80 }, (_, i) => of(i));
const conductivity_mS_cm = column((i) => (wet(i) ? 40 : 0.01));
const temperature_C = column(() => 15);
const pressure_dbar = column((i) => (wet(i) ? 5 + i : 0.1));

it("scans in air are those at the two ends of a cast that read almost nothing", () => {
  const columns = { pressure_dbar, primary: { temperature_C, conductivity_mS_cm }, others: {} };
  const { before, after } = airScans(columns);
  expect(before).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
  expect(after).toEqual([70, 71, 72, 73, 74, 75, 76, 77, 78, 79]);
});

it("a scan without a pressure or without a conductivity tells nothing about the air", () => {
  const columns = {
    pressure_dbar: pressure_dbar.map((p, i) => (i === 2 ? Number.NaN : p)),
    primary: {
      temperature_C,
      conductivity_mS_cm: conductivity_mS_cm.map((c, i) => (i === 5 ? Number.NaN : c)),
    },
    others: {},
  };
  expect(airScans(columns).before).toEqual([0, 1, 3, 4, 6, 7, 8, 9]);
});
