// A made-up cruise whose log gives closure times to the minute.
import { describe, expect, it } from "vitest";
import type { Bottle } from "../../src/cast/bottle.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { simulateWorld } from "../../src/simulate/worlds/worlds.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { documentOf } from "../../src/verdict/incremental/cruiseState.js";
import { addCast, openCruise } from "../../src/verdict/incremental/openCruise.js";

const { cruise: made } = simulateWorld("sound", 1, { rate_Hz: 1, casts: 3 });
const starts = new Map(made.casts.map(({ id, start }) => [id, Date.parse(start!)]));
const timed = (closureTime: (bottle: Bottle) => string | undefined): Cruise => ({
  ...made,
  bottles: made.bottles.map(({ time_s, ...bottle }) => {
    const time = closureTime({ ...bottle, ...(time_s === undefined ? {} : { time_s }) });
    return time === undefined ? bottle : { ...bottle, closureTime: time };
  }),
});
const closedAt = ({ cast, time_s }: Bottle) => starts.get(cast)! + 1e3 * time_s!;
const toTheMinute = timed((bottle) =>
  new Date(60e3 * Math.floor(closedAt(bottle) / 60e3)).toISOString(),
);
const without = timed(() => undefined);
const exact = timed((bottle) => new Date(closedAt(bottle)).toISOString());

describe("a cruise whose closure times are cut to the minute", () => {
  const cut = assessCruise(toTheMinute);

  it("closure times cut to the minute give the verdicts without closure times, and one note", () => {
    const none = assessCruise(without);
    expect(cut.casts).toEqual(none.casts);
    const notes = cut.inputs.flatMap(({ notes }) => notes);
    expect(notes.filter((note) => note.includes("end on the whole minute"))).toEqual([
      `the closure times of ${made.bottles.length} bottles end on the whole minute: bottles of such casts are placed by pressure`,
    ]);
    expect(none.inputs.flatMap(({ notes }) => notes).join()).not.toContain("whole minute");
  });

  it("closure times cut to the minute give gains within their uncertainty of those with exact times", () => {
    for (const [i, { cells }] of assessCruise(exact).casts.entries()) {
      for (const cell of ["primary", "secondary"] as const) {
        const [own, other] = [cells[cell]?.gainError.up, cut.casts[i]!.cells[cell]?.gainError.up];
        if (own === undefined || other === undefined) continue;
        expect(Math.abs(own.ppm - other.ppm)).toBeLessThan(other.standardUncertainty);
      }
    }
  });

  it("closure times cut to the minute give the same verdicts cast by cast", () => {
    const { casts, bottles, inputs: _, maintenance: __, ...opening } = toTheMinute;
    let state = openCruise(opening);
    for (const cast of casts) {
      state = addCast(state, cast, {
        bottles: bottles.filter((one) => one.cast === cast.id),
      }).state;
    }
    const whole = assessCruise({ ...toTheMinute, maintenance: [] });
    expect(documentOf(state).casts).toEqual(whole.casts);
  });
});
