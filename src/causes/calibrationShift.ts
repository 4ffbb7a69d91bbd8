// Calibration shift: the cell reads wrong by a factor that is the same in all water, of either sign, and
// cleaning does not move it: an old or mistaken calibration, a worn cell, damaged electrodes.
import type { CellName } from "../cast/cast.js";
import type { Cause, Proposal, ProposalContext } from "../model/cause.js";
import { cellStory, retold, type Story } from "../model/story.js";
import { alike } from "./alike.js";

type Coefficients = Proposal["coefficients"];

/** Two healthy cells commonly differ by 0.003 to 0.007 in salinity, 80 to 180 ppm [CalCOFI2016]. */
const shiftSd_ppm = 130;
/** A good calibration holds, ppm; as cells that begin sound. */
const goodSd_ppm = 20;
/**
 * A shift in mid-cruise is rare beside a film; now and then both cells shift at once, alike where their coefficients were
 * entered anew, each by its own where they had a knock; and a cell that was off is now and then put right without a word
 * in the record (judgement).
 */
const chance = { one: 0.003, bothAlike: 0.0002, bothByTheirOwn: 0.0002, putRight: 0.002 };

export const calibrationShift: Cause = {
  name: "calibration-shift",
  mendedByCleaning: false,
  beginnings: [{ prior: 0.28, cleanSd: shiftSd_ppm, pressureSd: 8 }],
  propose: (context) => {
    const { cells, castsSinceEvidence: casts, story } = context;
    const off = cells.filter((cell) => cellStory(story, cell).shifted !== undefined);
    const shift = (shifted: readonly CellName[], often: number, coefficients: Coefficients) => ({
      prior: often * casts,
      coefficients,
      story: toldOf(context, shifted),
    });
    const own = cells.map((cell) => alike([cell], ["clean"], { sd: shiftSd_ppm }));
    return [
      ...cells.map((cell, i) => shift([cell], chance.one, own[i]!)),
      ...(cells.length > 1
        ? [
            shift(cells, chance.bothAlike, alike(cells, ["clean"], { sd: shiftSd_ppm })),
            shift(cells, chance.bothByTheirOwn, own.flat()),
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

function toldOf({ cast, story }: ProposalContext, cells: readonly CellName[]): Story {
  const shifted = { cast, when: "before" } as const;
  return cells.reduce(
    (told, cell) => retold(told, cell, { ...cellStory(told, cell), shifted }),
    story,
  );
}
