// Cleanings drawn at random: the reaction of the crew of an invented cruise to a cell. The shares are judgement.
// Numbers without a source are judgement: shares of an invented crew.
import type { CellName } from "../cast/cast.js";
import { between, pick, whole } from "./draws.js";
import type { Cleaning } from "./events.js";
import type { RandomStream } from "./random.js";

/** Three crews in four notice within some casts and clean; most of those with a failed cleaning clean again. */
export function cleanings(draw: RandomStream, from: number, casts: number): readonly Cleaning[] {
  const noticed = draw.uniform() < 0.75;
  const afterCast = from + whole(draw, 0, 3);
  const first = cleaning(draw, afterCast);
  const again = draw.uniform() < 0.7;
  const second = cleaning(draw, afterCast + whole(draw, 1, 3));
  if (!noticed || afterCast >= casts) return [];
  const failed = first.retained > 0.25;
  return failed && again && second.afterCast < casts ? [first, second] : [first];
}

/** Seven in ten work, two half work, one fails. */
function cleaning(draw: RandomStream, afterCast: number): Cleaning {
  const intensity = pick(draw, ["wash", "soak", "soak", "disinfect"] as const);
  const lot = draw.uniform();
  const works = between(draw, 0, 0.1);
  const halfWorks = between(draw, 0.3, 0.7);
  const fails = between(draw, 0.85, 1);
  const retained = lot < 0.7 ? works : lot < 0.9 ? halfWorks : fails;
  return { kind: "cleaning", afterCast, intensity, retained };
}

/** Half of the crews with a badly calibrated cell clean it, without effect. */
export function inVain(draw: RandomStream, cell: CellName, casts: number): readonly Cleaning[] {
  const afterCast = whole(draw, 2, casts - 2);
  if (draw.uniform() < 0.5) return [];
  return [{ ...cleaning(draw, afterCast), cells: [cell] }];
}
