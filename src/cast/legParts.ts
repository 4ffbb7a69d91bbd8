// The parts of a cast: every scan is in exactly one of them.

/** The reason why a scan is on neither leg. */
const leftOutOfLegs = [
  "onDeck",
  "inAir",
  "soak",
  "surface",
  "bottom",
  "bottleStops",
  "reversals",
  "missing",
] as const;
type LeftOutOfLegs = (typeof leftOutOfLegs)[number];

type CastPart = "down" | "up" | LeftOutOfLegs;
const parts: readonly CastPart[] = ["down", "up", ...leftOutOfLegs];
/** The number of a part, one for each scan. */
export const code = Object.fromEntries(parts.map((part, i) => [part, i])) as Readonly<
  Record<CastPart, number>
>;

/** The parts that the marks give. */
export interface CastParts {
  /** Indices of the usable scans, in order of time. */
  readonly down: Uint32Array;
  readonly up: Uint32Array;
  /**
   * Scans on neither leg: in air before and after the cast; in air between; before the lowering; near the surface; around
   * the turn; standing; in water already passed; without a plausible pressure, or without temperature and conductivity of
   * any cell.
   */
  readonly leftOut: Readonly<Record<LeftOutOfLegs, number>>;
}

/** Collect the scans of each part from the marks. */
export function gatherParts(part: Uint8Array): CastParts {
  const counts = new Uint32Array(parts.length);
  const runs = runsOf(part);
  for (const { mark, from, to } of runs) counts[mark]! += to - from;
  const scansOf = (wanted: number) => {
    const scans = new Uint32Array(counts[wanted]!);
    let k = 0;
    for (const { mark, from, to } of runs) {
      if (mark === wanted) for (let i = from; i < to; i++) scans[k++] = i;
    }
    return scans;
  };
  const leftOut = Object.fromEntries(leftOutOfLegs.map((name) => [name, counts[code[name]]!]));
  return {
    down: scansOf(code.down),
    up: scansOf(code.up),
    leftOut: leftOut as Record<LeftOutOfLegs, number>,
  };
}

/** A run of scans with the same mark; `to` is not included. */
interface MarkRun {
  readonly mark: number;
  readonly from: number;
  readonly to: number;
}

/** A cast has some hundreds of runs, because each leg is nearly one. */
function runsOf(part: Uint8Array): readonly MarkRun[] {
  const runs: MarkRun[] = [];
  let from = 0;
  for (let i = 1; i <= part.length; i++) {
    const mark = part[from]!;
    if (i < part.length && part[i] === mark) continue;
    runs.push({ mark, from, to: i });
    from = i;
  }
  return runs;
}
