// One advice for all cells of the package, with the cleaning of each.
import { intensityNames } from "../../cast/maintenance.js";
import type { Advice } from "./advice.js";
import { named, renamed, usualRinse } from "./wording.js";

/**
 * The hardest cleaning that a cell needs, with its steps and cells; the other cells follow. Cells with the same intensity
 * are cleaned at the same time, so the minutes are those of one.
 * @param advices one for each cell, at least one
 */
export function adviceForAll(advices: readonly Advice[]): Advice {
  const sorted = advices.toSorted(hardestFirst);
  const [first] = sorted;
  if (first === undefined) throw new RangeError("there is no advice without a cell");
  const alike = sorted.filter(({ intensity }) => intensity === first.intensity);
  const lighter = sorted.filter(({ intensity }) => intensity !== first.intensity);
  const cells = advices.flatMap((advice) => (alike.includes(advice) ? advice.cells : []));
  const forAll = (sentence: string, own: Advice) => renamed(sentence, own.cells, cells);
  return {
    ...first,
    cells,
    action: union([
      alike.map((own) => (alike.every(sameAction(first)) ? forAll(own.action, own) : own.action)),
      lighter.map(({ action }) => action),
    ]).join(" "),
    steps: [
      ...first.steps.map((step) => forAll(step, first)),
      ...lighter.flatMap((own) =>
        own.intensity === "rinse" ? [named(own.cells, usualRinse)] : own.steps,
      ),
    ],
    materials: union(sorted.map(({ materials }) => materials)),
    solutions: [
      ...first.solutions.map((one) => ({
        ...one,
        cells,
        volume_ml: one.volume_ml * cells.length,
      })),
      ...lighter.flatMap(({ solutions }) => solutions),
    ],
    cautions: union(sorted.map(({ cautions }) => cautions)),
    because: sorted.map(({ because }) => because).join(" "),
    sensitivity: sorted.flatMap(({ sensitivity }) => sensitivity),
  };
}

/** Whether the advice for two cells is identical. */
function sameAction(a: Advice): (b: Advice) => boolean {
  return (b) => renamed(b.action, b.cells, a.cells) === a.action;
}

function union(lists: readonly (readonly string[])[]): readonly string[] {
  return [...new Set(lists.flat())];
}

/** For equal intensity, the cell with the less certain outcome comes first. */
function hardestFirst(a: Advice, b: Advice): number {
  const harder = intensityNames.indexOf(b.intensity) - intensityNames.indexOf(a.intensity);
  return harder === 0
    ? a.expectedResidual.probabilityWithinTarget - b.expectedResidual.probabilityWithinTarget
    : harder;
}
