// Volumes that a person can read on a syringe or a cylinder.

/** Up to this volume, ml, there are marks of this size, ml (common practice, no source). */
const marks: readonly (readonly [below_ml: number, mark_ml: number])[] = [
  [1, 0.01],
  [10, 0.1],
  [25, 0.5],
  [100, 1],
  [1000, 5],
  [Number.POSITIVE_INFINITY, 10],
];

export type Rounding = "up" | "down" | "nearest";

const roundings: Readonly<Record<Rounding, (marks: number) => number>> = {
  // Rounding errors, far below any scale, are ignored (judgement).
  up: (count) => Math.ceil(count - 1e-9),
  down: (count) => Math.floor(count + 1e-9),
  nearest: Math.round,
};

/** Round to the marks of a syringe or cylinder of suitable size: within 10 % from 0.1 ml on. */
export function measurable_ml(ml: number, rounding: Rounding): number {
  const [, mark] = marks.find(([below]) => ml < below)!;
  // Two digits, so that 0.1 x 3 gives 0.3.
  return Number((roundings[rounding](ml / mark) * mark).toFixed(2));
}
