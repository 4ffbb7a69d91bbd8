// The faults and events of a cruise, as plain data.
import type { CellName } from "../../cast/cast.js";
import type { StepChange } from "./course.js";
import type { FilmEvent } from "./film.js";

export interface CellTrouble<T> {
  readonly cell: CellName;
  readonly what: T;
}

/** A soak with detergent, in the record. */
export interface Soak {
  /** Index of the cast it followed. */
  readonly afterCast: number;
  /** Share of every film that remains, 0 to 1. */
  readonly left: number;
}

export interface Troubles {
  readonly films: readonly CellTrouble<FilmEvent>[];
  /** Noise of a film, as a share of its loss. */
  readonly blockageNoise: number;
  /** Steps of the clean gain, ppm. */
  readonly shifts: readonly CellTrouble<StepChange>[];
  /** Steps, uS/cm. */
  readonly offsets: readonly CellTrouble<StepChange>[];
  /** Steps, mK. */
  readonly thermometers: readonly CellTrouble<StepChange>[];
  /** Thermal lag has `factor` times its amplitude from cast `fromCast` on. */
  readonly slow: readonly CellTrouble<{ readonly fromCast: number; readonly factor: number }>[];
  /** Indices of casts whose up leg goes through other water. */
  readonly otherWater: readonly number[];
  readonly spoilt: readonly { readonly cast: number; readonly fresh: readonly [number, number] }[];
  readonly copies: readonly { readonly to: number; readonly from: number }[];
  readonly soaks: readonly Soak[];
  /** Share of entries of the maintenance record that are missing or at a wrong hour. */
  readonly slips: number;
}

const noTroubles: Troubles = {
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

/** Combine several. */
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
