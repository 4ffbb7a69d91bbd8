import { expect, it } from "vitest";
import type { MaintenanceEvent } from "../../src/cast/maintenance.js";
import { cleaningOutcomes } from "../../src/track/cleaningOutcomes.js";

/** Two casts that both observe both cells, and what was done between them; no film was estimated. */
function outcomesOf(...between: readonly Pick<MaintenanceEvent, "action" | "cell">[]) {
  const cast = { observed: ["primary", "secondary"] as const, lines: {} };
  const maintenanceAfter = between.map((event) => ({ afterCast: "001", ...event }));
  const inputs = [
    { ...cast, cast: "001", maintenanceAfter },
    { ...cast, cast: "002", maintenanceAfter: [] },
  ];
  return cleaningOutcomes("primary", { inputs, films: [] }, new Map());
}

it("nothing of the film is left in a cell that was exchanged: the next cast has another cell", () => {
  const [outcome] = outcomesOf({ action: "soak" }, { action: "exchange", cell: "primary" });
  expect(outcome).toEqual({
    intensity: "exchange",
    cell: "primary",
    afterCast: "001",
    reportedInCast: "002",
    retained: { mean: 0, sd: 0 },
    filmProbability: 1,
    sameFilm: 0,
  });
});

it("a cleaning before a new calibration cannot be judged, nor one of the other cell, nor none", () => {
  expect(outcomesOf({ action: "soak" }, { action: "calibration" })).toEqual([]);
  expect(outcomesOf({ action: "exchange", cell: "secondary" })).toEqual([]);
  expect(outcomesOf()).toEqual([]);
});
