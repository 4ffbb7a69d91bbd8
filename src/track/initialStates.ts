// Every initial state of one cell, with its prior from earlier cruises.
import { causes } from "../causes/index.js";
import { goodCalibration } from "../causes/limits.js";
import type { InitialState } from "../model/cause.js";
import { type CellPrior, withCellPrior } from "../model/cellPrior.js";
import type { CellEvents, Since } from "../model/eventHistory.js";

interface BranchStart {
  readonly initialState: InitialState;
  readonly events: CellEvents;
}

/**
 * Every initial state of a cell. With results of earlier cruises each state occurs twice: for an unknown cell, and for the
 * cell of those cruises.
 */
export function initialStatesOf(
  since: Since,
  cellPrior: CellPrior | undefined,
): readonly BranchStart[] {
  return causes.flatMap(({ initialStates = [], initialEvents }) => [
    ...(cellPrior === undefined || initialStates.every(({ filmSd }) => filmSd === undefined)
      ? []
      : filmOfLastCruise(cellPrior).map((initialState) => ({
          initialState,
          events: initialEvents?.(since) ?? {},
        }))),
    ...initialStates.flatMap((usual): readonly BranchStart[] => {
      const events = initialEvents?.(since) ?? {};
      if (cellPrior === undefined) return [{ initialState: usual, events }];
      const other = { ...usual, prior: usual.prior * (1 - cellPrior.probability) };
      const noFilm = 1 - (cellPrior.film?.probability ?? 0);
      const same = withCellPrior({ ...usual, prior: usual.prior * noFilm }, cellPrior);
      return [
        { initialState: other, events },
        // Earlier cruises measured everything that this state assumes, so it adds no event.
        { initialState: same, events: isMeasured(usual, cellPrior) ? {} : events },
      ];
    }),
  ]);
}

/** The initial state with the film that the cell had at the end of its last cruise. */
function filmOfLastCruise(cellPrior: CellPrior): readonly InitialState[] {
  const { film } = cellPrior;
  if (film === undefined) return [];
  const initialState = withCellPrior({ prior: film.probability, ...goodCalibration }, cellPrior);
  return [{ ...initialState, filmMean: film.mean, filmSd: film.sd }];
}

/** Whether an initial state concerns only clean gain and pressure response, and earlier cruises measured both. */
function isMeasured(
  { filmSd, offsetSd, thermometerSd }: InitialState,
  { clean }: CellPrior,
): boolean {
  return (
    clean !== undefined &&
    filmSd === undefined &&
    offsetSd === undefined &&
    thermometerSd === goodCalibration.thermometerSd
  );
}
