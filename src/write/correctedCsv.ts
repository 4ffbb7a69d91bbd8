// A corrected cast as CSV. Its conductivity has a heading of its own, so that nobody takes it for the original.
import type { CorrectedCast } from "../verdict/correctCast.js";

/** Beginning of every such file: in its headings. */
export const correctedMark = "conductivity_corrected_mS_cm";

/** One row for each scan, in the order of the cast; missing values are empty. */
export function correctedCsv({ pressure_dbar, cells }: CorrectedCast): string {
  const columns: (readonly [string, ArrayLike<number>, number])[] = [
    ["pressure_dbar", pressure_dbar, 3],
  ];
  for (const [suffix, cell] of [
    ["", cells.primary],
    ["2", cells.secondary],
  ] as const) {
    if (cell === undefined) continue;
    columns.push(
      [`temperature${suffix}_C`, cell.temperature_C, 4],
      [`conductivity${suffix}_corrected_mS_cm`, cell.conductivity_mS_cm, 5],
      [`salinity${suffix}`, cell.salinity, 4],
      [`salinity${suffix}_standard_uncertainty`, cell.salinityStandardUncertainty, 4],
    );
  }
  const lines = [columns.map(([heading]) => heading).join(",")];
  for (let i = 0; i < pressure_dbar.length; i++) {
    lines.push(
      columns
        .map(([, values, digits]) => (Number.isFinite(values[i]) ? values[i]!.toFixed(digits) : ""))
        .join(","),
    );
  }
  return `${lines.join("\n")}\n`;
}
