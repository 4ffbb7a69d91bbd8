// What can go wrong on a cruise, as plain data: the worlds put it together.
import type { CellName } from "../../cast/cast.js";
import type { Step } from "./course.js";
import type { FilmEvent } from "./film.js";

export interface CellTrouble<T> {
  readonly cell: CellName;
  readonly what: T;
}

/** A soak with detergent that stands in the record. */
export interface Soak {
  /** Index of the cast it followed. */
  readonly afterCast: number;
  /** So much of every film is left, 0 to 1. */
  readonly left: number;
}

export interface Troubles {
  readonly films: readonly CellTrouble<FilmEvent>[];
  /** Noise while something is stuck in a cell, as a share of what it costs. */
  readonly blockageNoise: number;
  /** Of the clean cell, ppm. */
  readonly shifts: readonly CellTrouble<Step>[];
  /** uS/cm. */
  readonly offsets: readonly CellTrouble<Step>[];
  /** mK. */
  readonly thermometers: readonly CellTrouble<Step>[];
  /** From a cast on a cell's wall holds so many times the usual heat. */
  readonly slow: readonly CellTrouble<{ readonly fromCast: number; readonly factor: number }>[];
  /** Indices of casts whose up leg goes through other water. */
  readonly otherWater: readonly number[];
  readonly spoilt: readonly { readonly cast: number; readonly fresh: readonly [number, number] }[];
  readonly copies: readonly { readonly to: number; readonly from: number }[];
  readonly soaks: readonly Soak[];
  /** Mistakes of the maintenance record, as a share of its entries. */
  readonly slips: number;
}

export const noTroubles: Troubles = {
  films: [],
  blockageNoise: 0,
  shifts: [],
  offsets: [],
  thermometers: [],
  slow: [],
  otherWater: [],
  spoilt: [],
  copies: [],
  soaks: [],
  slips: 0,
};

/** Several at once. */
export function together(some: readonly Partial<Troubles>[]): Troubles {
  const all = some.map((one) => ({ ...noTroubles, ...one }));
  return {
    films: all.flatMap(({ films }) => films),
    blockageNoise: Math.max(0, ...all.map(({ blockageNoise }) => blockageNoise)),
    shifts: all.flatMap(({ shifts }) => shifts),
    offsets: all.flatMap(({ offsets }) => offsets),
    thermometers: all.flatMap(({ thermometers }) => thermometers),
    slow: all.flatMap(({ slow }) => slow),
    otherWater: all.flatMap(({ otherWater }) => otherWater),
    spoilt: all.flatMap(({ spoilt }) => spoilt),
    copies: all.flatMap(({ copies }) => copies),
    soaks: all.flatMap(({ soaks }) => soaks),
    slips: Math.max(0, ...all.map(({ slips }) => slips)),
  };
}
