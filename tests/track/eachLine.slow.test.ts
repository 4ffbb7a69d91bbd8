import { describe, expect, it } from "vitest";
import { estimate } from "../../src/model/estimate.js";
import { defaultRecovery } from "../../src/model/recovery.js";
import { simulateWorld, type WorldName } from "../../src/simulate/worlds/worlds.js";
import { cellView } from "../../src/track/cellView.js";
import { layoutOf } from "../../src/track/layout.js";
import { track } from "../../src/track/track.js";
import type { TrackedInput } from "../../src/track/tracked.js";
import { cruiseEvidence } from "../../src/verdict/gather/cruiseEvidence.js";
import { cellsOf } from "../../src/verdict/gather/knownCruise.js";

/** Cruises by other physics, whose evidence is gathered once. */
const seed = 501;
const worlds = (
  ["film-growing", "film-both-cells", "offset", "thermometer", "film-step"] as WorldName[]
).map((name) => {
  const { cruise, truth } = simulateWorld(name, seed);
  const cells = cellsOf(cruise);
  const inputs = [...cruiseEvidence(cruise)].map(({ tracked }) => tracked);
  const said = (some: readonly TrackedInput[]) =>
    track(cells, some, defaultRecovery).flatMap(({ hypotheses }, i) =>
      cells.map((cell) => {
        const { ppm, standardUncertainty } = estimate(
          cellView(layoutOf(cells), hypotheses, cell).gain("up"),
        );
        const error = ppm - truth[i]!.cells[cell]!.gain_ppm.up;
        return { ppm, standardUncertainty, error };
      }),
    );
  return { name, inputs, said, all: said(inputs) };
});
const lines = [
  ...new Set(
    worlds.flatMap(({ inputs }) => inputs.flatMap((one) => one.observations.map((o) => o.line))),
  ),
].sort();

function without(inputs: readonly TrackedInput[], line: string): readonly TrackedInput[] {
  return inputs.map((input) => ({
    ...input,
    observations: input.observations.filter((one) => one.line !== line),
  }));
}

function withVariance(inputs: readonly TrackedInput[], line: string, factor: number) {
  return inputs.map((input) => ({
    ...input,
    observations: input.observations.map((one) =>
      one.line === line ? { ...one, variance: factor * one.variance } : one,
    ),
  }));
}

function rms(errors: readonly number[]): number {
  return Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
}

describe.each(lines)("the line %s", (line) => {
  const bare = worlds.map(({ inputs, said }) => said(without(inputs, line)));

  it("a line with a very large variance has the same effect as an absent one", () => {
    for (const [k, { name, inputs, said }] of worlds.entries()) {
      for (const [i, { ppm, standardUncertainty }] of said(
        withVariance(inputs, line, 1e14),
      ).entries()) {
        const other = bare[k]![i]!;
        expect(ppm, `${name} ${i}`).toBeCloseTo(other.ppm, 6);
        expect(standardUncertainty, `${name} ${i}`).toBeCloseTo(other.standardUncertainty, 6);
      }
    }
  });

  it("an additional line does not increase the error over the cruises", () => {
    const withIt = rms(worlds.flatMap(({ all }) => all.map(({ error }) => error)));
    const withoutIt = rms(bare.flatMap((said) => said.map(({ error }) => error)));
    // A tenth is what five cruises leave to luck.
    expect(withIt).toBeLessThan(1.1 * withoutIt);
  });
});
