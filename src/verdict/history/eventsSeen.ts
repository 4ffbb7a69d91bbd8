// The events of a cell during a cruise, according to its verdicts: films, cleanings, shifts.

import type { CellName } from "../../cast/cast.js";
import { intensityNames } from "../../cast/maintenance.js";
import type { CellRecord } from "../../history/cellRecord.js";
import type { CellVerdict, Verdict } from "../verdict.js";

/** A cast on which the cell was used, and the verdict on the cell there. */
export interface OwnCast {
  /** Index of the cast in the cruise. */
  readonly at: number;
  readonly id: string;
  readonly start?: string;
  readonly cell: CellName;
  readonly verdict: CellVerdict;
  readonly whole: Verdict;
}

type Film = CellRecord["films"][number];

/** Runs of successive casts with the same most probable cause. */
function runsOf(casts: readonly OwnCast[], holds: (own: OwnCast) => boolean) {
  const runs: OwnCast[][] = [];
  for (const [i, own] of casts.entries()) {
    if (!holds(own)) continue;
    const before = casts[i - 1];
    if (before !== undefined && holds(before)) runs.at(-1)!.push(own);
    else runs.push([own]);
  }
  return runs;
}

const leads = (cause: string) => (own: OwnCast) => own.verdict.causes[0]?.cause === cause;

/**
 * One film for each run of casts with fouling as the most probable cause. Two films without a clean cast between them count
 * as one.
 */
export function filmsSeen(casts: readonly OwnCast[]): readonly Film[] {
  return runsOf(casts, leads("fouling")).map((run): Film => {
    const last = run.at(-1)!.verdict.change;
    const sizes = run.map(({ verdict: { gainError, cleanGain } }) => ({
      ppm: Math.min(0, gainError.up.ppm - cleanGain.ppm),
      standardUncertainty: gainError.up.standardUncertainty,
    }));
    return {
      cast: run[0]!.id,
      ...(last.sinceCast === undefined ? {} : { sinceCast: last.sinceCast }),
      kind: kindOf(run.at(-1)!),
      casts: run.length,
      largest: sizes.reduce((most, one) => (one.ppm < most.ppm ? one : most)),
    };
  });
}

/**
 * The latest estimate of each cleaning. Rinses are excluded: only those that worked are reported, so including them would
 * bias the history.
 */
export function cleaningsSeen(casts: readonly OwnCast[]): CellRecord["cleanings"] {
  const found = new Map<string, CellRecord["cleanings"][number]>();
  const byId = new Map(casts.map((own) => [own.id, own]));
  for (const { whole, cell } of casts) {
    for (const told of whole.cleaned ?? []) {
      const before = byId.get(told.afterCast);
      if (told.cell !== cell || before === undefined || told.intensity === "rinse") continue;
      const { afterCast, intensity, retained, standardUncertainty } = told;
      const fouling = before.verdict.causes.find(({ cause }) => cause === "fouling");
      found.set(`${afterCast} ${intensity}`, {
        afterCast,
        intensity,
        film: kindOf(before),
        // Reported only if a film was more probable than not.
        filmProbability: Math.max(0.5, fouling?.probability ?? 0),
        retained,
        standardUncertainty,
      });
    }
  }
  return [...found.values()];
}

/** Shifts in mid-cruise, one for each run of casts with a shift as the most probable cause. */
export function shiftsSeen(casts: readonly OwnCast[]): CellRecord["shifts"] {
  const shifted = ({ verdict: { causes, change } }: OwnCast) =>
    causes[0]?.cause === "calibration-shift" && change.kind === "step";
  return runsOf(casts, shifted).flatMap((run) => {
    const last = run.at(-1)!;
    const { sinceCast } = last.verdict.change;
    const since = casts.findIndex(({ id }) => id === sinceCast);
    const before = casts[since - 1];
    if (sinceCast === undefined || before === undefined) return [];
    const [from, to] = [before.verdict.cleanGain, last.verdict.cleanGain];
    const change = {
      ppm: to.ppm - from.ppm,
      standardUncertainty: Math.hypot(from.standardUncertainty, to.standardUncertainty),
    };
    return [{ sinceCast, change }];
  });
}

function kindOf({ verdict: { change } }: OwnCast): Film["kind"] {
  return change.kind === "step" || change.kind === "drift" ? change.kind : "unknown";
}

/** Whether an action of the record may take a film off, or fits another cell. A rinse follows every cast. */
export function cleansFilms(action: string): boolean {
  return (
    action !== "rinse" &&
    (action === "calibration" || intensityNames.some((name) => name === action))
  );
}
