// A film that a cell ended its last cruise with, at the start of the next. Ships, cells and waters are invented.
import { describe, expect, it } from "vitest";
import { assessCruise, type Cruise } from "../../src/index.js";
import { thirdOf, unmeasured, upTo } from "./shipOverYears.js";

const seeds = [31, 32, 33, 34, 35, 36];
const film_ppm = -150;
/** Ships whose primary cell was fouled all through the second cruise; and through the third, or not. */
const shipsWith = (cruises: readonly number[]) =>
  seeds.map((seed) =>
    thirdOf({ seed, days: 60, walk: 0.5, casts: 3, film: { ppm: film_ppm, cruises } }),
  );
const stayed = shipsWith([1, 2]);
const gone = shipsWith([1]);

type Ship = (typeof stayed)[number];

/** @param isKnown whether the histories tell of the film; they tell of the rest anyway */
function lastOf({ history: whole }: Ship, cruise: Cruise, isKnown: boolean) {
  const history = isKnown ? whole : whole.map(({ filmAtEnd: _, ...record }) => record);
  const { primary } = assessCruise(cruise, { history }).casts.at(-1)!.cells;
  const { causes, gainError } = primary!;
  const fouling = causes.find(({ cause }) => cause === "fouling")?.probability ?? 0;
  return { fouling, ppm: gainError.up.ppm };
}

/** The same cruise, with an entry of this action before its first cast. */
function withEntry(cruise: Cruise, action: string): Cruise {
  const before = new Date(Date.parse(cruise.casts[0]!.start!) - 86_400_000).toISOString();
  const entry = { time: before, action, cell: "primary" } as Cruise["maintenance"][number];
  return { ...cruise, maintenance: [entry, ...cruise.maintenance] };
}

const rootMeanSquare = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length);

describe(`a film of ${film_ppm} ppm that nobody cleaned off (seeds ${seeds[0]} to ${seeds.at(-1)})`, () => {
  it("a film at the end of a cruise is in its record and in the prior of the next cruise", () => {
    // A film from the first cast on may be told as an old calibration: then the record has no film.
    const films = stayed.flatMap(({ history }) => {
      expect(history.findLast(({ serial }) => serial.startsWith("S"))?.filmAtEnd).toBeUndefined();
      return history.findLast(({ serial }) => serial.startsWith("P"))?.filmAtEnd ?? [];
    });
    expect(films.length).toBeGreaterThanOrEqual(4);
    for (const { ppm, probability } of films) {
      expect(ppm).toBeLessThan(film_ppm / 3);
      expect(probability).toBeGreaterThan(0.5);
    }
  });

  it("a film of the last cruise is probable on the first cast without bottles, and the gain is nearer to the truth", () => {
    const seen = stayed.map((ship) => {
      const first = unmeasured(upTo(ship.cruise, 1));
      return { ship, known: lastOf(ship, first, true), blind: lastOf(ship, first, false) };
    });
    const errorOf = (kind: "known" | "blind") =>
      rootMeanSquare(seen.map((one) => one[kind].ppm - (one.ship.clean.primary + film_ppm)));
    for (const { known, blind } of seen)
      expect(known.fouling).toBeGreaterThanOrEqual(blind.fouling);
    const raised = seen.filter(({ known, blind }) => known.fouling > 6 * blind.fouling);
    expect(raised.length).toBeGreaterThanOrEqual(5);
    for (const { known } of raised) expect(known.fouling).toBeGreaterThan(0.35);
    expect(errorOf("known")).toBeLessThan(errorOf("blind"));
  });

  it("a film of the last cruise is rejected if the other cell or bottles show a clean cell", () => {
    for (const ship of gone) {
      expect(lastOf(ship, unmeasured(upTo(ship.cruise, 1)), true).fouling).toBeLessThan(0.5);
      expect(lastOf(ship, ship.cruise, true).fouling).toBeLessThan(0.5);
    }
  });

  it("a recorded cleaning before the first cast removes the film of the last cruise, a rinse does not", () => {
    const [ship] = stayed;
    const first = unmeasured(upTo(ship!.cruise, 1));
    const known = lastOf(ship!, first, true).fouling;
    expect(lastOf(ship!, withEntry(first, "rinse"), true).fouling).toBe(known);
    expect(lastOf(ship!, withEntry(first, "soak"), true).fouling).toBeLessThan(known / 2);
  });
});
