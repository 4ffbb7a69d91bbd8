// Calibration shift: the cell reads wrong by a factor that is the same in all water, of either sign, and
// cleaning does not move it: an old or mistaken calibration, a worn cell, damaged electrodes.
import type { CellName } from "../cast/cast.js";
import type { Cause, Proposal, ProposalContext } from "../model/cause.js";
import { cellStory, retold, type Story, withEvent } from "../model/story.js";
import { mixtureBeyond } from "../statistics/mixture.js";
import { alike } from "./alike.js";
import { goodBeginning, goodClean_ppm, leastCleanGain_ppm } from "./limits.js";
import { capital, onset, resting } from "./sentences.js";

type Coefficients = Proposal["coefficients"];

/** Two healthy cells commonly differ by 0.003 to 0.007 in salinity, 80 to 180 ppm [CalCOFI2016]. */
const shiftSd_ppm = 130;
/**
 * A shift in mid-cruise is rare beside a film; now and then both cells shift at once, alike where their coefficients were
 * entered anew, each by its own where they had a knock; and a cell that was off is now and then put right without a word
 * in the record (judgement).
 */
const chance = { one: 0.003, bothAlike: 0.0002, bothByTheirOwn: 0.0002, putRight: 0.002 };

/** Its name in the story of a cell. */
const name = "calibration-shift";

export const calibrationShift: Cause<"calibration-shift"> = {
  name,
  mendedByCleaning: false,
  passesByItself: false,
  leftAndCorrected: true,
  // More than a quarter of the cells that come aboard have an old calibration (judgement).
  beginnings: [{ prior: 0.28, bothAlike: 0.06, ...goodBeginning, cleanSd: shiftSd_ppm }],
  begun: (since) => withEvent({}, name, since),
  propose: (context) => {
    const { cells, castsSinceEvidence: casts, story } = context;
    const off = cells.filter((cell) => cellStory(story, cell).events?.[name] !== undefined);
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
        afresh: { cell, sd: goodClean_ppm },
        story: toldOf(context, [cell]),
      })),
    ];
  },
  names: ({ mean, standardDeviation }) => {
    const variance = standardDeviation("clean") ** 2;
    return mixtureBeyond([{ weight: 1, mean: mean("clean"), variance }], leastCleanGain_ppm) > 0.5;
  },
  since: ({ events }) => {
    const since = events?.[name];
    return since?.when === "before" ? { kind: "step", since } : undefined;
  },
  sentence: (grounds) => {
    const { change, earlier } = grounds;
    const seen = earlier.length + 1;
    const casts = `${seen} ${seen === 1 ? "cast" : "casts"}`;
    const when = onset(change, earlier);
    const course =
      change.kind === "none"
        ? `Steady over the ${casts} so far, like an old calibration.`
        : `${when === undefined ? "" : `${capital(when)}. `}Cleaning would not change it.`;
    return `The cell is off even when clean. ${course} ${resting(grounds)}`;
  },
  action:
    "Rinse the cell as usual. Do not clean for it. Correct it against bottles and send it for calibration. If that cannot wait, fit the spare.",
};

function toldOf({ cast, story }: ProposalContext, cells: readonly CellName[]): Story {
  const shifted = { cast, when: "before" } as const;
  return cells.reduce(
    (told, cell) => retold(told, cell, withEvent(cellStory(told, cell), name, shifted)),
    story,
  );
}
