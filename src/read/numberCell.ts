// One cell of a table as a number. JavaScript's own conversion takes a blank for 0 and reads "0x10"; this does not.

// Each run of digits matches in one place only, otherwise the time grows with the square of its length.
const decimal = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/;
/** Texts for a missing value: -999 and longer variants are those of WHP-Exchange and open archives. */
const missing = /^(|nan|na|n\/a|null|none|-9{3,7}(\.0*)?)$/i;

/** @returns the number, NaN if the cell marks a missing value, undefined if it is not a number */
export function numberCell(text: string | undefined): number | undefined {
  const trimmed = (text ?? "").trim();
  if (!decimal.test(trimmed)) return missing.test(trimmed) ? Number.NaN : undefined;
  const value = Number(trimmed);
  if (value <= -999 && missing.test(trimmed)) return Number.NaN;
  return Number.isFinite(value) ? value : undefined;
}

/** How to correct a cell that is not a number. */
export function mendNumber(text: string): string {
  return /^[+-]?\d+,\d+$/.test(text.trim())
    ? "Write a point, not a comma, before the decimals."
    : "Write a decimal number, or leave the cell blank where there is none.";
}
