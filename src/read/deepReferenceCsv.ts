// A reference table for deep water: salinity at potential temperature.

import type { DeepReference } from "../cast/deepReference.js";
import type { InputFile } from "../cast/inputFile.js";

import { BadInput, type Fault } from "./badInput.js";
import { requireHeadings } from "./headings.js";
import { rowReader } from "./rowReader.js";
import { readTable } from "./table.js";

interface ReadDeepReference {
  /** Content of the rows; the uncertainty of the whole table is given separately. */
  readonly rows: Pick<DeepReference, "potentialTemperature_C" | "salinity" | "rowUncertainty">;
  readonly input: InputFile;
}

/** Fewest rows for a curve. */
const leastPoints = 6;

/** Range of sea water, to detect typing errors. */
const usable = { coldest: -3, warmest: 30, freshest: 2, saltiest: 42 };

/**
 * Read a reference table for the deep water from text.
 * @param text a table with headings `potential_temperature_C` (referred to 0 dbar), `salinity` (PSS-78), optional
 *   `standard_uncertainty` (PSS-78) of the row, in any order of rows
 * @throws BadInput with every row that is not a number or not sea water, a repeated potential temperature, or too few rows
 */
export function readDeepReference(
  text: string,
  { file }: { readonly file: string },
): ReadDeepReference {
  const table = readTable(text, file);
  const headings = ["potential_temperature_C", "salinity"] as const;
  requireHeadings(table.headings, headings, file, table.headingLine);
  const faults: Fault[] = [];
  const points = table.rows.map((row) => {
    const { number, fault } = rowReader(table, row, file, faults);
    const [theta, salinity] = headings.map(number) as [number, number];
    const within = (value: number, low: number, high: number, heading: string) => {
      // Cells that are not numbers have been reported already.
      const told = faults.some(({ line, column }) => line === row.line && column === heading);
      if (!told && !(value >= low && value <= high)) {
        fault(heading, `a number from ${low} to ${high}`, "Correct the value, or remove the row.");
      }
    };
    within(theta, usable.coldest, usable.warmest, headings[0]);
    within(salinity, usable.freshest, usable.saltiest, headings[1]);
    const uncertainty = number("standard_uncertainty");
    if (uncertainty < 0)
      fault("standard_uncertainty", "a number from 0 up", "Correct the value, or leave it blank.");
    return { theta, salinity, uncertainty, line: row.line };
  });
  points.sort((a, b) => a.theta - b.theta);
  for (const [i, { theta, line }] of points.entries()) {
    if (theta !== points[i - 1]?.theta) continue;
    faults.push({
      file,
      line,
      column: headings[0],
      found: `${theta} a second time`,
      expected: "each potential temperature once",
      mend: "Take one of the two rows out, or put their mean.",
    });
  }
  if (points.length < leastPoints) {
    faults.push({
      file,
      line: 0,
      found: `${points.length} rows`,
      expected: `${leastPoints} or more`,
      mend: "Give the reference at more potential temperatures.",
    });
  }
  if (faults.length > 0) throw new BadInput(faults);
  return {
    rows: {
      potentialTemperature_C: Float64Array.from(points, ({ theta }) => theta),
      salinity: Float64Array.from(points, ({ salinity }) => salinity),
      rowUncertainty: Float64Array.from(points, ({ uncertainty }) => uncertainty),
    },
    input: {
      name: file,
      role: "reference",
      rows: table.rows.length,
      leftOut: [],
      notes: table.notes,
    },
  };
}
