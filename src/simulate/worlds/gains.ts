// The errors of each cell and thermometer as functions of time: clean gain, film, shifts, offsets.
// Numbers without a source are judgement: from cells with an almost constant clean gain to cells that drift.
import type { CellName } from "../../cast/cast.js";
import type { RandomStream } from "../random.js";
import { type Course, follow, sumOfSteps } from "./course.js";
import { between, betweenLog } from "./draws.js";
import { type FilmEvent, filmCourse } from "./film.js";
import { cleanedAfter, hourAfter } from "./filmWorlds.js";
import { hourOf, type Plan } from "./plan.js";
import type { CellTrouble, Troubles } from "./troubles.js";

/** Functions of hours since the start of the cruise. */
export interface CellHistory {
  /** Clean gain and film together, ppm. */
  readonly gain_ppm: (hour: number) => number;
  /** The film's part, ppm; 0 or below. */
  readonly film_ppm: (hour: number) => number;
  /** Steps of the clean gain alone, ppm. */
  readonly shift_ppm: (hour: number) => number;
  /** Steps beyond the errors that the sensors had at the start of the cruise. */
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

/** Calibration residual, slow drift and random walk of the clean gain, ppm. */
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
