import { describe, expect, it } from "vitest";
import type { Bottle } from "../../../src/cast/bottle.js";
import { copiedSalinities } from "../../../src/evidence/bottles/copiedSalinities.js";
import { seeded } from "../seeded.js";
import { type Closure, calm, column, reading } from "./closures.js";

const rounded = (value: number, step: number) => Math.round(value / step) * step;

/** Casts with bottles at these closures, measured to a step. */
function cruiseOf(casts: readonly (readonly Closure[])[], step: number, seed = 1) {
  const { normal } = seeded(seed);
  const bottles = new Map(
    casts.map((closures, i) => {
      const cast = String(i + 1).padStart(3, "0");
      const own = closures.map((closure, k): Bottle => {
        const laboratory = 0.0008 * normal();
        return {
          cast,
          bottle: String(k + 1),
          pressure_dbar: closure.pressure_dbar,
          salinity: rounded(closure.salinity + laboratory, step),
          ctd: { primary: reading(closure, -60) },
        };
      });
      return [cast, own] as const;
    }),
  );
  return { casts: [...bottles.keys()].map((id) => ({ id })), bottles };
}

const pressures = [3000, 2500, 2000, 1500, 1200, 1000, 800, 600, 400, 200, 100, 20];
/** Each cast a little deeper than the last, as stations are. */
const stations = (count: number) =>
  Array.from({ length: count }, (_, i) => pressures.map((p) => column(p * (1 + 0.02 * i))));

const withCopy = (
  { casts, bottles }: ReturnType<typeof cruiseOf>,
  from: string,
  to: string,
  which: (k: number) => number | undefined,
) => {
  const source = bottles.get(from)!;
  const copy = bottles.get(to)!.map((bottle, k) => {
    const at = which(k);
    return at === undefined ? bottle : { ...bottle, salinity: source[at]!.salinity };
  });
  return { casts, bottles: new Map(bottles).set(to, copy) };
};
const found = ({ casts, bottles }: ReturnType<typeof cruiseOf>) =>
  [...copiedSalinities(casts, bottles, ["primary"])].map(([{ cast, bottle }, why]) => ({
    at: `${cast}/${bottle}`,
    why,
  }));

describe("salinities that occur on two casts", () => {
  it("copied salinities are reported on the cast where they do not follow the CTD", () => {
    const cruise = cruiseOf(stations(6), 0.0001);
    for (const [from, to] of [
      ["002", "005"],
      ["005", "002"],
    ] as const) {
      const copies = found(withCopy(cruise, from, to, (k) => k));
      expect(copies.map(({ at }) => at)).toEqual(pressures.map((_, k) => `${to}/${k + 1}`));
      expect(copies[0]!.why).toBe(
        `copied: 12 bottles in a row have the salinities of cast ${from}`,
      );
    }
  });

  it("copied salinities are found from four in a row on, at other places of the cast, and rounded to 0.001", () => {
    for (const step of [0.001, 0.0001]) {
      const cruise = cruiseOf(stations(6), step);
      const shifted = withCopy(cruise, "001", "004", (k) => (k >= 3 && k < 8 ? k + 2 : undefined));
      expect(found(shifted).map(({ at }) => at)).toEqual([4, 5, 6, 7, 8].map((k) => `004/${k}`));
      const three = withCopy(cruise, "001", "004", (k) => (k >= 3 && k < 6 ? k + 2 : undefined));
      expect(found(three)).toEqual([]);
    }
  });

  it("salinities that are equal by chance, as in calm deep water, are not copies", () => {
    for (let seed = 1; seed <= 20; seed++) {
      const casts = Array.from({ length: 12 }, () => calm(12));
      expect(found(cruiseOf(casts, 0.001, seed))).toEqual([]);
    }
  });

  it("a cruise with its own samples has no copied salinities", () => {
    for (let seed = 1; seed <= 10; seed++) {
      expect(found(cruiseOf(stations(12), 0.001, seed))).toEqual([]);
      expect(found(cruiseOf(stations(12), 0.0001, seed))).toEqual([]);
    }
  });

  it("without CTD readings copied salinities stay on the first cast", () => {
    const { casts, bottles } = withCopy(cruiseOf(stations(4), 0.0001), "001", "003", (k) => k);
    const bare = new Map(
      [...bottles].map(([cast, own]) => [cast, own.map(({ ctd: _, ...rest }) => rest)] as const),
    );
    const copies = [...copiedSalinities(casts, bare, ["primary"]).keys()];
    expect(new Set(copies.map(({ cast }) => cast))).toEqual(new Set(["003"]));
  });
});
