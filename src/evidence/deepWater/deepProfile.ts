// One leg of a cast below the thermocline as salinity at potential temperature, in classes of equal potential temperature.
// It starts at the cold end of the profile and goes up as far as temperature rises steadily.
import { group } from "d3-array";
import type { Layers } from "../../cast/averageByPressure.js";
import { joinLayers } from "../../cast/joinLayers.js";
import { ppmPerSalinity } from "../../seawater/ppmPerSalinity.js";
import { median } from "../../statistics/robustCentre.js";

/** Water of one class of potential temperature: medians over its levels. */
export interface DeepClass {
  /** Potential temperature, degree C, divided by the width of a class and rounded down. */
  readonly index: number;
  /** At the middle of the class, PSS-78. */
  readonly salinity: number;
  readonly pressure_dbar: number;
  readonly conductivity_mS_cm: number;
  /** In situ temperature. */
  readonly temperature_C: number;
}

/** What one of salinity is in ppm of conductivity in this water. */
export function ppmPerSalinityOf(water: DeepClass): number {
  return ppmPerSalinity(water.conductivity_mS_cm, water.temperature_C, water.pressure_dbar);
}

export interface DeepProfile {
  /** Coldest first; empty if the leg has no deep water. */
  readonly classes: readonly DeepClass[];
  /** Levels excluded because their temperature occurs twice, at different depths. */
  readonly doubleValued: number;
}

/** Width of a class, K: some 10 dbar of the deep sea (judgement). */
export const classWidth_K = 0.01;
/**
 * Water above this varies too much from station to station, dbar (judgement). Between here and 1000 dbar it also varies, but
 * the variance of each class and of the walk tells how much. Casts to 1000 dbar, which are usual, would have no deep water.
 */
export const shallowest_dbar = 500;
/** Layers are first joined to this thickness, dbar (judgement: about the width of a class in the deep sea). */
const level_dbar = 10;
/** If temperature falls by more than this on the way up, the layer is not steady, K (judgement). */
const inversion_K = 0.02;
/** Salinities beyond these do not occur in deep water (judgement). */
const plausible = { least: 5, most: 45 };

interface DeepLevel {
  readonly pressure: number;
  readonly temperature: number;
  readonly conductivity: number;
  readonly salinity: number;
  readonly theta: number;
}

/** @param layers of one leg, as from `thinLayers` */
export function deepProfile(layers: Layers): DeepProfile {
  const { levels, doubleValued } = steadyPart(levelsOf(layers));
  const byClass = group(levels, ({ theta }) => Math.floor(theta / classWidth_K));
  const found = [...byClass].sort(([a], [b]) => a - b).map(([index, own]) => classOf(index, own));
  return { classes: atMiddles(found), doubleValued };
}

/** Levels below the thermocline, shallowest first. */
function levelsOf(layers: Layers): readonly DeepLevel[] {
  const joined = joinLayers(layers, level_dbar);
  const { pressure_dbar, temperature_C, conductivity_mS_cm } = joined;
  const levels: DeepLevel[] = [];
  for (let k = 0; k < pressure_dbar.length; k++) {
    const salinity = joined.salinity[k]!;
    if (!(pressure_dbar[k]! >= shallowest_dbar)) continue;
    if (!(salinity > plausible.least && salinity < plausible.most)) continue;
    levels.push({
      pressure: pressure_dbar[k]!,
      temperature: temperature_C[k]!,
      conductivity: conductivity_mS_cm[k]!,
      salinity,
      theta: joined.potentialTemperature_C[k]!,
    });
  }
  return levels;
}

/** From the coldest level up as far as temperature rises, and the levels below it with the same temperature. */
function steadyPart(levels: readonly DeepLevel[]) {
  let coldest = 0;
  for (const [i, { theta }] of levels.entries()) if (theta < levels[coldest]!.theta) coldest = i;
  const least = levels[coldest]?.theta ?? 0;
  const kept = levels.slice(coldest).filter(({ theta }) => theta < least + classWidth_K);
  let warmest = least;
  let i = coldest - 1;
  for (; i >= 0 && levels[i]!.theta > warmest - inversion_K; i--) {
    warmest = Math.max(warmest, levels[i]!.theta);
    kept.push(levels[i]!);
  }
  return { levels: kept, doubleValued: levels.length - kept.length };
}

/** A class with the temperature of its salinity. */
type ClassWithTheta = DeepClass & { readonly theta: number };

function classOf(index: number, levels: readonly DeepLevel[]): ClassWithTheta {
  const middle = (key: keyof DeepLevel) => median(levels.map((level) => level[key]));
  const pressure_dbar = middle("pressure");
  const temperature_C = middle("temperature");
  const conductivity_mS_cm = middle("conductivity");
  return {
    index,
    salinity: middle("salinity"),
    theta: middle("theta"),
    pressure_dbar,
    temperature_C,
    conductivity_mS_cm,
  };
}

/** Salinities interpolated to the middle of their classes, along the line through the neighbours. */
function atMiddles(found: readonly ClassWithTheta[]): readonly DeepClass[] {
  return found.map(({ theta, ...own }, k) => {
    const [before, after] = [found[Math.max(0, k - 1)]!, found[Math.min(found.length - 1, k + 1)]!];
    const span = after.theta - before.theta;
    const slope = span > 0 ? (after.salinity - before.salinity) / span : 0;
    return { ...own, salinity: own.salinity + slope * ((own.index + 0.5) * classWidth_K - theta) };
  });
}
