// A pump that starts during the lowering: until then one cell reads old water and bubbles (course and sizes: judgement).
import { expect, test } from "vitest";
import { simulateCruise } from "../../../src/simulate/index.js";
import { assessCruise } from "../../../src/verdict/assessCruise.js";

const [film_ppm, starts_dbar] = [-270, 45];

test.each([
  [1, 1.1],
  [2, 1.03],
  [3, 0.8],
])(
  "a pump that starts during the lowering does not hide a film in the other cell (seed %i, old water of %f)",
  (seed, oldWater) => {
    const { cruise, truth } = simulateCruise({
      seed,
      casts: 4,
      deepest_dbar: 1400,
      bottles: 12,
      cells: ["primary", "secondary"],
      events: [
        { kind: "film-step", cells: ["primary"], cast: 4, at: "before-cast", ppm: film_ppm },
      ],
    });
    const { pressure_dbar, secondary } = cruise.casts[3]!.data!.columns;
    const starts = pressure_dbar.findIndex((pressure) => pressure > starts_dbar);
    for (let i = 0; i < starts; i++) secondary!.conductivity_mS_cm[i]! *= oldWater;
    const { cells, notes } = assessCruise(cruise).casts[3]!;
    const named = notes.map(
      (note) => /^secondary cell: above (\d+) dbar .* without flow/.exec(note)?.[1],
    );
    expect(Math.abs(Number(named.find(Boolean)) - starts_dbar)).toBeLessThan(15);
    // With the old water in the pair no known cause fitted, and the film was not told.
    expect(cells.primary!.causes[0]).toMatchObject({ cause: "fouling" });
    for (const cell of ["primary", "secondary"] as const) {
      const { ppm } = cells[cell]!.gainError.up;
      expect(Math.abs(ppm - truth[3]!.cells[cell]!.gain.up)).toBeLessThan(50);
    }
  },
);

test("other water in both cells above a halocline, as in an estuary, is not told as a cell without flow", () => {
  const { cruise } = simulateCruise({
    seed: 1,
    casts: 2,
    deepest_dbar: 50,
    bottles: 6,
    cells: ["primary", "secondary"],
    events: [],
  });
  for (const { data } of cruise.casts) {
    const { pressure_dbar, ...cells } = data!.columns;
    const deepest = pressure_dbar.indexOf(Math.max(...pressure_dbar));
    for (const { conductivity_mS_cm } of [cells.primary, cells.secondary!]) {
      // The tide has brought water that is 5 % saltier by the way up.
      for (let i = 0; i < deepest; i++) if (pressure_dbar[i]! < 15) conductivity_mS_cm[i]! *= 0.95;
    }
  }
  for (const { notes } of assessCruise(cruise).casts) {
    expect(notes.filter((note) => note.includes("without flow"))).toEqual([]);
  }
});
