// Some of the scans of a column.

/** The values of the column at these scans; a view of the column if they are in one run, as they nearly always are. */
export function pick(column: Float64Array, scans: Uint32Array): Float64Array {
  if (isOneRun(scans)) return column.subarray(scans[0] ?? 0, (scans.at(-1) ?? -1) + 1);
  const own = new Float64Array(scans.length);
  for (let k = 0; k < scans.length; k++) own[k] = column[scans[k]!]!;
  return own;
}

/** Whether these scans follow each other without a gap. */
export function isOneRun(scans: Uint32Array): boolean {
  return (scans.at(-1) ?? -1) - (scans[0] ?? 0) === scans.length - 1;
}
