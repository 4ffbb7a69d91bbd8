// One intensity of the ladder, as data: steps, materials, duration, and the source of each number.
import type { Instrument } from "../../cast/cruise.js";
import type { IntensityName } from "../../cast/maintenance.js";
import { cautionsFor, type Hazard } from "../cautions.js";
import { volumeNeeded_ml } from "./volumeNeeded.js";

/** A number with its unit and source. */
export interface Figure {
  readonly value: number;
  readonly unit: string;
  /** A key of docs/references.md, "common practice, no source" or "judgement". */
  readonly source: string;
}

export interface Solution {
  readonly kind: "water" | "detergent" | "hypochlorite" | "acid";
  /** Content of the bottle, in plain words. */
  readonly name: string;
  /** Detergent in % by volume, hypochlorite in ppm of available chlorine, acid in mol/l; absent for water. */
  readonly concentration?: Figure;
}

/** A sentence of the procedure; {names} stand for the figures of the intensity. */
export interface Step {
  readonly text: string;
  /** Only for this configuration of the instrument. */
  readonly when?: "pumped" | "free-flow" | "oxygen sensor in line" | "no oxygen sensor in line";
}

export interface Intensity {
  readonly name: IntensityName;
  /** `soak` or harder. */
  readonly deep: boolean;
  /** People who may do it. */
  readonly hands: "watch" | "trained";
  /** The work as one phrase that begins a sentence. */
  readonly summary: string;
  readonly solutions: readonly Solution[];
  /** Total hands-on time. */
  readonly minutes: Figure;
  /** Additional time to take an oxygen sensor out of the line and put it back. */
  readonly oxygenSensorMinutes?: Figure;
  /** One filling of the cell and its plumbing. */
  readonly fill: Figure;
  /** Standing time of a solution, each time. */
  readonly soak?: Figure;
  /** Agitation by the syringe at each filling. */
  readonly strokes?: Figure;
  /** Number of repetitions of the whole. */
  readonly repeats: Figure;
  /** Number of fillings of deionised water at the end of every cleaning. */
  readonly flush: Figure;
  readonly steps: readonly Step[];
  readonly worksAgainst: readonly string[];
  readonly mustNotTouch: readonly string[];
  readonly materials: readonly string[];
}

/** The six, lightest first. */
export type Ladder = readonly Intensity[];

/** Hazards of an intensity: they follow from its materials, so that no procedure can leave them out. */
export function hazardsOf({ name, solutions }: Intensity): readonly Hazard[] {
  const chemicals = solutions.flatMap(({ kind }) => (kind === "water" ? [] : [kind]));
  return name === "exchange" ? [...chemicals, "pressure-housing"] : chemicals;
}

/** The usual cautions of an intensity, and its forbidden contacts. */
export function cautionsOf(intensity: Intensity): readonly string[] {
  return [
    ...cautionsFor(hazardsOf(intensity)),
    ...intensity.mustNotTouch.map((what) => `Keep cell and solution away from: ${what}.`),
  ];
}

/** Hands-on minutes on this instrument. */
export function minutesFor(intensity: Intensity, instrument: Instrument): number {
  const { minutes, oxygenSensorMinutes } = intensity;
  const more = instrument.oxygenSensorInLine === true ? (oxygenSensorMinutes?.value ?? 0) : 0;
  return minutes.value + more;
}

/** The steps on this instrument; an unknown property of it becomes a condition. */
export function stepsFor(intensity: Intensity, instrument: Instrument): readonly string[] {
  return intensity.steps.flatMap(({ text, when }) => {
    const sentence = withFigures(text, intensity);
    if (when === undefined) return [sentence];
    const found = applies(when, instrument);
    if (found === undefined) return [`${conditions[when]}: ${lowerFirst(sentence)}`];
    return found ? [sentence] : [];
  });
}

const conditions: Readonly<Record<NonNullable<Step["when"]>, string>> = {
  pumped: "If water is pumped through the cell",
  "free-flow": "If water flows freely through the cell",
  "oxygen sensor in line": "If an oxygen sensor is in the line",
  "no oxygen sensor in line": "If no oxygen sensor is in the line",
};

function applies(when: NonNullable<Step["when"]>, instrument: Instrument): boolean | undefined {
  const { flow, oxygenSensorInLine } = instrument;
  if (when === "pumped" || when === "free-flow")
    return flow === undefined ? undefined : flow === when;
  if (oxygenSensorInLine === undefined) return undefined;
  return oxygenSensorInLine === (when === "oxygen sensor in line");
}

/** The figures that a step may name. */
export function figuresOf(intensity: Intensity): ReadonlyMap<string, Figure> {
  const { minutes, fill, soak, strokes, repeats, flush, solutions } = intensity;
  const volume: Figure = {
    value: volumeNeeded_ml(fill.value, repeats.value),
    unit: "ml",
    source: "fill x repeats, with a quarter to spare",
  };
  const named = { minutes, fill, soak, strokes, repeats, flush, volume };
  const figures = new Map<string, Figure>();
  for (const [name, figure] of Object.entries(named)) {
    if (figure !== undefined) figures.set(name, figure);
  }
  for (const { kind, concentration } of solutions) {
    if (concentration !== undefined) figures.set(kind, concentration);
  }
  return figures;
}

/** The solution to make up for one cell. */
interface SolutionNeeded {
  readonly kind: Exclude<Solution["kind"], "water">;
  readonly name: string;
  readonly concentration: number;
  readonly unit: string;
  readonly volume_ml: number;
}

export function solutionsNeeded({
  solutions,
  fill,
  repeats,
}: Intensity): readonly SolutionNeeded[] {
  return solutions.flatMap(({ kind, name, concentration }) =>
    kind === "water" || concentration === undefined
      ? []
      : [
          {
            kind,
            name,
            concentration: concentration.value,
            unit: concentration.unit,
            volume_ml: volumeNeeded_ml(fill.value, repeats.value),
          },
        ],
  );
}

export const figureName = /\{(\w+)\}/g;

function withFigures(text: string, intensity: Intensity): string {
  const figures = figuresOf(intensity);
  return text.replaceAll(figureName, (whole, name: string) => {
    const figure = figures.get(name);
    return figure === undefined ? whole : `${figure.value} ${figure.unit}`;
  });
}

function lowerFirst(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}
