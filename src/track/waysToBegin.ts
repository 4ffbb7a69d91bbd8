// Every state in which one cell may begin, with what earlier cruises taught of it.
import { causes } from "../causes/index.js";
import { goodBeginning } from "../causes/limits.js";
import { asCarried, type Carried } from "../model/carried.js";
import type { Beginning } from "../model/cause.js";
import type { CellEvents, Since } from "../model/eventHistory.js";

interface Way {
  readonly beginning: Beginning;
  readonly events: CellEvents;
}

/**
 * Every state in which a cell may begin. With results of earlier cruises, each state comes twice: for another cell, and for
 * the cell that was seen.
 */
export function waysOf(since: Since, carried: Carried | undefined): readonly Way[] {
  return causes.flatMap(({ beginnings, begun }) => [
    ...(carried === undefined || beginnings.every(({ filmSd }) => filmSd === undefined)
      ? []
      : filmAgain(carried).map((beginning) => ({ beginning, events: begun?.(since) ?? {} }))),
    ...beginnings.flatMap((usual): readonly Way[] => {
      const events = begun?.(since) ?? {};
      if (carried === undefined) return [{ beginning: usual, events }];
      const other = { ...usual, prior: usual.prior * (1 - carried.probability) };
      const noFilm = 1 - (carried.film?.probability ?? 0);
      const same = asCarried({ ...usual, prior: usual.prior * noFilm }, carried);
      return [
        { beginning: other, events },
        // Earlier cruises have measured all that this state is about, so it adds no event: the cell is as it was.
        { beginning: same, events: settles(usual, carried) ? {} : events },
      ];
    }),
  ]);
}

/** The film that the cell ended its last cruise with. */
function filmAgain(carried: Carried): readonly Beginning[] {
  const { film } = carried;
  if (film === undefined) return [];
  const beginning = asCarried({ prior: film.probability, ...goodBeginning }, carried);
  return [{ ...beginning, filmMean: film.mean, filmSd: film.sd }];
}

/** Whether a beginning concerns only clean gain and pressure response, and earlier cruises measured both. */
function settles({ filmSd, offsetSd, thermometerSd }: Beginning, { clean }: Carried): boolean {
  return (
    clean !== undefined &&
    filmSd === undefined &&
    offsetSd === undefined &&
    thermometerSd === goodBeginning.thermometerSd
  );
}
