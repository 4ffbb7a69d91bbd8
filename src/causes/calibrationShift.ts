// Calibration shift: the cell reads wrong by a factor that is the same in all water, of either sign, and
// cleaning does not move it: an old or mistaken calibration, a worn cell, damaged electrodes.
import type { CellName } from "../cast/cast.js";
import { cellStory, retold, type Story } from "../track/story.js";
import type { Cause, Coefficient, ProposalContext } from "./cause.js";

/** Two healthy cells commonly differ by 0.003 to 0.007 in salinity, 80 to 180 ppm [CalCOFI2016]. */
const shiftSd_ppm = 130;
/** A good calibration holds, ppm; as cells that begin sound. */
const goodSd_ppm = 20;
/**
 * A shift in mid-cruise is rare beside a film; what is done to one cell is now and then done to both, a knock, or
 * coefficients entered anew; and a cell that was off is now and then put right without a word in the record (judgement).
 */
const chance = { one: 0.003, both: 0.0003, putRight: 0.002 };

export const calibrationShift: Cause = {
  name: "calibration-shift",
  mendedByCleaning: false,
  beginnings: [{ prior: 0.28, cleanSd: shiftSd_ppm, pressureSd: 8 }],
  propose: (context) => {
    const { cells, castsSinceEvidence: casts, story } = context;
    const off = cells.filter((cell) => cellStory(story, cell).shifted !== undefined);
    return [
      ...cells.map((cell) => ({
        prior: chance.one * casts,
        coefficients: [shift(cell)],
        story: toldOf(context, [cell]),
      })),
      ...(cells.length > 1
        ? [
            {
              prior: chance.both * casts,
              coefficients: cells.map(shift),
              story: toldOf(context, cells),
            },
          ]
        : []),
      ...off.map((cell) => ({
        prior: chance.putRight * casts,
        coefficients: [],
        afresh: { cell, sd: goodSd_ppm },
        story: toldOf(context, [cell]),
      })),
    ];
  },
};

function shift(cell: CellName): Coefficient {
  return { acts: [{ cell, slot: "clean", weight: 1 }], sd: shiftSd_ppm };
}

function toldOf({ cast, story }: ProposalContext, cells: readonly CellName[]): Story {
  const shifted = { cast, when: "before" } as const;
  return cells.reduce(
    (told, cell) => retold(told, cell, { ...cellStory(told, cell), shifted }),
    story,
  );
}
