// All readings of a cell in order of the path: of its legs, and of the pair.
import type { CleanRows } from "./withoutBackground.js";

/**
 * A film must come at least this far from both ends of the path, dbar, or this share of it (judgement). Near the surface bubbles
 * make one cell read low, a pump starts late, and too few readings remain to tell these from a film.
 */
const edge_dbar = 30;
const edgeShare = 1 / 100;

/** Readings in order of the path, the last first. */
export interface Path {
  readonly at: Float64Array;
  /** Weight of the row, with the sign of the reading in the row. */
  readonly signed: Float64Array;
  /** Path from here to the later reading of the same row, dbar; NaN if there is none. */
  readonly partner: Float64Array;
  readonly clean: Float64Array;
  /** Background terms of each reading side by side, `terms` for each reading. */
  readonly unit: Float64Array;
  readonly terms: number;
  /** Places at which a film may have come, each between two readings, and the share of the path that each represents. */
  readonly onset_dbar: Float64Array;
  readonly prior: Float64Array;
}

export function alongPath(sources: readonly CleanRows[]): Path {
  const readings = sources.flatMap(({ less_dbar, at_dbar, ...source }, number) => {
    const first = { ...source, number, sign: 1, here: at_dbar, there: less_dbar };
    return less_dbar === undefined
      ? [first]
      : [first, { ...first, sign: -1, here: less_dbar, there: at_dbar }];
  });
  const most = readings.reduce((sum, { here }) => sum + here.length, 0);
  // Position of each reading in the list of columns above, and in its column.
  const column = new Uint8Array(most);
  const row = new Uint32Array(most);
  const place = new Float64Array(most);
  let count = 0;
  for (const [k, { here, weight }] of readings.entries()) {
    for (let i = 0; i < here.length; i++) {
      if (!(weight[i]! > 0)) continue;
      column[count] = k;
      row[count] = i;
      place[count++] = here[i]!;
    }
  }
  const order = Uint32Array.from(place.subarray(0, count).keys()).sort(
    (a, b) => place[b]! - place[a]!,
  );
  const starts = sources.map((_, k) => termsOf(sources.slice(0, k)));
  const terms = termsOf(sources);
  const places = Math.max(0, count - 1);
  const path = {
    onset_dbar: new Float64Array(places),
    prior: new Float64Array(places),
    at: new Float64Array(count),
    signed: new Float64Array(count),
    partner: new Float64Array(count).fill(Number.NaN),
    clean: new Float64Array(count),
    unit: new Float64Array(count * terms),
    terms,
  };
  for (let k = 0; k < count; k++) {
    const { number, sign, weight, clean, unit, there } = readings[column[order[k]!]!]!;
    const i = row[order[k]!]!;
    const at = place[order[k]!]!;
    path.at[k] = at;
    path.signed[k] = sign * weight[i]!;
    path.clean[k] = clean[i]!;
    // Of two readings at one place the positive one comes first.
    const away = there === undefined ? Number.NaN : there[i]! - at;
    if (away > 0 || (away === 0 && sign < 0)) path.partner[k] = away;
    const own = k * terms + starts[number]!;
    for (let j = 0; j < unit.length; j++) path.unit[own + j] = unit[j]![i]!;
  }
  const whole = count > 0 ? path.at[0]! - path.at[count - 1]! : 0;
  const edge = Math.min(edge_dbar, edgeShare * whole);
  for (let i = 0; i < places; i++) {
    const gap = path.at[i]! - path.at[i + 1]!;
    const k = places - 1 - i;
    path.onset_dbar[k] = path.at[i]! - gap / 2;
    const fromEnd = Math.min(path.at[0]! - path.at[i + 1]!, path.at[i]! - path.at[count - 1]!);
    path.prior[k] = whole > 0 && fromEnd > edge ? gap / (whole - 2 * edge) : 0;
  }
  return path;
}

function termsOf(sources: readonly CleanRows[]): number {
  return sources.reduce((sum, { unit }) => sum + unit.length, 0);
}
