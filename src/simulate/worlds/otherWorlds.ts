// Worlds without a film: faults of electronics, thermometers, lag, the laboratory, the sea; and one with several at once.
// Numbers without a source are judgement: events, times and sizes, drawn widely so that no detector can be tuned to them.
import type { RandomStream } from "../random.js";
import { between, betweenLog, eitherSign, happens, oneOf, wholeBetween } from "./draws.js";
import {
  castIn,
  filmBothCells,
  filmGrowing,
  filmInTheSoak,
  filmNoSoakMoves,
  filmStep,
  hourAfter,
  type MakeTroubles,
  shiftedCalibration,
  transient,
} from "./filmWorlds.js";
import { together } from "./troubles.js";

/** The thermal lag of one cell has 3 to 5 times its usual amplitude, from the first cast or a later one. */
export const slowCell: MakeTroubles = (random, plan) => ({
  slow: [
    {
      cell: oneOf(random, plan.cells),
      what: {
        fromCast: happens(random, 0.6) ? 0 : castIn(random, plan, 0.25, 0.6),
        factor: between(random, 3, 5),
      },
    },
  ],
});

/** The up leg of most casts goes through other water, with vertical wavelengths of 15 to 120 dbar. */
export const otherWaterUp: MakeTroubles = (random, plan) => ({
  otherWater: plan.casts.flatMap((_, i) => (happens(random, 0.8) ? [i] : [])),
});

/** The samples of one cast are 0.005 to 0.1 too fresh, each by a different amount. */
export const spoiltSamples: MakeTroubles = (random, plan) => ({
  spoilt: [{ cast: castIn(random, plan, 0.2, 0.85), fresh: [0.005, 0.1] }],
});

/** One cast has the salinities of an earlier one. */
export const copiedSamples: MakeTroubles = (random, plan) => {
  const to = Math.max(1, castIn(random, plan, 0.25, 0.9));
  return { copies: [{ to, from: wholeBetween(random, Math.max(0, to - 4), to - 1) }] };
};

/** An additive offset of 2 to 10 uS/cm appears. */
export const offset: MakeTroubles = (random, plan) => ({
  offsets: [
    {
      cell: oneOf(random, plan.cells),
      what: {
        from_h: hourAfter(plan, castIn(random, plan, 0.15, 0.7), 0.5),
        by: eitherSign(random) * betweenLog(random, 2, 10),
      },
    },
  ],
});

/** A thermometer is off by 2 to 10 mK from some cast on. */
export const thermometer: MakeTroubles = (random, plan) => ({
  thermometers: [
    {
      cell: oneOf(random, plan.cells),
      what: {
        from_h: hourAfter(plan, castIn(random, plan, 0.15, 0.7), 0.5),
        by: eitherSign(random) * betweenLog(random, 2, 10),
      },
    },
  ],
});

/** Four at once, and a record with mistakes. */
export const everything: MakeTroubles = (random, plan) => {
  const all = [
    filmGrowing,
    plan.cells.length > 1 ? filmBothCells : filmGrowing,
    filmNoSoakMoves,
    filmInTheSoak,
    filmStep,
    transient,
    shiftedCalibration,
    slowCell,
    otherWaterUp,
    spoiltSamples,
    copiedSamples,
    offset,
    thermometer,
  ];
  const chosen = shuffled(random, all).slice(0, 4);
  return { ...together(chosen.map((make, k) => make(random.split(k), plan))), slips: 0.15 };
};

function shuffled<T>(random: RandomStream, some: readonly T[]): readonly T[] {
  return some
    .map((one) => ({ one, order: random.uniform() }))
    .sort((a, b) => a.order - b.order)
    .map(({ one }) => one);
}
