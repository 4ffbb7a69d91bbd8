// A quantity as a function of time: linear between knots, a step where two knots share a time.

export interface Course {
  /** Hours since the start of the cruise, in order. */
  readonly hours: readonly number[];
  readonly values: readonly number[];
}

/** @returns the interpolating function, constant outside the knots; fast when called in order of time */
export function follow({ hours, values }: Course): (hour: number) => number {
  const last = hours.length - 1;
  let k = 0;
  return (hour) => {
    if (hour < hours[k]!) k = 0;
    while (k < last && hours[k + 1]! <= hour) k++;
    if (k === last || hour <= hours[k]!) return values[k]!;
    const share = (hour - hours[k]!) / (hours[k + 1]! - hours[k]!);
    return values[k]! + share * (values[k + 1]! - values[k]!);
  };
}

/** One step of a quantity that is 0 before its first step. */
export interface StepChange {
  readonly from_h: number;
  readonly by: number;
}

export function sumOfSteps(steps: readonly StepChange[], hour: number): number {
  return steps.reduce((sum, { from_h, by }) => (hour >= from_h ? sum + by : sum), 0);
}
