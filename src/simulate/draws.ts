// Single draws from a stream; each takes one number from it.
import type { RandomStream } from "./random.js";

export function between(draw: RandomStream, least: number, most: number): number {
  return least + (most - least) * draw.uniform();
}

export function logUniform(draw: RandomStream, least: number, most: number): number {
  return least * (most / least) ** draw.uniform();
}

/** A whole number, both ends included. */
export function whole(draw: RandomStream, least: number, most: number): number {
  return least + Math.floor((most - least + 1) * draw.uniform());
}

export function either(draw: RandomStream): 1 | -1 {
  return draw.uniform() < 0.5 ? -1 : 1;
}

export function pick<Item>(draw: RandomStream, items: readonly Item[]): Item {
  return items[Math.floor(items.length * draw.uniform())]!;
}
