// Whether the closure times of a cast's bottles agree with its scans. A clock that fits most bottles is right, and a bottle
// that does not fit has a wrong label or tripped at another time. A clock that fits few bottles is not used. Times to the
// minute are not used either: within a minute the CTD moves up to 60 dbar, and all stops of the way up have different
// pressures.
import type { Bottle } from "../../cast/bottle.js";
import type { Cast } from "../../cast/cast.js";
import { timedToTheMinute } from "../../cast/minuteTimes.js";
import { type ClosureScans, scansAtTime } from "./closureScans.js";
import type { UpScans } from "./upScans.js";

/**
 * The clock is right, and a bottle wrong, if the clock fits at least this many other bottles and most of them (judgement).
 */
const leastWitnesses = 3;

interface ClosureClock {
  readonly scansOf: (bottle: Bottle) => ClosureScans | undefined;
  readonly contradiction: (bottle: Bottle) => string | undefined;
  readonly notes: readonly string[];
}

export function closureClock(
  up: UpScans,
  cast: Cast,
  start: string | undefined,
  bottles: readonly Bottle[],
): ClosureClock {
  const coarse = new Set(timedToTheMinute(bottles));
  const told = bottles.filter(
    (bottle) => (bottle.time_s ?? bottle.closureTime) !== undefined && !coarse.has(bottle),
  );
  const found = new Map<Bottle, ClosureScans>();
  const against = new Map<Bottle, string>();
  let timeless = 0;
  for (const bottle of told) {
    const time_s = up.timed ? timeInCast(bottle, cast, start) : undefined;
    if (time_s === undefined || !Number.isFinite(bottle.pressure_dbar)) {
      timeless++;
      continue;
    }
    const scans = scansAtTime(up, bottle.pressure_dbar, time_s);
    if (typeof scans === "string") against.set(bottle, scans);
    else found.set(bottle, scans);
  }
  const notes: string[] = [];
  if (timeless > 0) {
    const why = up.timed
      ? "the start of the cast, or their pressure, is not known"
      : "its scans have no times";
    notes.push(
      `closure times of ${timeless} bottles not used: ${why}. They are placed by pressure`,
    );
  }
  const trusted = found.size >= leastWitnesses && found.size > against.size;
  if (trusted || against.size === 0) {
    return { scansOf: (bottle) => found.get(bottle), contradiction: (b) => against.get(b), notes };
  }
  const [bottle, why] = [...against][0]!;
  notes.push(
    `closure times and pressures disagree for ${against.size} of ${told.length} bottles ` +
      `(bottle ${bottle.bottle} at ${bottle.pressure_dbar.toFixed(0)} dbar: ${why}). They are placed by pressure`,
  );
  // Those that agree may do so by chance, but then they are at the same stop.
  return { scansOf: (one) => found.get(one), contradiction: () => undefined, notes };
}

/** Seconds on the clock of the cast's scans; undefined if unknown. */
function timeInCast(
  { time_s, closureTime }: Bottle,
  { columns }: Cast,
  start: string | undefined,
): number | undefined {
  if (time_s !== undefined) return time_s;
  const elapsed = (Date.parse(closureTime ?? "") - Date.parse(start ?? "")) / 1000;
  const first = columns.time_s?.find((t) => Number.isFinite(t)) ?? 0;
  return Number.isFinite(elapsed) ? elapsed + first : undefined;
}
