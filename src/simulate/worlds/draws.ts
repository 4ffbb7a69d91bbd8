// Random draws within stated limits.
import type { RandomStream } from "../random.js";

export function between(random: RandomStream, least: number, most: number): number {
  return least + (most - least) * random.uniform();
}

/** Uniform in the logarithm. Both limits are above 0. */
export function betweenLog(random: RandomStream, least: number, most: number): number {
  return least * (most / least) ** random.uniform();
}

/** Uniform whole number, both limits included. */
export function wholeBetween(random: RandomStream, least: number, most: number): number {
  return Math.min(most, least + Math.floor((most - least + 1) * random.uniform()));
}

export function happens(random: RandomStream, probability: number): boolean {
  return random.uniform() < probability;
}

export function oneOf<T>(random: RandomStream, some: readonly T[]): T {
  return some[wholeBetween(random, 0, some.length - 1)]!;
}

export function eitherSign(random: RandomStream): number {
  return happens(random, 0.5) ? 1 : -1;
}

/** Exponential, mean 1. */
export function exponential(random: RandomStream): number {
  return -Math.log(random.uniform());
}
