// Films of the worlds.
import { describe, expect, it } from "vitest";
import { follow } from "../../../src/simulate/worlds/course.js";
import { type FilmEvent, filmCourse } from "../../../src/simulate/worlds/film.js";

const always = [[0, 100]] as const;
const grows = (shape: "even" | "accelerating" | "levelling-off", deckShare = 1): FilmEvent => ({
  kind: "grows",
  at_h: 10,
  shape,
  ppm: 400,
  hours: 50,
  deckShare,
});

describe("a film", () => {
  it.each(["even", "accelerating", "levelling-off"] as const)(
    "a film with %s growth has its full size after its hours, and never shrinks",
    (shape) => {
      const film = follow(filmCourse([grows(shape)], always, 100));
      expect(film(10)).toBe(0);
      expect(film(60)).toBeCloseTo(400, 6);
      for (let hour = 10; hour < 60; hour++) expect(film(hour + 1)).toBeGreaterThan(film(hour));
    },
  );

  it("at half time an accelerating film is thinner than an even one, a levelling film thicker", () => {
    const half = (shape: "even" | "accelerating" | "levelling-off") =>
      follow(filmCourse([grows(shape)], always, 100))(35);
    expect(half("accelerating")).toBeLessThan(half("even"));
    expect(half("even")).toBeLessThan(half("levelling-off"));
  });

  it("a film that grows only in the water does not grow on deck", () => {
    const film = follow(
      filmCourse(
        [grows("even", 0)],
        [
          [10, 20],
          [30, 40],
        ],
        100,
      ),
    );
    expect(film(20)).toBeCloseTo(80, 6);
    expect(film(30)).toBeCloseTo(80, 6);
    expect(film(40)).toBeCloseTo(160, 6);
  });

  it("a film comes in one step, and a cleaning leaves a part of it", () => {
    const film = follow(
      filmCourse(
        [
          { kind: "arrives", at_h: 12.34, ppm: 200 },
          { kind: "lessens", at_h: 30, left: 0.1 },
        ],
        always,
        100,
      ),
    );
    expect(film(12.33)).toBe(0);
    expect(film(12.35)).toBe(200);
    expect(film(29.9)).toBe(200);
    expect(film(30.1)).toBeCloseTo(20, 9);
  });
});
