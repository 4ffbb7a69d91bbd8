// A film that begins to grow on a cast: the gain falls in proportion to the time since the start of the down leg.
import { describe, expect, it } from "vitest";
import { fouling } from "../../src/causes/fouling.js";
import { designRow } from "../../src/model/designRow.js";
import { cellEvents } from "../../src/model/eventHistory.js";
import { cellIndex } from "../../src/model/layout.js";
import { gainOf } from "../../src/model/observation.js";
import { layoutOf } from "../../src/track/layout.js";
import { directionOf } from "../../src/track/update.js";
import { newCast } from "./newCast.js";

const layout = layoutOf(["primary"]);
const path = { days: 0.125, deepest_dbar: 3000 };

function growthProposals(inWater_days: number, onDeck_days = 0) {
  return fouling
    .propose(newCast({ inWater_days, onDeck_days }))
    .filter(({ events }) => events && cellEvents(events, "primary").film?.kind === "drift");
}

/** Effect of one ppm a day on the gain in some water of the cast, ppm. */
function effectOn(leg: "down" | "up", pressure_dbar: number) {
  const [growth] = growthProposals(path.days);
  const direction = directionOf(layout, growth!.coefficients[0]!);
  const observation = {
    line: "legs",
    cast: "004",
    design: [gainOf("primary", leg)],
    unit: "ppm",
    value: 0,
    variance: 1,
    pressure_dbar,
  } as const;
  const row = designRow(layout, observation, {}, path);
  return row.reduce((sum, weight, i) => sum + weight * direction[i]!, 0);
}

describe("a film that begins to grow on a cast", () => {
  it("has grown by its rate times the time in the water at each place of the path", () => {
    for (const [leg, pressure, share] of [
      ["down", 0, 0],
      ["down", 1500, 0.25],
      ["down", 3000, 0.5],
      ["up", 3000, 0.5],
      ["up", 1500, 0.75],
      ["up", 0, 1],
    ] as const) {
      expect(effectOn(leg, pressure)).toBeCloseTo(share * path.days, 12);
    }
  });

  it("has all of that growth at the end of the up leg", () => {
    const [growth] = growthProposals(path.days);
    const direction = directionOf(layout, growth!.coefficients[0]!);
    expect(direction[cellIndex(layout, "primary", "filmUp")]).toBe(path.days);
    expect(direction[cellIndex(layout, "primary", "filmDown")]).toBe(0);
  });

  it("may have begun on deck, and then is there before the lowering", () => {
    const slot = cellIndex(layout, "primary", "filmDown");
    const atStart = (days: number) =>
      new Set(
        growthProposals(path.days, days).map(
          ({ coefficients }) => directionOf(layout, coefficients[0]!)[slot]!,
        ),
      );
    // In half of 0.2 days; on deck it may grow at a quarter of the rate.
    expect(atStart(0.2)).toEqual(new Set([0, 0.1, 0.025]));
    expect(atStart(0)).toEqual(new Set([0]));
  });

  it("may grow less on deck, which only scans can tell", () => {
    const onDeck = (days: number) =>
      new Set(
        growthProposals(days).map(({ events }) => cellEvents(events!, "primary").film?.onDeck),
      );
    expect(onDeck(path.days)).toEqual(new Set([undefined, "less"]));
    expect(onDeck(0)).toEqual(new Set([undefined]));
  });

  it("is as probable with scans as without", () => {
    const prior = (days: number) =>
      growthProposals(days).reduce((sum, proposal) => sum + proposal.prior, 0);
    expect(prior(path.days)).toBeCloseTo(prior(0), 12);
  });
});
