// A spare cell with a history, fitted in the middle of a cruise. Cells, ship and water are invented; the truth is known.
import { describe, expect, it } from "vitest";
import { assessCruise, type Cruise, correctCruise } from "../../src/index.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { recordFor } from "./recordFor.js";
import { unmeasured } from "./shipOverYears.js";

/** Gain of the spare beside that of the cell before it, ppm. */
const step_ppm = -120;
const spare = "K-90";
const calibrated = "2019-01-10";

/** A cruise of three casts; the spare is fitted after the second, and the laboratory has measured nothing since. */
const { cruise: simulated, truth } = simulateCruise({
  seed: 8,
  cells: ["primary"],
  casts: 3,
  deepest_dbar: 1500,
  bottles: 8,
  events: [{ kind: "calibration-shift", cell: "primary", fromCast: 3, ppm: step_ppm }],
});
const [, second] = simulated.casts;
const cruise: Cruise = {
  ...simulated,
  instrument: {
    ...simulated.instrument,
    spares: [{ kind: "cell", serial: spare, calibrated }],
  },
  bottles: [
    ...simulated.bottles.filter(({ cast }) => cast <= second!.id),
    ...unmeasured(simulated).bottles.filter(({ cast }) => cast > second!.id),
  ],
  maintenance: [
    ...simulated.maintenance,
    { action: "exchange", cell: "primary", serial: spare, afterCast: second!.id },
  ],
};
const trueGain = truth[2]!.cells.primary!.cleanGain_ppm;
const seen = { ppm: trueGain, standardUncertainty: 8 };
const history = [
  recordFor({
    serial: spare,
    calibrated,
    cruiseStart: "2019-03-01T00:00:00.000Z",
    from: { cast: "001", start: "2019-03-01T00:00:00.000Z" },
    to: { cast: "009", start: "2019-03-20T00:00:00.000Z" },
    gainError: { first: seen, last: seen },
    cleanGain: { first: seen, last: seen },
  }),
];

const known = assessCruise(cruise, { history }).casts;
const blind = assessCruise(cruise).casts;
const gainAfterExchange = (casts: typeof known) => casts[2]!.cells.primary!.gainError.up;

describe("a spare with a history, fitted in mid-cruise", () => {
  it("starts with its last known gain, and the verdict names the source", () => {
    expect(Math.abs(gainAfterExchange(known).ppm - trueGain)).toBeLessThan(25);
    expect(Math.abs(gainAfterExchange(blind).ppm - trueGain)).toBeGreaterThan(50);
    const [own, other] = [known, blind].map((casts) => gainAfterExchange(casts));
    expect(own!.standardUncertainty).toBeLessThan(other!.standardUncertainty);
    expect(known[2]!.notes.join()).toMatch(/history of primary cell K-90, last seen on/);
    expect(blind[2]!.notes.join()).not.toMatch(/K-90/);
  });

  it("does not change the verdicts on the casts before it was fitted", () => {
    expect(known.slice(0, 2)).toEqual(blind.slice(0, 2));
  });

  it("has no history under another serial number", () => {
    const other = history.map((record) => ({ ...record, serial: "K-91" }));
    expect(assessCruise(cruise, { history: other }).casts).toEqual(blind);
  });

  it("is corrected with its history", () => {
    const of = (settings: Parameters<typeof correctCruise>[1]) =>
      correctCruise(cruise, settings).casts.at(-1)!.cells.primary!.up.surface;
    const own = of({ history });
    expect(Math.abs(own.ppm - trueGain)).toBeLessThan(25);
    expect(own.standardUncertainty).toBeLessThan(of({}).standardUncertainty);
  });
});
