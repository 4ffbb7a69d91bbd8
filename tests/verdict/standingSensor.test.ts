// Made-up faults: a column of one value beside a good cell, as a broken cable or a bad export gives it.
import { describe, expect, it } from "vitest";
import type { CellColumns, CellName } from "../../src/cast/cast.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { type SimulatedEvent, simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { headlineOf } from "../../src/words/headline.js";

const sampling = { kind: "averages", layer_dbar: 10 } as const;
const scenario = { seed: 5, casts: 3, deepest_dbar: 800, sampling };
/** Three casts of one cell. */
const made = (...events: SimulatedEvent[]) =>
  simulateCruise({ ...scenario, cells: ["primary"], events }).cruise;
const sound = made();
/** Two casts of two cells. */
const two = simulateCruise({ ...scenario, casts: 2 }).cruise;

/** The cruise with one column standing at its value of one scan, on its last casts. */
function standing(
  cruise: Cruise,
  cell: CellName,
  sensor: keyof CellColumns,
  casts: number,
  share = 1,
): Cruise {
  return {
    ...cruise,
    casts: cruise.casts.map((cast, i) => {
      const columns = cast.data!.columns;
      if (i < cruise.casts.length - casts) return cast;
      const column = columns[cell]![sensor];
      const stands = column.map((value, k) => (k < share * column.length ? column[20]! : value));
      const faulty = { ...columns[cell]!, [sensor]: stands };
      return { ...cast, data: { ...cast.data!, columns: { ...columns, [cell]: faulty } } };
    }),
  };
}

const lastOf = (cruise: Cruise) => assessCruise(cruise).casts.at(-1)!;

describe("a sensor that gives one value throughout a cast", () => {
  it.each([
    ["secondary", "primary", 1, "conductivity_mS_cm"],
    ["secondary", "primary", 2, "temperature_C"],
    ["primary", "secondary", 1, "temperature_C"],
    ["primary", "secondary", 2, "conductivity_mS_cm"],
  ] as const)(
    "of the %s cell: that cell is undetermined and its data bad, the %s cell judged as alone (%i casts, %s)",
    (faulty, good, casts, sensor) => {
      const verdict = lastOf(standing(two, faulty, sensor, casts));
      const told = verdict.cells[faulty]!;
      expect(told.causes[0]!.cause).toBe("undetermined");
      expect(told.causes.map(({ cause }) => cause)).not.toContain("sound");
      expect(told.causes[0]!.because).toContain("gave one value");
      expect(told.data).toBe("bad");
      expect(verdict.data).toBe("bad");
      expect(verdict.cells[good]!.causes[0]!.cause).toBe("sound");
      expect(verdict.cells[good]!.data).toBe("sound");
      const { cells, salinity } = headlineOf(verdict);
      expect(cells.find(({ cell }) => cell === faulty)!.clean).toBe("open");
      expect(salinity).toContain(`Use the salinity of the ${good} cell as it is.`);
      expect(verdict.advice.because).not.toContain(`${faulty} cell is sound`);
      const sum = told.causes.reduce((all, { probability }) => all + probability, 0);
      expect(sum).toBeCloseTo(1, 9);
    },
  );

  it("a stuck sensor does not remove the film of earlier casts", () => {
    const film = { kind: "film-step", cells: ["primary"], cast: 2, at: "before-cast", ppm: -400 };
    const fouled = made(film as SimulatedEvent);
    const { causes, data } = lastOf(standing(fouled, "primary", "conductivity_mS_cm", 1)).cells
      .primary!;
    expect(causes[0]!.cause).toBe("fouling");
    expect(data).toBe("bad");
  });

  it("a sensor stuck for part of the cast leaves the estimate from the rest, and the data are questionable", () => {
    const verdict = lastOf(standing(sound, "primary", "conductivity_mS_cm", 1, 0.1));
    expect(verdict.cells.primary!.data).not.toBe("bad");
    expect(verdict.data).toBe("questionable");
  });

  it("after a cast with a stuck sensor the cell is judged again on the next cast", () => {
    const casts = standing(sound, "primary", "conductivity_mS_cm", 2).casts;
    const again = { ...sound, casts: [...casts.slice(0, 2), sound.casts[2]!] };
    const [, second, third] = assessCruise(again).casts;
    expect(second!.cells.primary!.causes[0]!.cause).toBe("undetermined");
    expect(third!.cells.primary!.causes[0]!.cause).toBe("sound");
  });

  it("sensors of both cells stuck at the same time are found from the change of temperature", () => {
    const both = standing(
      standing(two, "primary", "conductivity_mS_cm", 1),
      "secondary",
      "conductivity_mS_cm",
      1,
    );
    for (const { causes, data } of Object.values(lastOf(both).cells)) {
      expect(causes[0]!.cause).toBe("undetermined");
      expect(data).toBe("bad");
    }
  });
});
