// Open data, read from ../shared, which is not part of the package: where it is absent this is skipped.
import { existsSync, readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";
import { rollups } from "d3-array";
import { sampleCorrelation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { bottlesLine } from "../../../src/evidence/bottles/bottlesLine.js";
import { madScale } from "../../../src/statistics/madScale.js";
import { median } from "../../../src/statistics/robustCentre.js";

const path = "../shared/data/north-pacific-west-2022/residuals.csv";

/** The median residual of each station below 2000 dbar, ppm, without the slow change over 15 stations. */
function stationsMove(cell: 1 | 2): readonly number[] {
  const heading = `bottle_minus_c${cell}_adjusted_mS_cm`;
  const rows: Record<string, string>[] = parse(readFileSync(path, "utf8"), { columns: true });
  const deep = rows.filter((row) => row[heading] !== "" && Number(row.pressure_dbar) > 2000);
  const stations = rollups(
    deep,
    // Deep water there has 32 mS/cm.
    (own) => median(own.map((row) => (1e6 * Number(row[heading])) / 32)),
    (row) => row.station,
  ).map(([, value]) => value);
  return stations.map((value, i) => value - median(stations.slice(Math.max(0, i - 7), i + 8)));
}

describe.skipIf(!existsSync(path))(
  "the North Pacific cruise of 2022 (skipped without ../shared/data)",
  () => {
    it("its stations move by what a laboratory run is expected to be off, and in both cells alike", () => {
      const [first, second] = [stationsMove(1), stationsMove(2)];
      expect(sampleCorrelation([...first], [...second])).toBeGreaterThan(0.9);
      const usual = bottlesLine.sharedErrors!.find(({ name }) => name === "run")!.noise!.usual;
      for (const moves of [first, second]) {
        expect(madScale(moves) / usual).toBeGreaterThan(0.8);
        expect(madScale(moves) / usual).toBeLessThan(1.25);
      }
    });
  },
);
