// The worlds in which something coats a cell: each is a function of the plan that says when, where and how much.
import type { RandomStream } from "../random.js";
import { between, betweenLog, eitherSign, happens, oneOf, wholeBetween } from "./draws.js";
import type { FilmEvent } from "./film.js";
import { hourOf, type Plan } from "./plan.js";
import type { Troubles } from "./troubles.js";

export type MakeTroubles = (random: RandomStream, plan: Plan) => Partial<Troubles>;

/** Films by what they cost, ppm: from what the target of 0.002 asks (51 ppm) to a salinity of 0.02. */
const film_ppm = [60, 500] as const;

/** Index of a cast in this part of the cruise, 0 to 1. */
export function castIn(random: RandomStream, { casts }: Plan, from: number, to: number): number {
  return Math.min(casts.length - 1, Math.floor(casts.length * between(random, from, to)));
}

/** Some time after a cast, before the next. */
export function hourAfter({ casts }: Plan, cast: number, share: number): number {
  const here = casts[cast]!;
  const ends = hourOf(here, here.journey.pressure.length);
  const next = casts[cast + 1]?.began_h ?? ends + 4;
  return ends + share * (next - ends);
}

/** A cleaning is done soon after the cast. */
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

/** It grows in the water and between casts; in some cruises it is soaked off late. */
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

/** The same in both cells, half as strong in one of them or as strong. */
export const filmBothCells: MakeTroubles = (random, plan) => {
  const what = growth(random, plan);
  const weaker = oneOf(random, plan.cells);
  const share = oneOf(random, [0.5, 0.5, 1]);
  const weak = what.kind === "grows" ? { ...what, ppm: share * what.ppm } : what;
  return { films: plan.cells.map((cell) => ({ cell, what: cell === weaker ? weak : what })) };
};

/** It comes between casts, and the soaks that are recorded do nothing to it. */
export const filmNoSoakMoves: MakeTroubles = (random, plan) => {
  const cast = castIn(random, plan, 0.15, 0.55);
  const soaked = later(plan, cast, wholeBetween(random, 1, 3));
  const again = happens(random, 0.5) ? [later(plan, soaked, wholeBetween(random, 2, 3))] : [];
  return {
    films: [
      {
        cell: oneOf(random, plan.cells),
        what: {
          kind: "arrives",
          at_h: hourAfter(plan, cast, between(random, 0.5, 0.95)),
          ppm: betweenLog(random, ...film_ppm),
        },
      },
    ],
    soaks: [soaked, ...again].map((afterCast) => ({ afterCast, left: 1 })),
  };
};

/** It is taken in during the soak at some 10 m; half the cruises soak it off some casts later. */
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

/** It comes between casts and a soak takes it off. */
export const filmStep: MakeTroubles = (random, plan) => {
  const cast = castIn(random, plan, 0.15, 0.65);
  return {
    films: [
      {
        cell: oneOf(random, plan.cells),
        what: {
          kind: "arrives",
          at_h: hourAfter(plan, cast, between(random, 0.5, 0.95)),
          ppm: betweenLog(random, ...film_ppm),
        },
      },
    ],
    soaks: [
      { afterCast: later(plan, cast, wholeBetween(random, 1, 4)), left: between(random, 0, 0.15) },
    ],
  };
};

/** Something is taken in and shed again within a cast. */
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

/** What the clean cell reads shifts for good, either way; a soak is tried in vain. */
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
