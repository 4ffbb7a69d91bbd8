// Worlds of a coated or shifted cell. Each function draws the events, their times and their sizes.
// Numbers without a source are judgement: events, times and sizes, drawn widely so that no detector can be tuned to them.
import type { RandomStream } from "../random.js";
import { between, betweenLog, eitherSign, happens, oneOf, wholeBetween } from "./draws.js";
import type { FilmEvent } from "./film.js";
import { hourOf, type Plan } from "./plan.js";
import type { Troubles } from "./troubles.js";

export type MakeTroubles = (random: RandomStream, plan: Plan) => Partial<Troubles>;

/** Loss by a film, ppm: from just above the target of 0.002 in salinity (51 ppm) to 0.02. */
const film_ppm = [60, 500] as const;

/** Index of a cast in a part of the cruise; `from` and `to` are shares of it, 0 to 1. */
export function castIn(random: RandomStream, { casts }: Plan, from: number, to: number): number {
  return Math.min(casts.length - 1, Math.floor(casts.length * between(random, from, to)));
}

/** Hour at this share of the time between a cast and the next. */
export function hourAfter({ casts }: Plan, cast: number, share: number): number {
  const here = casts[cast]!;
  const ends = hourOf(here, here.journey.pressure.length);
  const next = casts[cast + 1]?.began_h ?? ends + 4;
  return ends + share * (next - ends);
}

/** Cleaning comes at this share of the time between casts. */
export const cleanedAfter = 0.3;

function later(plan: Plan, cast: number, by: number): number {
  return Math.min(plan.casts.length - 1, cast + by);
}

function growth(random: RandomStream, plan: Plan): FilmEvent {
  const at_h = plan.casts[castIn(random, plan, 0, 0.4)]!.began_h + between(random, 0.1, 3);
  const end_h = hourAfter(plan, plan.casts.length - 1, 0);
  const deckShare = between(random, 0, 0.9);
  return {
    kind: "grows",
    at_h,
    shape: oneOf(random, ["even", "accelerating", "levelling-off"]),
    ppm: betweenLog(random, 100, 800),
    hours: (end_h - at_h) * (0.5 + 0.5 * deckShare),
    deckShare,
  };
}

/** A film grows in the water and between casts. In 40 % of cruises a soak late in the cruise takes it off. */
export const filmGrowing: MakeTroubles = (random, plan) => {
  const cell = oneOf(random, plan.cells);
  const soaked = happens(random, 0.4);
  return {
    films: [{ cell, what: growth(random, plan) }],
    soaks: soaked
      ? [{ afterCast: castIn(random, plan, 0.5, 0.9), left: between(random, 0, 0.25) }]
      : [],
  };
};

/** A film grows in both cells, in one of them half as much or as much as in the other. */
export const filmBothCells: MakeTroubles = (random, plan) => {
  const what = growth(random, plan);
  const weaker = oneOf(random, plan.cells);
  const share = oneOf(random, [0.5, 0.5, 1]);
  const weak = what.kind === "grows" ? { ...what, ppm: share * what.ppm } : what;
  return { films: plan.cells.map((cell) => ({ cell, what: cell === weaker ? weak : what })) };
};

/** A film comes to one cell between a cast and the next. */
function arrival(random: RandomStream, plan: Plan, cast: number): Troubles["films"][number] {
  return {
    cell: oneOf(random, plan.cells),
    what: {
      kind: "arrives",
      at_h: hourAfter(plan, cast, between(random, 0.5, 0.95)),
      ppm: betweenLog(random, ...film_ppm),
    },
  };
}

/** A film comes between casts. The soaks in the record have no effect on it. */
export const filmNoSoakMoves: MakeTroubles = (random, plan) => {
  const cast = castIn(random, plan, 0.15, 0.55);
  const soaked = later(plan, cast, wholeBetween(random, 1, 3));
  const again = happens(random, 0.5) ? [later(plan, soaked, wholeBetween(random, 2, 3))] : [];
  return {
    films: [arrival(random, plan, cast)],
    soaks: [soaked, ...again].map((afterCast) => ({ afterCast, left: 1 })),
  };
};

/** A film enters the cell during the soak near 10 dbar. In half the cruises it is cleaned off up to three casts later. */
export const filmInTheSoak: MakeTroubles = (random, plan) => {
  const cast = castIn(random, plan, 0.2, 0.75);
  const { soakFrom, downFrom } = plan.casts[cast]!.journey;
  const scan = Math.round(between(random, soakFrom, downFrom));
  return {
    films: [
      {
        cell: oneOf(random, plan.cells),
        what: {
          kind: "arrives",
          at_h: hourOf(plan.casts[cast]!, scan),
          ppm: betweenLog(random, ...film_ppm),
        },
      },
    ],
    soaks: happens(random, 0.5)
      ? [
          {
            afterCast: later(plan, cast, wholeBetween(random, 0, 3)),
            left: between(random, 0, 0.2),
          },
        ]
      : [],
  };
};

/** A film comes between casts and a soak takes it off. */
export const filmStep: MakeTroubles = (random, plan) => {
  const cast = castIn(random, plan, 0.15, 0.65);
  return {
    films: [arrival(random, plan, cast)],
    soaks: [
      { afterCast: later(plan, cast, wholeBetween(random, 1, 4)), left: between(random, 0, 0.15) },
    ],
  };
};

/** Something enters the cell and is shed again within a cast. */
export const transient: MakeTroubles = (random, plan) => {
  const cast = plan.casts[castIn(random, plan, 0.2, 0.95)]!;
  const { downFrom, wetTo } = cast.journey;
  const cell = oneOf(random, plan.cells);
  const from = between(random, 0.05, 0.75);
  const until = Math.min(0.93, from + betweenLog(random, 0.03, 0.5));
  const at = (share: number) => hourOf(cast, downFrom + share * (wetTo - downFrom));
  const part = between(random, 0.3, 0.8);
  const stages: FilmEvent[] = happens(random, 0.5)
    ? [{ kind: "lessens", at_h: at(until), left: 0 }]
    : [
        { kind: "lessens", at_h: at((from + until) / 2), left: part },
        { kind: "lessens", at_h: at(until), left: 0 },
      ];
  const arrives: FilmEvent = {
    kind: "arrives",
    at_h: at(from),
    ppm: betweenLog(random, 100, 2000),
  };
  return {
    films: [arrives, ...stages].map((what) => ({ cell, what })),
    blockageNoise: between(random, 0, 0.03),
  };
};

/** The clean gain of one cell shifts permanently, in either direction. A soak has no effect. */
export const shiftedCalibration: MakeTroubles = (random, plan) => {
  const cast = castIn(random, plan, 0.25, 0.6);
  const { journey, began_h } = plan.casts[cast]!;
  const within =
    began_h + (between(random, 0.1, 0.9) * journey.pressure.length) / journey.rate_Hz / 3600;
  return {
    shifts: [
      {
        cell: oneOf(random, plan.cells),
        what: {
          from_h: happens(random, 0.3) ? within : hourAfter(plan, cast, between(random, 0.4, 0.95)),
          by: eitherSign(random) * betweenLog(random, 70, 400),
        },
      },
    ],
    soaks: [{ afterCast: later(plan, cast, wholeBetween(random, 1, 2)), left: 1 }],
  };
};
