// What each cell and thermometer of a cruise has, hour by hour: the clean cell's gain, which wanders slowly, films,
// offsets.
import type { CellName } from "../../cast/cast.js";
import type { RandomStream } from "../random.js";
import { type Course, follow, sumOfSteps } from "./course.js";
import { between, betweenLog } from "./draws.js";
import { type FilmEvent, filmCourse } from "./film.js";
import { cleanedAfter, hourAfter } from "./filmWorlds.js";
import { hourOf, type Plan } from "./plan.js";
import type { CellTrouble, Troubles } from "./troubles.js";

/** Functions of the hour since the cruise began. */
export interface CellHistory {
  /** ppm: the clean cell and the film together. */
  readonly gain_ppm: (hour: number) => number;
  /** ppm, 0 or below. */
  readonly film_ppm: (hour: number) => number;
  /** ppm: shifts of the clean cell alone. */
  readonly shift_ppm: (hour: number) => number;
  /** uS/cm and mK beyond what the sensors had when the cruise began. */
  readonly offset_uS_cm: (hour: number) => number;
  readonly thermometer_mK: (hour: number) => number;
}

export function historyOf(
  random: RandomStream,
  plan: Plan,
  troubles: Troubles,
  cell: CellName,
): CellHistory {
  const last = plan.casts.length - 1;
  const end_h = hourAfter(plan, last, 1);
  const own = <T>(some: readonly CellTrouble<T>[]) =>
    some.flatMap((one) => (one.cell === cell ? [one.what] : []));
  const soaks = troubles.soaks.map(
    ({ afterCast, left }): FilmEvent => ({
      kind: "lessens",
      at_h: hourAfter(plan, afterCast, cleanedAfter),
      left,
    }),
  );
  const submerged = plan.casts.map(
    (cast) => [hourOf(cast, cast.journey.wetFrom), hourOf(cast, cast.journey.wetTo)] as const,
  );
  const film = follow(filmCourse([...own(troubles.films), ...soaks], submerged, end_h));
  const clean = follow(cleanCourse(random, end_h));
  const shifts = own(troubles.shifts);
  const offsets = own(troubles.offsets);
  const thermometers = own(troubles.thermometers);
  const shift_ppm = (hour: number) => sumOfSteps(shifts, hour);
  return {
    gain_ppm: (hour) => clean(hour) + shift_ppm(hour) - film(hour),
    film_ppm: (hour) => -film(hour),
    shift_ppm,
    offset_uS_cm: (hour) => sumOfSteps(offsets, hour),
    thermometer_mK: (hour) => sumOfSteps(thermometers, hour),
  };
}

/** What the calibration left, a slow drift, and a walk, ppm. */
function cleanCourse(random: RandomStream, end_h: number): Course {
  const spacing_h = 6;
  const drift = between(random, -2.5, 2.5);
  const walk = betweenLog(random, 0.4, 4) * Math.sqrt(spacing_h / 24);
  let level = 70 * random.normal();
  const hours: number[] = [];
  const values: number[] = [];
  for (let hour = 0; hour <= end_h + spacing_h; hour += spacing_h) {
    hours.push(hour);
    values.push(level);
    level += (drift * spacing_h) / 24 + walk * random.normal();
  }
  return { hours, values };
}
