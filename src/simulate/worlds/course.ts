// How a quantity goes over a cruise: straight between its knots, with steps where two knots share a time.

export interface Course {
  /** Hours since the cruise began, never falling. */
  readonly hours: readonly number[];
  readonly values: readonly number[];
}

/** @returns a function that is fast where it is asked in order of time; before and after the knots the course is level */
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

/** A level that changes by steps, 0 before the first. */
export interface Step {
  readonly from_h: number;
  readonly by: number;
}

export function sumOfSteps(steps: readonly Step[], hour: number): number {
  return steps.reduce((sum, { from_h, by }) => (hour >= from_h ? sum + by : sum), 0);
}
