import { describe, expect, it } from "vitest";
import { intensityNames } from "../../src/cast/maintenance.js";
import { terminalSummary } from "../../src/report/terminal/terminalSummary.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const { cruise } = simulateCruise({
  seed: 12,
  casts: 5,
  cells: ["primary"],
  deepest_dbar: 1500,
  events: [
    { kind: "film-step", cells: ["primary"], cast: 2, at: "before-cast", ppm: -300 },
    { kind: "cleaning", afterCast: 3, intensity: "soak", retained: 0.5 },
  ],
});
const document = assessCruise({ ...cruise, nextStation: { minutesAvailable: 40 } });
const style = { colour: false, width: 80, detail: "full" } as const;

describe("the terminal summary", () => {
  it("shows every intensity once, with minutes, probability, loss and why it was not chosen", () => {
    const { advice } = document.casts.at(-1)!;
    const text = terminalSummary(document, style);
    const table = text.slice(text.indexOf("alternatives"), text.indexOf("what if"));
    for (const { intensity, minutes, expectedLoss, whyNot } of advice.alternatives) {
      const line = table.split("\n").find((one) => one.trim().startsWith(intensity))!;
      expect(line).toContain(` ${minutes} `);
      expect(line).toContain(` ${expectedLoss.toFixed(0)}`);
      expect(whyNot === undefined).toBe(intensity === advice.intensity);
      expect(line).toContain((whyNot ?? "").split(" ")[0]);
    }
    expect(advice.alternatives.map(({ intensity }) => intensity)).toEqual([...intensityNames]);
  });

  it("lists the changes that would alter the advice, in whole sentences", () => {
    const text = terminalSummary(document, style).replace(/\s+/g, " ");
    const { sensitivity } = document.casts.at(-1)!.advice;
    expect(sensitivity.length).toBeGreaterThan(0);
    for (const sentence of sensitivity) expect(text).toContain(sentence);
  });

  it("gives the result of a cleaning on the cast after it, and on no other", () => {
    const shown = (cast: string) => terminalSummary(document, { ...style, cast });
    const { retained, standardUncertainty } = document.casts[3]!.cleaned![0]!;
    expect(shown("004")).toContain(
      `the soak after cast 003 left ${retained.toFixed(2)} ± ${standardUncertainty.toFixed(2)} of the film`,
    );
    expect(shown("003")).not.toContain("after cast 003 left");
    expect(shown("005")).not.toContain("after cast 003 left");
  });

  it("gives the cautions wherever it gives steps", () => {
    for (const { cast, advice } of document.casts) {
      const text = terminalSummary(document, { ...style, cast }).replace(/\s+/g, " ");
      for (const step of advice.steps) expect(text).toContain(step);
      for (const caution of advice.cautions) expect(text).toContain(caution);
    }
  });
});
