// Readings in air: the additive offset of a cell, not its gain. A narrowed cell reads zero in air, so the line has no
// information about a film. It observes a conducting path outside the bore, or a wrong zero of the electronics. Water left
// in a cell conducts too: 0.1 um of sea water on the wall of a bore of 4 mm is 4 uS/cm (2 d/r of 40 mS/cm). Water can only
// increase a reading. So the uncertainty of a reading depends on the treatment of the cell, and grows with the reading. The
// part above the lowest reading of the same cast is attributed to water.
import type { Cast, CellName } from "../../cast/cast.js";
import type { LineResult, Observation } from "../../model/observation.js";
import {
  type AirReading,
  airReadings,
  type DeckReadings,
  deckReadings,
  type EntriesAround,
  uS,
} from "./airReadings.js";

/** Uncertainty of the zero of a cell's electronics and calibration, uS/cm (judgement). */
const zero_uS_cm = 0.5;
/**
 * Possible contribution of water, by the known treatment of the cell: the usual, uS/cm, and a share of the reading above
 * zero, because a cell that was not drained may be stored full of rinse water (judgement).
 */
const water = {
  neither: { usual_uS_cm: 3, share: 1 },
  rinsed: { usual_uS_cm: 0.5, share: 1 },
  "rinsed and drained": { usual_uS_cm: 0.15, share: 0.1 },
} as const;
/**
 * Residual water repeats from cast to cast, because a cell is rinsed and drained by the same people after every cast. But
 * observations have independent errors, so the variance is multiplied by this number of casts (judgement).
 */
const alikeCasts = 10;
/** Readings larger than this are reported, uS/cm: 25 ppm at 40 mS/cm, half of the accuracy of 0.002. */
const worthTelling_uS_cm = 1;

/**
 * The additive offset of a cell on one cast: one observation for each reading, in uS/cm and its square.
 * @param cast absent if only the record is available
 */
export function airZeroEvidence(
  castId: string,
  cell: CellName,
  cast: Cast | undefined,
  entries: EntriesAround,
): LineResult {
  return airZeroOf(castId, cell, cast && deckReadings(cell, cast), entries);
}

/** The same from the readings of the scans on deck. */
export function airZeroOf(
  castId: string,
  cell: CellName,
  deck: DeckReadings | undefined,
  entries: EntriesAround,
): LineResult {
  const { readings, leftOut, notes: seen } = airReadings(cell, deck, entries);
  const lowest = Math.min(...readings.map(({ level }) => level));
  const observations = readings.map(({ level, noise, done }): Observation => {
    const { usual_uS_cm, share } = water[done];
    const doubt = Math.max(
      Math.sqrt(alikeCasts) * Math.max(usual_uS_cm, share * level),
      level - lowest,
    );
    return {
      line: "air-zero",
      cast: castId,
      design: [{ slot: { cell, slot: "offset" }, weight: 1 }],
      unit: "uS/cm",
      value: level,
      variance: zero_uS_cm ** 2 + noise ** 2 + doubt ** 2,
      pressure_dbar: 0,
    };
  });
  const notes = [...seen, ...readings.flatMap((reading) => inWords(reading, lowest))];
  if (readings.length === 0 && leftOut.length === 0) notes.push("no reading in air");
  return { line: "air-zero", cast: castId, cell, observations, leftOut, notes };
}

/** The meaning of a reading that is not zero, and the action. */
function inWords({ what, level, done }: AirReading, lowest: number): readonly string[] {
  if (level < -worthTelling_uS_cm) {
    return [
      `${what}: ${uS(level)}. Water cannot read below zero: the zero of the electronics or of the calibration is off`,
    ];
  }
  if (level <= worthTelling_uS_cm) return [];
  if (level - lowest > worthTelling_uS_cm) {
    return [
      `${what}: ${uS(level)}, ${uS(level - lowest)} above the lowest of this cast. Water or residue is in the cell. Rinse it, drain it, blow it out gently and read again`,
    ];
  }
  return [
    done === "rinsed and drained"
      ? `${what}: ${uS(level)} in a cell rinsed and drained. A path outside the cell conducts, or the zero has shifted`
      : `${what}: ${uS(level)}, an offset or water in the cell. Rinse the cell, drain it, blow it out gently and read again to find out which`,
  ];
}
