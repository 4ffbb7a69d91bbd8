// The verdict's schema: for programs that read a verdict from a file, and for the JSON Schema that is
// published from it (docs/verdict.schema.json).
import { z } from "zod";
import { intensityNames } from "../cast/maintenance.js";
import { causeNames } from "../causes/index.js";
import { adviceSchema } from "../cleaning/decision/adviceSchema.js";
import { evidenceLines } from "../evidence/lines.js";
import { healthKinds } from "../health/finding.js";
import { verdictFormat } from "./verdict.js";

const probability = z.number().min(0).max(1);
const cellName = z.enum(["primary", "secondary"]);
const legName = z.enum(["down", "up"]);
const dataQuality = z.enum(["sound", "usable-after-correction", "questionable", "bad"]);

const estimate = z
  .object({
    ppm: z.number(),
    standardUncertainty: z.number().min(0),
    interval95: z.tuple([z.number(), z.number()]),
  })
  .meta({ description: "A gain error in ppm of conductivity: measured = true x (1 + ppm x 1e-6)" });

const change = z.object({
  kind: z.enum(["none", "transient", "step", "drift"]),
  sinceCast: z.string().optional(),
  when: z.enum(["from the start", "before", "within", "after"]).optional(),
  leg: legName.optional(),
  pressure_dbar: z.number().optional(),
  probability,
});

const cause = z.object({ cause: z.enum(causeNames), probability, because: z.string() });

const cellVerdict = z.object({
  gainError: z.object({ down: estimate, up: estimate, now: estimate }),
  cleanGain: estimate.meta({
    description: "What the cell reads when clean: its calibration residual",
  }),
  pressureResponse: z.object({
    ppmPer1000dbar: z.number(),
    standardUncertainty: z.number().min(0),
  }),
  salinityError: z.object({
    at35: z.number(),
    standardUncertainty: z.number().min(0),
    inSitu: z.number().optional(),
  }),
  temperatureError: z
    .object({ millikelvin: z.number(), standardUncertainty: z.number().min(0) })
    .optional()
    .meta({ description: "What the thermometer beside the cell is off by" }),
  additiveOffset: z
    .object({ microsiemens_cm: z.number(), standardUncertainty: z.number().min(0) })
    .optional()
    .meta({ description: "What the cell would read in air" }),
  change,
  causes: z.array(cause).min(1).meta({ description: "Most probable first, summing to one" }),
  forecast: z.object({
    hours: z.number().positive(),
    gainError: estimate,
    probabilityBeyondTarget: probability,
  }),
  advice: adviceSchema,
  data: dataQuality,
});

const leftOut = z.object({ what: z.string(), why: z.string() });

const evidenceSummary = z.object({
  line: z.enum(evidenceLines.filter(({ shown }) => shown).map(({ name }) => name)),
  cell: z.enum(["primary", "secondary", "both"]),
  n: z.int().positive(),
  ppm: z.number(),
  standardUncertainty: z.number().min(0),
  weight: probability,
  leftOut: z.array(leftOut),
  notes: z.array(z.string()),
});

const cleaningSeen = z
  .object({
    afterCast: z.string(),
    cell: cellName,
    intensity: z.enum(intensityNames),
    retained: probability,
    standardUncertainty: z.number().min(0),
  })
  .meta({ description: "Share of the film that a cleaning left, told from the casts around it" });

const uncertain = z.number().min(0);

/** Absent where there are too few casts before to be held against. */
const besideUsual = { usual: z.number().optional(), differs: z.boolean().optional() };

const responseSeen = z
  .object({
    alignment: z
      .object({ seconds: z.number(), standardUncertainty: uncertain, ...besideUsual })
      .optional(),
    thermalLag: z
      .object({
        timesUsual: z.number(),
        standardUncertainty: uncertain,
        alpha: z.number().optional(),
        alphaStandardUncertainty: uncertain.optional(),
        tau_s: z.number().optional(),
        tauStandardUncertainty_s: uncertain.optional(),
        ...besideUsual,
      })
      .optional(),
    changes: z.array(z.string()),
  })
  .meta({ description: "How one cell and its thermometer answered on this cast" });

const range = z.object({ from: z.number(), to: z.number() });

const healthFinding = z
  .object({
    kind: z.enum(healthKinds),
    cell: cellName.optional(),
    sensor: z.enum(["conductivity", "temperature", "pressure"]),
    leg: legName.optional(),
    scans: range,
    pressure_dbar: range.optional(),
    size: z.object({ value: z.number(), unit: z.string() }),
    what: z.string(),
    mend: z.string(),
    serious: z.boolean(),
  })
  .meta({ description: "Something amiss with what a sensor read" });

const verdict = z.object({
  cast: z.string(),
  start: z.string().optional(),
  cells: z.partialRecord(cellName, cellVerdict),
  advice: adviceSchema,
  cleaned: z.array(cleaningSeen).min(1).optional(),
  evidence: z.array(evidenceSummary),
  response: z.partialRecord(cellName, responseSeen).optional(),
  health: z.array(healthFinding).min(1).optional(),
  wouldDecide: z.array(z.string()),
  data: dataQuality,
  notes: z.array(z.string()),
});

const inputFile = z.object({
  name: z.string(),
  role: z.enum(["cruise", "cast", "bottles", "maintenance", "reference"]),
  sha256: z.string().optional(),
  rows: z.int().min(0),
  leftOut: z.array(z.object({ line: z.int(), why: z.string() })),
  notes: z.array(z.string()),
});

/** Checks a whole verdict document, as `foulcast assess --json` writes it. */
export const verdictSchema = z
  .object({
    format: z.literal(verdictFormat),
    cruise: z.object({
      name: z.string(),
      note: z.string().optional(),
      target: z.number().positive(),
    }),
    settings: z.object({
      confidence: z.number().min(0.5).max(1),
      procedure: z.enum(["usual", "the ship's own"]),
      trainedHands: z.boolean().optional(),
    }),
    casts: z.array(verdict).min(1),
    latest: z.string(),
    software: z.object({ name: z.string(), version: z.string() }),
    inputs: z.array(inputFile),
  })
  .meta({
    title: "foulcast verdict",
    description: "Verdicts on the conductivity cells of a cruise, cast by cast",
  });
