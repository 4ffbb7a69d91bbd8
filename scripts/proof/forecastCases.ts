// Forecasts of simulated cruises beside what then came: after each cast the gain as the next up leg ends.
import type { CellName } from "../../src/cast/cast.js";
import type { MaintenanceEvent } from "../../src/cast/maintenance.js";
import { gainRow } from "../../src/model/designRow.js";
import { mixtureOf } from "../../src/model/hypothesis.js";
import { defaultRecovery } from "../../src/model/recovery.js";
import { gainForSalinity } from "../../src/model/salinityError.js";
import { randomScenario, simulateCruise } from "../../src/simulate/index.js";
import type { Mixture } from "../../src/statistics/mixture.js";
import { forecastGain } from "../../src/track/forecast.js";
import { layoutOf } from "../../src/track/layout.js";
import { track } from "../../src/track/track.js";
import { cruiseEvidence } from "../../src/verdict/gather/cruiseEvidence.js";
import { cellsOf } from "../../src/verdict/gather/knownCruise.js";
import { meanAfterRejection } from "./yardstick.js";

/** What became of the gain between the end of one up leg and the end of the next. */
export const courses = ["stood still", "cleaned between", "moved"] as const;
export type Course = (typeof courses)[number];

/** One cell, one cast ahead. */
export interface ForecastCase {
  readonly seed: number;
  readonly course: Course;
  /** The true gain as the next up leg ended, ppm. */
  readonly came_ppm: number;
  /** The forecast, knowing what the record says was done since. */
  readonly forecast: Mixture;
  /** The estimate of this cast, as its up leg ended, and after what the record says was done since. */
  readonly estimate: Mixture;
  readonly estimateNow: Mixture;
  /** The common way's number of this cast, ppm; NaN without bottles. */
  readonly common_ppm: number;
  readonly target_ppm: number;
}

/** A gain that moves by less has stood still, ppm. */
const still_ppm = 10;

/** Every cell and cast but the last of one random cruise. Casts are tracked in order, each from what came before. */
export function forecastCases(seed: number): readonly ForecastCase[] {
  const { cruise, truth } = simulateCruise(randomScenario(seed));
  const cells = cellsOf(cruise);
  const layout = layoutOf(cells);
  const inputs = [...cruiseEvidence(cruise)].map(({ tracked }) => tracked);
  const tracked = track(cells, inputs, defaultRecovery);
  return tracked.slice(0, -1).flatMap(({ hypotheses, afterMaintenance, noise }, i) =>
    cells.map((cell): ForecastCase => {
      const next = truth[i + 1]!.cells[cell]!.gain.up;
      const moved = next - truth[i]!.cells[cell]!.gain.up;
      const days = (startOf(cruise.casts[i + 1]!) - startOf(cruise.casts[i]!)) / 86_400_000;
      const bottles = cruise.bottles.filter((bottle) => bottle.cast === cruise.casts[i]!.id);
      return {
        seed,
        course: cleaned(inputs[i]!.maintenanceAfter, cell)
          ? "cleaned between"
          : Math.abs(moved) < still_ppm
            ? "stood still"
            : "moved",
        came_ppm: next,
        forecast: forecastGain(
          layout,
          afterMaintenance,
          cell,
          { days, inWater_days: inputs[i]!.path?.days ?? 0 },
          noise,
        ),
        estimate: mixtureOf(hypotheses, gainRow(layout, cell, "up")),
        estimateNow: mixtureOf(afterMaintenance, gainRow(layout, cell, "up")),
        common_ppm: meanAfterRejection(bottles, cell, cruise.casts[i]!.data),
        target_ppm: Math.abs(gainForSalinity(-cruise.target)),
      };
    }),
  );
}

function startOf({ start }: { readonly start?: string }): number {
  return Date.parse(start ?? "");
}

function cleaned(events: readonly MaintenanceEvent[], cell: CellName): boolean {
  return events.some((event) => event.cell === undefined || event.cell === cell);
}
