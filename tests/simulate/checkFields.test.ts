import { describe, expect, it } from "vitest";
import { BadInput } from "../../src/read/badInput.js";
import { checkFields } from "../../src/simulate/checkFields.js";
import type { SimulatedEvent } from "../../src/simulate/events.js";
import { randomScenario, type Scenario, simulateCruise } from "../../src/simulate/index.js";

/** Every field of every kind of event: the type checker refuses a list that lacks one. */
const whole: {
  readonly [Kind in SimulatedEvent["kind"]]: Required<Extract<SimulatedEvent, { kind: Kind }>>;
} = {
  "film-step": { kind: "film-step", cells: ["primary"], cast: 1, at: "before-cast", ppm: -100 },
  "film-growth": {
    kind: "film-growth",
    cell: "primary",
    fromCast: 1,
    untilCast: 2,
    ppmPerDay: -10,
  },
  transient: {
    kind: "transient",
    cells: ["primary"],
    cast: 1,
    at: { leg: "down", pressure_dbar: 40 },
    ppm: -100,
    recovery_dbar: 20,
  },
  shed: { kind: "shed", cells: ["primary"], cast: 1, retained: 0.1 },
  "calibration-shift": { kind: "calibration-shift", cell: "primary", fromCast: 1, ppm: 100 },
  "additive-offset": {
    kind: "additive-offset",
    cell: "primary",
    fromCast: 1,
    microsiemens_cm: 2,
  },
  "pressure-response": { kind: "pressure-response", cell: "primary", ppmPer1000dbar: 10 },
  "reference-offset": { kind: "reference-offset", of: "run 1", salinity: 0.002 },
  front: { kind: "front", cast: 1, salinity: 0.05 },
  "temperature-error": { kind: "temperature-error", cell: "primary", fromCast: 1, mK: 3 },
  "thermal-lag": { kind: "thermal-lag", cells: ["primary"], cast: 1, factor: 2 },
  "flow-loss": { kind: "flow-loss", cells: ["primary"], cast: 1, flow: 0.3 },
  misalignment: {
    kind: "misalignment",
    cells: ["primary"],
    fromCast: 1,
    untilCast: 2,
    seconds: 0.05,
  },
  cleaning: {
    kind: "cleaning",
    afterCast: 1,
    cells: ["primary"],
    intensity: "wash",
    retained: 0.2,
  },
  "air-reading": {
    kind: "air-reading",
    afterCast: 1,
    cell: "primary",
    rinsed: true,
    drained: true,
    water_microsiemens_cm: 1,
  },
  leak: { kind: "leak", cast: 1, bottle: 1, share: 0.1 },
  "mis-trip": { kind: "mis-trip", cast: 1, bottle: 1, closedWith: 2 },
};
const air = { seconds: 60, draining_microsiemens_cm: 5, draining_s: 9, left_microsiemens_cm: 1 };
const complete: Required<Scenario> = {
  seed: 1,
  casts: 2,
  name: "An invented cruise",
  ocean: "shelf",
  deepest_dbar: 100,
  cells: ["primary", "secondary"],
  bottles: 4,
  bottlePressures_dbar: [100, 60, 30, 5],
  sampling: {
    kind: "time-series",
    rate_Hz: 4,
    shipHeave_dbar: 0.5,
    soak_s: 60,
    deck: { before: air, after: air },
  },
  hoursBetweenCasts: 6,
  laboratory: {
    salinitySd: 0.001,
    runSd: 0.0003,
    castsPerRun: 2,
    wake_dbar: 2,
    leakRate: 0,
    misTripRate: 0,
    newestUnmeasured: 1,
  },
  calibrationResidual_ppm: { primary: 1, secondary: 2 },
  events: Object.values(whole),
};

function refused(given: unknown): BadInput {
  try {
    checkFields(given, "scenario.json");
  } catch (error) {
    if (error instanceof BadInput) return error;
  }
  throw new Error("this scenario was taken");
}
const withEvent = (event: object) => ({ seed: 1, casts: 2, events: [whole.front, event] });

describe("the fields of a scenario", () => {
  it("all fields of the types, and all random scenarios, are accepted", () => {
    expect(checkFields(complete)).toBe(complete);
    for (let seed = 0; seed < 50; seed++) checkFields(randomScenario(seed, "all"));
  });

  it("an offset event with a guessed field name is refused, with the fields expected", () => {
    const event = { kind: "additive-offset", cell: "primary", cast: 2, offset_uS_cm: 5 };
    const { faults, message } = refused(withEvent(event));
    expect(faults[0]).toMatchObject({
      file: "scenario.json",
      column: "event 2 (additive-offset), fromCast",
      found: "nothing",
      expected: "number",
    });
    expect(message).toContain(
      'event 2 (additive-offset): found the fields "cast", "offset_uS_cm", expected the fields kind, cell, fromCast, microsiemens_cm.',
    );
  });

  it("any misspelt field of any event is refused by name", () => {
    for (const event of Object.values(whole)) {
      for (const field of Object.keys(event)) {
        if (field === "kind") continue;
        const { [field]: value, ...rest } = event as unknown as Record<string, unknown>;
        const { message } = refused(withEvent({ ...rest, [`${field}s_`]: value }));
        expect(message).toContain(`event 2 (${event.kind})`);
        expect(message).toContain(`the field "${field}s_"`);
      }
    }
  });

  it("an unknown kind of event is refused, with the known kinds", () => {
    const { message } = refused(withEvent({ kind: "filmstep", cast: 1 }));
    expect(message).toContain(
      'found "filmstep", expected an event of kind film-step, film-growth,',
    );
  });

  it("a misspelt field of scenario, sampling, laboratory or deck is refused, with the fields expected", () => {
    const found = (given: object) => refused({ seed: 1, casts: 2, ...given }).message;
    expect(found({ event: [] })).toContain('found the field "event", expected the fields seed, ');
    expect(found({ laboratory: { leakrate: 1 } })).toContain(
      'column laboratory: found the field "leakrate"',
    );
    expect(found({ sampling: { kind: "averages", layer: 5 } })).toContain("sampling");
    const deck = { before: { second: 3, seconds: 3 } };
    const sampling = { kind: "time-series", rate_Hz: 4, deck };
    expect(found({ sampling })).toContain('sampling.deck.before: found the field "second"');
  });

  it("a scenario with a misspelt field, or that is no object, is not simulated", () => {
    const event = { ...whole["film-step"], ppms: 3 };
    expect(() => simulateCruise(withEvent(event) as unknown as Scenario)).toThrow(BadInput);
    for (const given of [null, 3, "text", [], { seed: 1 }]) refused(given);
  });
});
