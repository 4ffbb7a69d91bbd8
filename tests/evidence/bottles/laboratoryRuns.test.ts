import { describe, expect, it } from "vitest";
import type { Bottle } from "../../../src/cast/bottle.js";
import {
  passToCast,
  type RunBefore,
  runOfCast,
  withLaboratoryRuns,
} from "../../../src/evidence/bottles/laboratoryRuns.js";

const bottles = (casts: number, each: number, run?: (cast: number) => string): readonly Bottle[] =>
  Array.from({ length: casts * each }, (_, i): Bottle => {
    const cast = Math.floor(i / each);
    return {
      cast: String(cast),
      bottle: String(i % each),
      pressure_dbar: 1000,
      salinity: 34.7,
      ...(run === undefined ? {} : { run: run(cast) }),
    };
  });

describe("a laboratory run", () => {
  it("a label is a laboratory run if it has what one day measures: up to 72 samples of one or two casts [CruiseReports2021]", () => {
    const own = bottles(12, 24, (cast) => `run ${Math.floor(cast / 3)}`);
    expect(withLaboratoryRuns(own)).toEqual(own);
    expect(runOfCast(own.slice(0, 24))).toBe("run 0");
  });

  it("one label on a whole cruise is no run", () => {
    const own = withLaboratoryRuns(bottles(12, 24, () => "salinometer"));
    expect(own).toHaveLength(288);
    expect(own.some((bottle) => "run" in bottle)).toBe(false);
    expect(runOfCast(own)).toBeUndefined();
  });

  it("one label on a whole cruise is no run, even if it has no more samples than two runs", () => {
    const own = withLaboratoryRuns(bottles(12, 12, () => "salinometer"));
    expect(own).toHaveLength(144);
    expect(runOfCast(own)).toBeUndefined();
  });

  it("a label on eight small casts is a run, if the casts before them have another label", () => {
    const own = bottles(10, 6, (cast) => (cast < 2 ? "Monday" : "Tuesday"));
    expect(withLaboratoryRuns(own)).toEqual(own);
  });

  it("the run of a cast is that of most of its measured bottles", () => {
    const mixed = bottles(1, 12).map((bottle, i): Bottle => {
      const run = i < 8 ? "a" : "b";
      return i < 5 ? { ...bottle, run, salinity: Number.NaN } : { ...bottle, run };
    });
    expect(runOfCast(mixed)).toBe("b");
    expect(runOfCast(bottles(2, 4))).toBeUndefined();
  });

  it("the error of a run passes to the next cast whole with its label, half without labels, and not with another label", () => {
    const passes = (casts: readonly (readonly Bottle[])[]) => {
      let run: RunBefore = "none";
      return casts.map((own) => {
        const next = passToCast(run, own);
        run = next.run;
        return next.passed?.kind;
      });
    };
    const labelled = (label: string) => bottles(1, 6, () => label);
    const unlabelled = bottles(1, 6);
    const unmeasured = unlabelled.map((bottle) => ({ ...bottle, salinity: Number.NaN }));
    expect(passes([labelled("a"), labelled("a"), labelled("b")])).toEqual([
      undefined,
      "constant",
      undefined,
    ]);
    // A cast that was not measured lies between two of one run.
    expect(passes([labelled("a"), unmeasured, labelled("a")])).toEqual([
      undefined,
      "constant",
      "constant",
    ]);
    expect(passes([unmeasured, unlabelled, unlabelled, labelled("a")])).toEqual([
      undefined,
      undefined,
      "partly-new",
      undefined,
    ]);
  });
});
