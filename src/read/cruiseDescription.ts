// cruise.json: which files make a cruise, and what they do not say themselves.
import { z } from "zod";
import { BadInput, type Fault, quoted } from "./badInput.js";
import { castColumnNames } from "./castColumnNames.js";
import { castIdFault } from "./castIds.js";
import { keyLines, readJson } from "./json.js";
import { timeCell } from "./timeCell.js";
import { timeZonePattern } from "./timeZone.js";

const time = z
  .string()
  .refine((text) => typeof timeCell(text) === "string", "a time as 2031-05-04T12:30:00Z")
  .transform((text) => timeCell(text) as string);
/** A file of the folder: no other place can be named. */
const path = z
  .string()
  .min(1)
  .refine(
    (name) => !/^([\\/]|[A-Za-z]:)|(^|[\\/])\.\.([\\/]|$)|\p{Cc}/u.test(name),
    "a file within the cruise folder, named from there",
  );
const cell = z.enum(["primary", "secondary"]);
const serial = z.string().regex(/^[^\p{Cc}\p{Cf}]{1,100}$/u, "a serial number");
const day = z.iso.date("a day as 2031-01-10");
const timeZone = z.string().regex(timeZonePattern, "the time on board less UTC, as +02:00");

const description = z.strictObject({
  name: z.string().min(1),
  note: z.string().optional(),
  casts: z
    .array(
      z.strictObject({
        id: z.string().refine((id) => castIdFault(id) === undefined, "a plain id, as 001"),
        file: path.optional(),
        start: time.optional(),
        latitude: z.number().min(-90).max(90).optional(),
        longitude: z.number().min(-180).max(360).optional(),
        mapping: z.partialRecord(z.enum(castColumnNames), z.string()).optional(),
        temperatureScale: z.enum(["ITS-90", "IPTS-68"]).optional(),
        sampleRate_Hz: z.number().positive().optional(),
      }),
    )
    .default([]),
  bottles: path.optional(),
  maintenance: path.optional(),
  instrument: z
    .strictObject({
      cells: z.array(cell).min(1).optional(),
      flow: z.enum(["pumped", "free-flow"]).optional(),
      bore_mm: z.number().positive().optional(),
      sampleRate_Hz: z.number().positive().optional(),
      oxygenSensorInLine: z.boolean().optional(),
      noAcid: z.boolean().optional(),
      serial: serial.optional(),
      sensors: z
        .partialRecord(
          cell,
          z.strictObject({
            cell: serial.exactOptional(),
            cellCalibrated: day.exactOptional(),
            thermometer: serial.exactOptional(),
            thermometerCalibrated: day.exactOptional(),
          }),
        )
        .optional(),
      spares: z
        .array(
          z.strictObject({
            kind: z.enum(["cell", "thermometer"]),
            serial,
            calibrated: day.exactOptional(),
          }),
        )
        .optional(),
    })
    .default({}),
  deepWater: z
    .strictObject({
      file: path,
      standardUncertainty: z.number().positive().max(1),
      walk: z.number().positive().max(1).optional(),
    })
    .optional(),
  target: z.number().positive().max(1).optional(),
  nextStation: z
    .strictObject({
      time: time.optional(),
      minutesAvailable: z.number().min(0).optional(),
      air_C: z.number().min(-90).max(60).optional(),
      castsToCome: z.number().int().min(1).optional(),
    })
    .optional(),
  timeZone: timeZone.optional(),
});

export type CruiseDescription = z.output<typeof description>;

/** @throws BadInput naming every key that is wrong, with its line and path */
export function readCruiseDescription(
  text: string,
  { file }: { readonly file: string },
): CruiseDescription {
  const json = readJson(text, file);
  const lineOf = keyLines(text);
  const parsed = description.safeParse(json);
  if (!parsed.success) {
    throw new BadInput(
      parsed.error.issues.flatMap((issue) =>
        issue.code === "unrecognized_keys"
          ? issue.keys.map((key) => unknownKey(lineOf, file, [...issue.path, key]))
          : [
              {
                file,
                line: lineOf(issue.path) || 1,
                column: issue.path.join(".") || "(the whole)",
                found: quoted(valueAt(json, issue.path)),
                expected: issue.message.replace(/^Invalid input: expected /, ""),
                mend: "Write it as docs/formats.md says of cruise.json.",
              },
            ],
      ),
    );
  }
  checkIds(parsed.data.casts, lineOf, file);
  return parsed.data;
}

type LineOf = ReturnType<typeof keyLines>;

function unknownKey(lineOf: LineOf, file: string, path: readonly PropertyKey[]): Fault {
  return {
    file,
    line: lineOf(path),
    column: path.join("."),
    found: "a key that is not known",
    expected: "the keys that docs/formats.md lists for cruise.json",
    mend: "Mend its spelling, or take it out.",
  };
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (at, key) =>
      typeof at === "object" && at !== null && Object.hasOwn(at, key)
        ? (at as Record<PropertyKey, unknown>)[key]
        : undefined,
    value,
  );
}

function checkIds(casts: readonly { readonly id: string }[], lineOf: LineOf, file: string): void {
  const seen = new Set<string>();
  const repeated: number[] = [];
  for (const [i, { id }] of casts.entries()) {
    if (seen.has(id)) repeated.push(i);
    seen.add(id);
  }
  if (repeated.length === 0) return;
  throw new BadInput(
    repeated.map((i) => ({
      file,
      line: lineOf(["casts", i, "id"]),
      column: `casts.${i}.id`,
      found: `the id ${casts[i]!.id} a second time`,
      expected: "each cast once",
      mend: "Give each cast an id of its own.",
    })),
  );
}
