// Stretches of a cast whose levels are free parameters. Only changes inside a stretch count. So a film, which shifts whole
// stretches, is not mistaken for a signal that follows temperature.

/** Fewest values in a stretch, and on each side of a step (judgement). */
export const fewest = 8;
/** A step must reduce chi squared by this (judgement: 5.5 standard deviations, because every place is tried). */
const stepGain = 30;

/** Start of each stretch; it ends where the next begins, the last with the series. */
export type Segments = readonly number[];

/** @param stretch least length, in the unit of the pressure */
export function segmentsOf(pressure: Float64Array, stretch: number): Segments {
  const starts = [0];
  let from = pressure[0]!;
  for (let i = 1; i < pressure.length; i++) {
    if (pressure[i]! - from >= stretch && pressure.length - i >= fewest) {
      starts.push(i);
      from = pressure[i]!;
    }
  }
  return starts;
}

/** The values minus the weighted mean of their stretch. */
export function withoutLevels(
  values: Float64Array,
  weight: Float64Array,
  stretches: Segments,
): Float64Array {
  const left = new Float64Array(values.length);
  for (let s = 0; s < stretches.length; s++) {
    const from = stretches[s]!;
    const to = stretches[s + 1] ?? values.length;
    let total = 0;
    let sum = 0;
    for (let i = from; i < to; i++) {
      total += weight[i]!;
      sum += weight[i]! * values[i]!;
    }
    const level = total > 0 ? sum / total : 0;
    for (let i = from; i < to; i++) left[i] = values[i]! - level;
  }
  return left;
}

/** Weighted sum of squares about the levels of the stretches. */
export function sumOfSquaresWithin(
  values: Float64Array,
  weight: Float64Array,
  stretches: Segments,
): number {
  let square = 0;
  for (let s = 0; s < stretches.length; s++) {
    const from = stretches[s]!;
    const to = stretches[s + 1] ?? values.length;
    // Relative to one of the values rather than to zero, so that no digits are lost.
    const origin = values[from]!;
    let total = 0;
    let sum = 0;
    let squares = 0;
    for (let i = from; i < to; i++) {
      const away = values[i]! - origin;
      const weighted = weight[i]! * away;
      total += weight[i]!;
      sum += weighted;
      squares += weighted * away;
    }
    if (total > 0) square += squares - (sum * sum) / total;
  }
  return square;
}

/** Divide each stretch with two levels at the best place. */
export function dividedAtSteps(
  stretches: Segments,
  values: Float64Array,
  weight: Float64Array,
): Segments {
  const found: number[] = [];
  for (let s = 0; s < stretches.length; s++) {
    const from = stretches[s]!;
    const to = stretches[s + 1] ?? values.length;
    found.push(from);
    let total = 0;
    let sum = 0;
    for (let i = from; i < to; i++) {
      total += weight[i]!;
      sum += weight[i]! * values[i]!;
    }
    let at = 0;
    let most = stepGain;
    let above = 0;
    let sumAbove = 0;
    for (let i = from; i < to - fewest; i++) {
      above += weight[i]!;
      sumAbove += weight[i]! * values[i]!;
      if (i - from + 1 < fewest || above === 0 || above === total) continue;
      const gain = (sumAbove - (above * sum) / total) ** 2 / (above * (1 - above / total));
      if (gain > most) {
        most = gain;
        at = i + 1;
      }
    }
    if (at > 0) found.push(at);
  }
  return found;
}
