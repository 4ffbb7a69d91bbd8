import { describe, expect, test } from "vitest";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { responseChanges } from "../../src/response/responseChanges.js";
import { sensorResponse } from "../../src/response/sensorResponse.js";
import { type SimulatedEvent, simulateCruise } from "../../src/simulate/index.js";

function changesOf(events: readonly SimulatedEvent[], seed: number) {
  const { cruise } = simulateCruise({
    seed,
    casts: 5,
    deepest_dbar: 200,
    cells: ["primary"],
    bottles: 0,
    sampling: { kind: "time-series", rate_Hz: 8 },
    events,
  });
  const responses = cruise.casts.map(({ data }) =>
    sensorResponse(data!, splitLegs(data!), "primary"),
  );
  return responseChanges(responses.slice(0, -1), responses.at(-1)!);
}

describe("the last of five simulated casts against those before", () => {
  test("shows the usual response if nothing changed", () => {
    for (const seed of [1, 2]) {
      for (const { differs, sentence } of changesOf([], seed)) {
        expect(differs).toBe(false);
        expect(sentence).toContain("no change");
      }
    }
  });

  test("shows the simulated delay, on the last cast only", () => {
    const [late] = changesOf(
      [{ kind: "misalignment", cells: ["primary"], fromCast: 5, seconds: 0.12 }],
      4,
    );
    expect(late!.of).toBe("alignment");
    expect(late!.differs).toBe(true);
    expect(Math.abs(late!.difference - 0.12)).toBeLessThan(3 * late!.standardUncertainty);
    expect(late!.sentence).toContain("later");
  });

  test("a constant mismatch is no change", () => {
    const [same] = changesOf(
      [{ kind: "misalignment", cells: ["primary"], fromCast: 1, seconds: 0.12 }],
      5,
    );
    expect(same!.differs).toBe(false);
    expect(same!.usual.value).toBeCloseTo(0.12, 1);
  });

  test("a pump that gives a fifth of the flow makes conductivity late", () => {
    // The simulation delays by 0.1 s x (1 / flow - 1), which is 0.4 s.
    const changes = changesOf([{ kind: "flow-loss", cells: ["primary"], cast: 5, flow: 0.2 }], 6);
    const late = changes.find(({ of }) => of === "alignment")!;
    expect(late.differs).toBe(true);
    expect(Math.abs(late.difference - 0.4)).toBeLessThan(0.1);
  });

  test("fewer than three earlier casts give no comparison", () => {
    const nothing = { notes: [] };
    expect(responseChanges([nothing, nothing], nothing)).toEqual([]);
  });
});
