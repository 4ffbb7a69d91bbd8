// The schema of a ladder: a ship's own procedure and the defaults must satisfy it.
import * as z from "zod";
import { intensityNames } from "../../cast/maintenance.js";
import { ceilings } from "../chemistry/ceilings.js";
import { unitOf } from "../chemistry/stock.js";
import { figureName, figuresOf, type Ladder } from "./intensity.js";

const sentence = z.string().min(1);
const figure = z.object({
  value: z.number().positive(),
  unit: sentence,
  source: sentence.meta({
    description:
      'A reference, "common practice, no source", "judgement", or the ship\'s own procedure',
  }),
});

const solution = z
  .object({
    kind: z.enum(["water", "detergent", "hypochlorite", "acid"]),
    name: sentence,
    concentration: figure.exactOptional(),
  })
  .refine(
    ({ kind, concentration }) =>
      kind === "water" ? concentration === undefined : concentration?.unit === unitOf[kind],
    {
      error: ({ input }) =>
        `a solution other than water needs a concentration in ${Object.values(unitOf).join(", ")}, as its kind asks; found ${JSON.stringify(input)}`,
    },
  );

const intensity = z
  .object({
    name: z.enum(intensityNames),
    deep: z.boolean(),
    hands: z.enum(["watch", "trained"]),
    summary: sentence,
    solutions: z.array(solution).min(1),
    minutes: figure,
    oxygenSensorMinutes: figure.exactOptional(),
    fill: figure,
    soak: figure.exactOptional(),
    strokes: figure.exactOptional(),
    repeats: figure,
    flush: figure.meta({ description: "Every cleaning ends with a flush" }),
    steps: z
      .array(
        z.object({
          text: sentence,
          when: z
            .enum(["pumped", "free-flow", "oxygen sensor in line", "no oxygen sensor in line"])
            .exactOptional(),
        }),
      )
      .min(1),
    worksAgainst: z.array(sentence),
    mustNotTouch: z.array(sentence),
    materials: z.array(sentence),
  })
  .superRefine((rung, context) => {
    const complain = (path: string, message: string) =>
      context.addIssue({ code: "custom", path: [path], message });
    const kinds = rung.solutions.map(({ kind }) => kind);
    if (rung.deep !== intensityNames.indexOf(rung.name) >= intensityNames.indexOf("soak")) {
      complain("deep", "soak and harder are deep, rinse and wash are not");
    }
    if (kinds.includes("acid") && kinds.some((kind) => kind !== "acid" && kind !== "water")) {
      complain("solutions", "acid is not used in one cleaning with hypochlorite or detergent");
    }
    if (kinds.includes("acid") && rung.hands !== "trained") {
      complain("hands", "acid is for trained people");
    }
    for (const { kind, concentration } of rung.solutions) {
      if (kind === "water" || concentration === undefined) continue;
      if (concentration.value <= ceilings[kind]) continue;
      complain("solutions", `${kind} of at most ${ceilings[kind]} ${unitOf[kind]}`);
    }
    const figures = figuresOf(rung);
    rung.steps.forEach(({ text }, i) => {
      for (const [whole, name] of text.matchAll(figureName)) {
        if (name === undefined || figures.has(name)) continue;
        context.addIssue({
          code: "custom",
          path: ["steps", i, "text"],
          message: `${whole} is not a figure of this intensity: ${[...figures.keys()].join(", ")}`,
        });
      }
    });
  });

/** The six intensities, lightest first. */
export const ladderSchema: z.ZodType<Ladder> = z
  .array(intensity)
  .refine(
    (rungs) =>
      rungs.length === intensityNames.length &&
      rungs.every(({ name }, i) => name === intensityNames[i]),
    { error: `the ladder has ${intensityNames.join(", ")}, each once, in this order` },
  );
