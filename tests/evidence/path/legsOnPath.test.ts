// What the two legs of a cast can see of a film that stays: each row is the up leg minus the down leg at one pressure.
import { expect, test } from "vitest";
import { priorStep_ppm } from "../../../src/evidence/legs/stepThresholds.js";
import { filmsOnPath } from "../../../src/evidence/path/filmsOnPath.js";

const deepest_dbar = 1000;
const pressure = Float64Array.from({ length: 100 }, (_, k) => 5 + 10 * k);
const sd_ppm = 10;

/** Legs with an uncertainty of 10 ppm in each of 100 layers. */
function filmsOf(upLessDown_ppm: (pressure_dbar: number) => number) {
  const legs = {
    value_ppm: pressure.map(upLessDown_ppm),
    weight: pressure.map(() => sd_ppm ** -2),
    at_dbar: pressure.map((p) => 2 * deepest_dbar - p),
    less_dbar: pressure,
    background: [],
  };
  return filmsOnPath([legs], deepest_dbar);
}
const { stays, fades } = filmsOf(() => 0);
const uncertaintyAt = (path_dbar: number) => {
  const place = stays.onset_dbar.findIndex((at) => at >= path_dbar);
  return stays.standardDeviation_ppm[place]!;
};

test("a film that came before nearly all readings of both legs is not seen by their difference", () => {
  expect(uncertaintyAt(0)).toBeGreaterThan(0.03 * priorStep_ppm);
  // One layer only has it on one leg, the uppermost.
  expect(uncertaintyAt(0)).toBeCloseTo((sd_ppm ** -2 + priorStep_ppm ** -2) ** -0.5, 6);
});

test("a film that came at the turn is in all readings of the up leg, and known as well as their mean", () => {
  expect(uncertaintyAt(deepest_dbar)).toBeCloseTo(sd_ppm / Math.sqrt(pressure.length), 2);
});

test("a film is seen as well on the way down at a pressure as on the way up there", () => {
  expect(uncertaintyAt(400)).toBeCloseTo(uncertaintyAt(2 * deepest_dbar - 400), 6);
});

test("legs that differ above a pressure show a film of that size, come there on the way down or up", () => {
  const { stays } = filmsOf((p) => (p < 500 ? -100 : 0));
  // At 200 dbar too, if only the layers above it are asked.
  for (const path_dbar of [200, 500, 2 * deepest_dbar - 500]) {
    const place = stays.onset_dbar.findIndex((at) => at >= path_dbar - 1e-9);
    expect(stays.ppm[place]!).toBeCloseTo(-100, 0);
  }
});

test("a film that has faded before the package comes back is seen as by one leg", () => {
  const { search } = fades.find((one) => one.search.recovery_dbar > 30)!;
  const place = search.onset_dbar.findIndex((at) => at >= 400);
  // Layers of 10 dbar from the place on, each with what is left: a sum of exp(-2 x / L).
  const { recovery_dbar } = search;
  const layers = recovery_dbar / 2 / 10;
  const expected = (layers / sd_ppm ** 2 + priorStep_ppm ** -2) ** -0.5;
  expect(search.standardDeviation_ppm[place]! / expected).toBeCloseTo(1, 1);
});
