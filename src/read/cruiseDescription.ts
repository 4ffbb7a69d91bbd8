// cruise.json: the files of a cruise, and what they do not contain. Its schema is in every bundle with readers, so it is small.
import * as z from "zod/mini";
import { BadInput, type Fault, quoted } from "./badInput.js";
import { castColumnNames } from "./castColumnNames.js";
import { castIdFault } from "./castIds.js";
import { keyLines, readJson } from "./json.js";
import { timeMend } from "./mends.js";
import { timeCell } from "./timeCell.js";
import { timeZonePattern } from "./timeZone.js";
import { valueAt } from "./valueAt.js";

const time = z.pipe(
  z.string().check(z.refine((text) => typeof timeCell(text) === "string", timeMend[0])),
  z.transform((text) => timeCell(text) as string),
);
const filled = z.string().check(z.minLength(1));
/** A file of the folder; no other place is allowed. */
const path = filled.check(
  z.refine(
    (name) => !/^([\\/]|[A-Za-z]:)|(^|[\\/])\.\.([\\/]|$)|\p{Cc}/u.test(name),
    "a file within the cruise folder, named from there",
  ),
);
const cell = z.enum(["primary", "secondary"]);
const serial = z.string().check(z.regex(/^[^\p{Cc}\p{Cf}]{1,100}$/u, "a serial number"));
const day = z.iso.date("a day such as 2031-01-10");
const between = (least: number, most: number) =>
  z.number().check(z.minimum(least), z.maximum(most));
const positive = z.number().check(z.positive());
const share = z.number().check(z.positive(), z.maximum(1));

const description = z.strictObject({
  name: filled,
  note: z.optional(z.string()),
  casts: z._default(
    z.array(
      z.strictObject({
        id: z
          .string()
          .check(z.refine((id) => castIdFault(id) === undefined, "a plain id, such as 001")),
        file: z.optional(path),
        start: z.optional(time),
        latitude: z.optional(between(-90, 90)),
        longitude: z.optional(between(-180, 360)),
        mapping: z.optional(z.partialRecord(z.enum(castColumnNames), z.string())),
        temperatureScale: z.optional(z.enum(["ITS-90", "IPTS-68"])),
        sampleRate_Hz: z.optional(positive),
      }),
    ),
    [],
  ),
  bottles: z.optional(path),
  maintenance: z.optional(path),
  instrument: z._default(
    z.strictObject({
      cells: z.optional(z.array(cell).check(z.minLength(1))),
      flow: z.optional(z.enum(["pumped", "free-flow"])),
      bore_mm: z.optional(positive),
      sampleRate_Hz: z.optional(positive),
      oxygenSensorInLine: z.optional(z.boolean()),
      noAcid: z.optional(z.boolean()),
      serial: z.optional(serial),
      sensors: z.optional(
        z.partialRecord(
          cell,
          z.strictObject({
            cell: z.exactOptional(serial),
            cellCalibrated: z.exactOptional(day),
            thermometer: z.exactOptional(serial),
            thermometerCalibrated: z.exactOptional(day),
          }),
        ),
      ),
      spares: z.optional(
        z.array(
          z.strictObject({
            kind: z.enum(["cell", "thermometer"]),
            serial,
            calibrated: z.exactOptional(day),
          }),
        ),
      ),
    }),
    {},
  ),
  deepWater: z.optional(
    z.strictObject({ file: path, standardUncertainty: share, walk: z.optional(share) }),
  ),
  target: z.optional(share),
  nextStation: z.optional(
    z.strictObject({
      time: z.optional(time),
      minutesAvailable: z.optional(z.number().check(z.minimum(0))),
      air_C: z.optional(between(-90, 60)),
      castsToCome: z.optional(z.int().check(z.minimum(1))),
    }),
  ),
  timeZone: z.optional(
    z.string().check(z.regex(timeZonePattern, "the time on board minus UTC, such as +02:00")),
  ),
});

export type CruiseDescription = z.output<typeof description>;

/**
 * Read a `cruise.json` from text.
 * @throws BadInput with every wrong key, its line and path
 */
export function readCruiseDescription(
  text: string,
  { file }: { readonly file: string },
): CruiseDescription {
  const json = readJson(text, file);
  const lineOf = keyLines(text);
  const parsed = description.safeParse(json, { error: expectedOf });
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
                expected: issue.message,
                mend: "Write it as docs/formats.md says of cruise.json.",
              },
            ],
      ),
    );
  }
  checkIds(parsed.data.casts, lineOf, file);
  return parsed.data;
}

/** What a value must be, where no check of ours says it. */
function expectedOf(issue: z.core.$ZodRawIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return kinds[issue.expected] ?? kinds.object!;
    case "invalid_value":
      return issue.values.join(" or ");
    case "too_small":
      if (issue.origin === "string") return "a text that is not empty";
      return `${issue.inclusive ? "at least" : "more than"} ${issue.minimum}`;
    case "too_big":
      return `at most ${issue.maximum}`;
    default:
      return "what docs/formats.md says of it";
  }
}

/** The kinds of values of JSON, in words. */
const kinds: Readonly<Record<string, string>> = {
  string: "a text",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  array: "a list in [ ]",
  object: "keys and values in { }",
};

type LineOf = ReturnType<typeof keyLines>;

function unknownKey(lineOf: LineOf, file: string, path: readonly PropertyKey[]): Fault {
  return {
    file,
    line: lineOf(path),
    column: path.join("."),
    found: "a key that is not known",
    expected: "the keys that docs/formats.md lists for cruise.json",
    mend: "Correct its spelling, or remove it.",
  };
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
