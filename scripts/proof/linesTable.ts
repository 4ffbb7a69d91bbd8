// What a line of evidence came to over many casts, as a row of a table.

/** What one cast came to, in the unit of the line. */
export interface Found {
  readonly error: number;
  readonly standardUncertainty: number;
  /** Variance. */
  readonly bound: number;
}

export const tableHead =
  `${" ".repeat(36)}${"casts".padStart(11)}${"bias".padStart(15)}${"sd".padStart(8)}${"stated".padStart(8)}` +
  `${"rms z".padStart(8)}${"in 95 %".padStart(8)}${"bound".padStart(8)}${"efficiency".padStart(12)}`;

const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;

export function tableRow(name: string, casts: number, found: readonly Found[]): string {
  const of = `${found.length} of ${casts}`.padStart(11);
  if (found.length < 3) return `  ${name.padEnd(34)}${of}`;
  const errors = found.map(({ error }) => error);
  const bias = mean(errors);
  const variance = mean(errors.map((e) => (e - bias) ** 2)) * (errors.length / (errors.length - 1));
  const z = found.map((one) => one.error / one.standardUncertainty);
  const least = mean(found.map(({ bound }) => bound));
  const stated = Math.sqrt(mean(found.map((one) => one.standardUncertainty ** 2)));
  const figures = [
    `${bias.toFixed(2)} ± ${Math.sqrt(variance / errors.length).toFixed(2)}`.padStart(15),
    Math.sqrt(variance).toFixed(2).padStart(8),
    stated.toFixed(2).padStart(8),
    Math.sqrt(mean(z.map((v) => v * v)))
      .toFixed(2)
      .padStart(8),
    `${(100 * mean(z.map((v) => (Math.abs(v) < 1.96 ? 1 : 0)))).toFixed(0)} %`.padStart(8),
    Math.sqrt(least).toFixed(2).padStart(8),
    (least / variance).toFixed(2).padStart(12),
  ];
  return `  ${name.padEnd(34)}${of}${figures.join("")}`;
}
