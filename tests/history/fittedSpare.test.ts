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

/** A cruise of four casts; the spare is fitted after the second, and the laboratory has measured nothing since. */
const { cruise: simulated, truth } = simulateCruise({
  seed: 8,
  cells: ["primary"],
  casts: 4,
  deepest_dbar: 1500,
  bottles: 8,
  events: [{ kind: "calibration-shift", cell: "primary", fromCast: 3, ppm: step_ppm }],
});
const [, second, third] = simulated.casts;
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

const afterExchange = (settings: Parameters<typeof assessCruise>[1]) =>
  assessCruise(cruise, settings).casts.find(({ cast }) => cast === third!.id)!;

describe("a spare with a history, fitted in mid-cruise", () => {
  it("a fitted spare starts with its last known gain, and the verdict names the source", () => {
    const known = afterExchange({ history });
    const blind = afterExchange({});
    const [gain, without] = [known, blind].map(({ cells }) => cells.primary!.gainError.up);
    expect(Math.abs(gain!.ppm - trueGain)).toBeLessThan(25);
    expect(Math.abs(without!.ppm - trueGain)).toBeGreaterThan(50);
    expect(gain!.standardUncertainty).toBeLessThan(without!.standardUncertainty);
    expect(known.notes.join()).toMatch(/history of primary cell K-90, last seen on/);
    expect(blind.notes.join()).not.toMatch(/K-90/);
  });

  it("the history of a spare changes nothing on the casts before it was fitted", () => {
    const [known, blind] = [{ history }, {}].map((one) => assessCruise(cruise, one).casts[0]!);
    expect(known).toEqual(blind);
  });

  it("a spare with another serial number has no history", () => {
    const other = history.map((record) => ({ ...record, serial: "K-91" }));
    expect(afterExchange({ history: other })).toEqual(afterExchange({}));
  });

  it("a fitted spare is corrected with its history", () => {
    const of = (settings: Parameters<typeof correctCruise>[1]) =>
      correctCruise(cruise, settings).casts.at(-1)!.cells.primary!.up.surface;
    expect(Math.abs(of({ history }).ppm - trueGain)).toBeLessThan(25);
    expect(of({ history }).standardUncertainty).toBeLessThan(of({}).standardUncertainty);
  });
});
