// Failed cleanings of the film that is in a cell now. They are evidence about this film more than about the cell: a film
// that a soak did not remove will probably resist the next soak. This file also finds the intensities that the record
// excludes.
import type { IntensityName } from "../cast/maintenance.js";

/** A past cleaning of the cell with its estimated success. */
export interface JudgedCleaning {
  readonly intensity: IntensityName;
  /** Probability that it worked. */
  readonly success: number;
  /** Probability that there was a film to clean. */
  readonly filmProbability: number;
  /** Probability that the film in the cell now, if there is one, is the film that was cleaned. */
  readonly sameFilm: number;
}

/** Intensities, lightest first: a success counts for harder ones too, a failure for lighter ones too. */
const byStrength: readonly IntensityName[] = ["rinse", "wash", "soak", "disinfect"];

/** Whether the outcome of one intensity is evidence about another. */
export function isEvidenceOf(
  tried: IntensityName,
  name: IntensityName,
  how: "success" | "failure",
): boolean {
  if (tried === name) return true;
  const [from, to] = [byStrength.indexOf(tried), byStrength.indexOf(name)];
  if (from < 0 || to < 0) return false;
  return how === "success" ? to > from : to < from;
}

/**
 * Weight of the strength of the film, against chance, in the outcome of a cleaning, 0 to 1. At 1 only the strength decides,
 * so the same cleaning fails again (judgement; nothing is published).
 */
const filmDependence = 0.8;

/**
 * The share of `probabilityWorks` that is left after failures on this film.
 * With one strength u per film, uniform from 0 to 1, a cleaning works if u < p. If q failed, then u > q: a harder one works
 * with (p - q) / (1 - q), the same or a lighter one never. A failed rinse is evidence about rinses only, because each film
 * that is found has stayed through one.
 * @param prior probability that an intensity works, before any record
 */
export function factorAfterFailures(
  name: IntensityName,
  judged: readonly JudgedCleaning[],
  prior: (name: IntensityName) => number,
): number {
  return judged.reduce((least, { intensity, success, sameFilm }) => {
    const same = intensity === name || isEvidenceOf(intensity, name, "failure");
    const harder = isEvidenceOf(intensity, name, "success");
    if (!(same || harder) || (intensity === "rinse" && name !== "rinse")) return least;
    const [p, q] = [prior(name), prior(intensity)];
    const given = same || !(p > q) ? 0 : (p - q) / (1 - q) / p;
    const factor = filmDependence * given + 1 - filmDependence;
    return Math.min(least, 1 - sameFilm * (1 - success) * (1 - factor));
  }, 1);
}

/**
 * If failures exceed successes on this cell by this number, the cleaning is not tried on any film of it (judgement: two).
 */
const failuresOfCell = 1.5;

/** Whether the record rules an intensity out: it, or a harder one, failed on this film, or repeatedly on this cell. */
export function ruledOut(
  name: IntensityName,
  judged: readonly JudgedCleaning[],
): "on this film" | "on this cell" | undefined {
  const failed = judged.filter(({ intensity }) => isEvidenceOf(intensity, name, "failure"));
  if (failed.some(({ success, sameFilm }) => sameFilm * (1 - success) >= 0.5)) {
    return "on this film";
  }
  const failures = failed.reduce((sum, one) => sum + one.filmProbability * (1 - one.success), 0);
  const successes = judged.reduce(
    (sum, one) =>
      isEvidenceOf(one.intensity, name, "success") ? sum + one.filmProbability * one.success : sum,
    0,
  );
  return failures - successes >= failuresOfCell ? "on this cell" : undefined;
}
