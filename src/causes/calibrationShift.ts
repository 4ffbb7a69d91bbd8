// Calibration shift: the cell reads wrong by the same factor in all water, with either sign, and cleaning does not change
// it. Reasons: an old or mistaken calibration, a worn cell, damaged electrodes.
import type { CellName } from "../cast/cast.js";
import type { Cause, Proposal, ProposalContext } from "../model/cause.js";
import {
  cellEvents,
  type EventHistory,
  type Since,
  withCellEvents,
  withEvent,
} from "../model/eventHistory.js";
import { mostlyBeyond } from "../statistics/mixture.js";
import { drifts } from "./calibrationDrift.js";
import { commonEvent } from "./commonEvent.js";
import { onsetOfStep } from "./lastingStep.js";
import { goodCalibration, goodClean_ppm, leastCleanGain_ppm } from "./limits.js";
import { onsetPlaces } from "./onsetPlaces.js";
import { evidenceSentence, reportedOnset } from "./sentences.js";

type Coefficients = Proposal["coefficients"];

/** Two healthy cells commonly differ by 0.003 to 0.007 in salinity, 80 to 180 ppm [CalCOFI2016]. */
const shiftSd_ppm = 130;
/** Sizes of a shift in mid-cruise: a new calibration, or damage by a knock, which may be large (shares and second: judgement). */
const shiftSizes = [
  { sd: shiftSd_ppm, share: 0.6 },
  { sd: 600, share: 0.4 },
];
/**
 * Probabilities per cast (judgement). A shift in mid-cruise is rarer than a film, and rarer still within a cast. Sometimes
 * both cells shift at once: alike if their coefficients were entered anew, independently if both had a knock. Sometimes a
 * cell that was off is corrected without an entry in the record, and more often a fouled one is exchanged.
 */
const chance = {
  one: 0.003,
  within: 0.001,
  bothTogether: 0.0002,
  bothIndependent: 0.0002,
  corrected: 0.0005,
  exchanged: 0.002,
};

/** Its name in the event history of a cell. */
const name = "calibration-shift";

export const calibrationShift: Cause<"calibration-shift"> = {
  name,
  isCorrectedOnly: true,
  // More than a quarter of the cells that come aboard have an old calibration (judgement).
  initialStates: [{ prior: 0.28, priorOfBoth: 0.06, ...goodCalibration, cleanSd: shiftSd_ppm }],
  initialEvents: (since) => withEvent({}, name, since),
  propose: (context) => {
    const { cells, castsSinceEvidence: casts, events } = context;
    const off = cells.filter((cell) => {
      const { film, drift, onsetByCause } = cellEvents(events, cell);
      return film !== undefined || drift !== undefined || onsetByCause?.[name] !== undefined;
    });
    const shift = (shifted: readonly CellName[], often: number, coefficients: Coefficients) => ({
      prior: often * casts,
      coefficients,
      events: withShift(context.events, shifted, { cast: context.cast, when: "before" }),
    });
    const own = cells.map((cell) => commonEvent([cell], { clean: 1 }, { sd: shiftSd_ppm }));
    return [
      ...cells.flatMap((cell) =>
        shiftSizes.map(({ sd, share }) =>
          shift([cell], chance.one * share, commonEvent([cell], { clean: 1 }, { sd })),
        ),
      ),
      ...cells.flatMap((cell) => within(context, cell)),
      ...drifts(context),
      ...(cells.length > 1
        ? [
            shift(
              cells,
              chance.bothTogether,
              commonEvent(cells, { clean: 1 }, { sd: shiftSd_ppm }),
            ),
            shift(cells, chance.bothIndependent, own.flat()),
          ]
        : []),
      ...off.map((cell) => ({
        prior: (isFouled(events, cell) ? chance.exchanged : chance.corrected) * casts,
        coefficients: [],
        redrawnClean: { cell, sd: goodClean_ppm },
        ...(isFouled(events, cell) ? { shed: exchanged(cell) } : {}),
        events: withShift(asNew(events, cell), [cell], {
          cast: context.cast,
          when: "before",
        }),
      })),
    ];
  },
  matches: ({ mean, standardDeviation }) =>
    mostlyBeyond(mean("clean"), standardDeviation("clean") ** 2, leastCleanGain_ppm),
  since: (events) =>
    events.drift === undefined ? onsetOfStep(events, name) : { kind: "drift", since: events.drift },
  sentence: (grounds) => {
    const { change, earlier } = grounds;
    const seen = earlier.length + 1;
    const casts = `${seen} ${seen === 1 ? "cast" : "casts"}`;
    const when = reportedOnset(change, earlier);
    const course =
      change.kind === "none"
        ? `Steady over the ${casts} so far, like an old calibration.`
        : change.kind === "drift"
          ? "It drifts from cast to cast. Cleaning would not change it."
          : `${when === undefined ? "" : `The shift is ${when}. `}Cleaning would not change it.`;
    return `The cell is off even when clean. ${course} ${evidenceSentence(grounds)}`;
  },
  action:
    "More cleaning does not help. Correct it against bottles and send it for calibration. If that cannot wait, fit the spare.",
};

/** The cell still read as before at the start of the down leg, so the shift is subtracted there. */
function within(context: ProposalContext, cell: CellName): readonly Proposal[] {
  const shift = [
    { cell, slot: "clean", weight: 1 },
    { cell, slot: "filmDown", weight: -1 },
  ] as const;
  return onsetPlaces(context, [cell], "within").map(({ since, places, probability }) => ({
    prior: chance.within * probability,
    coefficients: [{ acts: shift, sd: shiftSd_ppm }],
    ...(places === undefined ? {} : { places }),
    events: withShift(context.events, [cell], since),
  }));
}

function isFouled(events: EventHistory, cell: CellName): boolean {
  return cellEvents(events, cell).film !== undefined;
}

/** Nothing of the film stays. */
function exchanged(cell: CellName): NonNullable<Proposal["shed"]> {
  return { cells: [cell], when: "before", retained: { mean: 0, sd: 0 } };
}

function asNew(events: EventHistory, cell: CellName): EventHistory {
  const { drift, film, ...others } = cellEvents(events, cell);
  return drift === undefined && film === undefined ? events : withCellEvents(events, cell, others);
}

function withShift(history: EventHistory, cells: readonly CellName[], since: Since): EventHistory {
  return cells.reduce(
    (all, cell) => withCellEvents(all, cell, withEvent(cellEvents(all, cell), name, since)),
    history,
  );
}
