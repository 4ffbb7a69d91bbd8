// The allowed fields of a scenario and of each of its events. Their allowed values: checkScenario.ts.
import * as z from "zod";
import { intensityNames } from "../cast/maintenance.js";
import { cellName, legName } from "../model/parts.js";
import { oceanNames } from "./oceans.js";
import type { Scenario } from "./scenario.js";

/** An object with these fields and no other; a fault names them. */
function exactly<Shape extends z.ZodRawShape>(shape: Shape) {
  const fields = `the fields ${Object.keys(shape).join(", ")}`;
  return z.strictObject(shape, {
    error: ({ code }) => (code === "unrecognized_keys" ? fields : undefined),
  });
}

function event<Kind extends string, Shape extends z.ZodRawShape>(kind: Kind, shape: Shape) {
  return exactly({ kind: z.literal(kind), ...shape });
}

const cells = z.array(cellName);
const cast = z.number();
const place = exactly({ leg: legName, pressure_dbar: z.number() });
const at = z.union([z.literal("before-cast"), place], {
  error: '"before-cast" or { leg, pressure_dbar }',
});

const events = [
  event("film-step", { cells, cast, at, ppm: z.number() }),
  event("film-growth", {
    cell: cellName,
    fromCast: cast,
    untilCast: cast.exactOptional(),
    ppmPerDay: z.number(),
  }),
  event("transient", { cells, cast, at: place, ppm: z.number(), recovery_dbar: z.number() }),
  event("shed", { cells, cast, retained: z.number() }),
  event("calibration-shift", { cell: cellName, fromCast: cast, ppm: z.number() }),
  event("additive-offset", { cell: cellName, fromCast: cast, microsiemens_cm: z.number() }),
  event("pressure-response", { cell: cellName, ppmPer1000dbar: z.number() }),
  event("reference-offset", {
    of: z.union([z.array(cast), z.string()], { error: "a list of casts or the label of a run" }),
    salinity: z.number(),
  }),
  event("front", { cast, salinity: z.number() }),
  event("temperature-error", { cell: cellName, fromCast: cast, mK: z.number() }),
  event("thermal-lag", { cells, cast, factor: z.number() }),
  event("flow-loss", { cells, cast, flow: z.number() }),
  event("misalignment", {
    cells,
    fromCast: cast,
    untilCast: cast.exactOptional(),
    seconds: z.number(),
  }),
  event("cleaning", {
    afterCast: cast,
    cells: cells.exactOptional(),
    intensity: z.enum(intensityNames).exclude(["exchange"]),
    retained: z.number(),
  }),
  event("air-reading", {
    afterCast: cast,
    cell: cellName,
    rinsed: z.boolean(),
    drained: z.boolean(),
    water_microsiemens_cm: z.number().exactOptional(),
  }),
  event("leak", { cast, bottle: z.number(), share: z.number() }),
  event("mis-trip", { cast, bottle: z.number(), closedWith: z.number() }),
] as const;

const kinds = events.map(({ shape }) => shape.kind.value).join(", ");

const timeInAir = exactly({
  seconds: z.number(),
  draining_microsiemens_cm: z.number().exactOptional(),
  draining_s: z.number().exactOptional(),
  left_microsiemens_cm: z.number().exactOptional(),
});

const laboratory = exactly({
  salinitySd: z.number().exactOptional(),
  runSd: z.number().exactOptional(),
  castsPerRun: z.number().exactOptional(),
  wake_dbar: z.number().exactOptional(),
  leakRate: z.number().exactOptional(),
  misTripRate: z.number().exactOptional(),
  newestUnmeasured: z.number().exactOptional(),
});

const sampling = z.discriminatedUnion(
  "kind",
  [
    exactly({ kind: z.literal("averages"), layer_dbar: z.number() }),
    exactly({
      kind: z.literal("time-series"),
      rate_Hz: z.number(),
      shipHeave_dbar: z.number().exactOptional(),
      soak_s: z.number().exactOptional(),
      deck: exactly({
        before: timeInAir.exactOptional(),
        after: timeInAir.exactOptional(),
      }).exactOptional(),
    }),
  ],
  { error: "averages or time-series" },
);

export const scenarioSchema = exactly({
  seed: z.number(),
  casts: z.number(),
  name: z.string().exactOptional(),
  ocean: z.enum(oceanNames).exactOptional(),
  deepest_dbar: z.number().exactOptional(),
  cells: cells.exactOptional(),
  bottles: z.number().exactOptional(),
  bottlePressures_dbar: z.array(z.number()).exactOptional(),
  sampling: sampling.exactOptional(),
  hoursBetweenCasts: z.number().exactOptional(),
  laboratory: laboratory.exactOptional(),
  calibrationResidual_ppm: exactly({
    primary: z.number().exactOptional(),
    secondary: z.number().exactOptional(),
  }).exactOptional(),
  events: z
    .array(z.discriminatedUnion("kind", events, { error: `an event of kind ${kinds}` }))
    .exactOptional(),
}) satisfies z.ZodType<Scenario>;
