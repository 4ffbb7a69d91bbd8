// What looking back over the whole cruise adds: every cast's gain and cause by the verdict of its day, and by the
// correction with all casts seen, against the truth.
import type { CellName } from "../../src/cast/cast.js";
import type { CauseName } from "../../src/causes/index.js";
import { randomScenario, simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { correctCruise } from "../../src/verdict/correctCruise.js";
import type { Estimate } from "../../src/verdict/verdict.js";
import { firstFreshSeed } from "./freshSeeds.js";

interface Told {
  readonly true_ppm: number;
  readonly trueCause: CauseName;
  readonly gain: Estimate;
  readonly cause: CauseName;
}

/** @param cruises the first of those of the verdicts */
export function correctionsReport(cruises: number, onCruise: (done: number) => void): string {
  const verdicts: Told[] = [];
  const corrections: Told[] = [];
  for (let i = 0; i < cruises; i++) {
    const { cruise, truth } = simulateCruise(randomScenario(firstFreshSeed + i));
    const document = assessCruise(cruise);
    const correction = correctCruise(cruise);
    for (const [k, { cells }] of truth.entries()) {
      for (const [cell, { gain, cause: trueCause }] of Object.entries(cells)) {
        const known = { true_ppm: gain.up, trueCause };
        const verdict = document.casts[k]!.cells[cell as CellName]!;
        const corrected = correction.casts[k]!.cells[cell as CellName]!;
        verdicts.push({ ...known, gain: verdict.gainError.up, cause: verdict.causes[0]!.cause });
        corrections.push({
          ...known,
          gain: corrected.up.surface,
          cause: corrected.causes[0]!.cause,
        });
      }
    }
    onCruise(i + 1);
  }
  return [
    `${cruises} cruises (seeds ${firstFreshSeed} to ${firstFreshSeed + cruises - 1}), ${verdicts.length} cells on casts`,
    "",
    "                              rms of gain, ppm   in 95 %   leading cause right",
    row("verdict of its day", verdicts),
    row("with the whole cruise seen", corrections),
  ].join("\n");
}

function row(name: string, told: readonly Told[]): string {
  const rms = Math.sqrt(
    told.reduce((sum, { gain, true_ppm }) => sum + (gain.ppm - true_ppm) ** 2, 0) / told.length,
  );
  const share = (holds: (one: Told) => boolean) =>
    `${((100 * told.filter(holds).length) / told.length).toFixed(1)} %`;
  const inside = share(
    ({ gain, true_ppm }) => gain.interval95[0] <= true_ppm && true_ppm <= gain.interval95[1],
  );
  const right = share(({ cause, trueCause }) => cause === trueCause);
  return `  ${name.padEnd(28)}${rms.toFixed(1).padStart(16)}${inside.padStart(10)}${right.padStart(22)}`;
}
