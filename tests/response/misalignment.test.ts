import { describe, expect, test } from "vitest";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { alignment } from "../../src/response/alignment/alignment.js";
import { type Scenario, simulateCruise } from "../../src/simulate/index.js";
import { lowered } from "../cast/castOf.js";

const base: Scenario = {
  seed: 3,
  casts: 2,
  deepest_dbar: 60,
  bottles: 0,
  sampling: { kind: "time-series", rate_Hz: 4 },
};
const late = (seconds: number): Scenario => ({
  ...base,
  events: [{ kind: "misalignment", cells: ["primary"], fromCast: 2, seconds }],
});
const columnsOf = (scenario: Scenario) =>
  simulateCruise(scenario).cruise.casts.map(({ data }) => data!.columns);

describe("a misalignment in the simulation", () => {
  test("a misalignment changes the conductivity of its cell from its cast on, and nothing else", () => {
    const [plain, moved] = [columnsOf(base), columnsOf(late(0.1))];
    expect(moved[0]).toEqual(plain[0]);
    expect(moved[1]!.secondary).toEqual(plain[1]!.secondary);
    expect(moved[1]!.primary.temperature_C).toEqual(plain[1]!.primary.temperature_C);
    expect(moved[1]!.primary.conductivity_mS_cm).not.toEqual(plain[1]!.primary.conductivity_mS_cm);
  });

  test("a misalignment of 0 s changes nothing", () => {
    expect(columnsOf(late(0))).toEqual(columnsOf(base));
  });

  test("a misalignment is refused in averages and beyond its limit", () => {
    const sampling = { kind: "averages", layer_dbar: 2 } as const;
    expect(() => simulateCruise({ ...late(0.1), sampling })).toThrow(/time-series/);
    expect(() => simulateCruise(late(60))).toThrow(/-5 to 5/);
  });
});

describe("a cast that cannot be aligned has a note", () => {
  test("values too far apart in time, no time at all, no change of temperature", () => {
    const levels = Array.from({ length: 200 }, (_, i) => i + 6);
    const both = [...levels, ...levels.toReversed()];
    const notesOf = (cast: ReturnType<typeof lowered>) => {
      const found = alignment(cast, splitLegs(cast), "primary");
      expect(found.alignment).toBeUndefined();
      return found.notes.join();
    };
    expect(notesOf(lowered(both))).toContain("neither times nor a sample rate");
    expect(notesOf(lowered(both, { sampleRate_Hz: 0.2 }))).toContain("5 s apart");
    const cast = lowered(both, { sampleRate_Hz: 1 });
    cast.columns.primary.temperature_C.fill(8);
    cast.columns.primary.conductivity_mS_cm.fill(36);
    expect(notesOf(cast)).toContain("too evenly or too little");
  });
});
