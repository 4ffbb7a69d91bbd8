// The film on a cell's wall over a cruise: it arrives, grows with exposure, is shed, is cleaned off. A film narrows the
// cell, so the cell reads low by the same ratio everywhere. Here the loss is positive, in ppm.
// Numbers without a source are judgement: the form of the growth curves.
import type { Course } from "./course.js";

/** Growth against exposure. The film reaches `ppm` after `hours` of exposure. */
type GrowthShape = "even" | "accelerating" | "levelling-off";

export type FilmEvent =
  | { readonly kind: "arrives"; readonly at_h: number; readonly ppm: number }
  | {
      readonly kind: "grows";
      readonly at_h: number;
      readonly shape: GrowthShape;
      readonly ppm: number;
      readonly hours: number;
      /** Equivalent of an hour on deck, in hours in the water, 0 to 1. */
      readonly deckShare: number;
    }
  /** Shed or cleaned off. `left` is the share that remains, 0 to 1. */
  | { readonly kind: "lessens"; readonly at_h: number; readonly left: number };

type Growth = Extract<FilmEvent, { kind: "grows" }>;

/** Times in the water: from, to, hours since the start of the cruise. */
type Submerged = readonly (readonly [number, number])[];

/** Spacing of knots, hours. */
const spacing_h = 0.1;

export function filmCourse(
  events: readonly FilmEvent[],
  submerged: Submerged,
  end_h: number,
): Course {
  const pending = [...events].sort((a, b) => a.at_h - b.at_h);
  const times = [
    ...Array.from({ length: Math.ceil(end_h / spacing_h) + 1 }, (_, k) => k * spacing_h),
    ...submerged.flat(),
    ...pending.map(({ at_h }) => at_h),
  ].sort((a, b) => a - b);
  const hours: number[] = [0];
  const values: number[] = [0];
  let growing: { growth: Growth; exposure: number }[] = [];
  let film = 0;
  let now = 0;
  for (const time of times) {
    const inWater = submerged.some(([from, to]) => now >= from && time <= to);
    growing = growing.map(({ growth, exposure }) => {
      const later = exposure + (time - now) * (inWater ? 1 : growth.deckShare);
      film += grown(growth, later) - grown(growth, exposure);
      return { growth, exposure: later };
    });
    now = time;
    hours.push(now);
    values.push(film);
    while (pending.length > 0 && pending[0]!.at_h <= now) {
      const event = pending.shift()!;
      if (event.kind === "arrives") film += event.ppm;
      else if (event.kind === "grows") growing.push({ growth: event, exposure: 0 });
      else {
        film *= event.left;
        // Growth on a cleaned wall starts again.
        if (event.left < 0.5) growing = growing.map(({ growth }) => ({ growth, exposure: 0 }));
      }
      hours.push(now);
      values.push(film);
    }
  }
  return { hours, values };
}

/** ppm after `exposure` hours. */
function grown({ shape, ppm, hours }: Growth, exposure: number): number {
  const share = exposure / hours;
  if (shape === "even") return ppm * share;
  // Three e-foldings each way.
  if (shape === "accelerating") return (ppm * Math.expm1(3 * Math.min(share, 1.2))) / Math.expm1(3);
  return (ppm * Math.expm1(-3 * share)) / Math.expm1(-3);
}
