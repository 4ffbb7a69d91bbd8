import { describe, expect, it } from "vitest";
import { readCruise } from "../../src/node/readCruise.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { verdictSchema } from "../../src/verdict/verdictSchema.js";

type Json = { [key: string]: Json } | Json[] | string | number | boolean | null;

/** Every object within a value. */
function objectsOf(value: Json): readonly { [key: string]: Json }[] {
  if (value === null || typeof value !== "object") return [];
  const within = Object.values(value).flatMap(objectsOf);
  return Array.isArray(value) ? within : [value, ...within];
}

describe("the schema of a verdict", () => {
  it("the schema refuses an unknown key in any object of the demo document", async () => {
    const cruise = await readCruise("fixtures/demo-cruise");
    const whole = assessCruise(cruise);
    const document = JSON.parse(JSON.stringify({ ...whole, casts: whole.casts.slice(-1) })) as Json;
    expect(verdictSchema.safeParse(document).success).toBe(true);
    const objects = objectsOf(document);
    expect(objects.length).toBeGreaterThan(50);
    for (const object of objects) {
      object.strange = 1;
      expect(verdictSchema.safeParse(document).success, JSON.stringify(object)).toBe(false);
      delete object.strange;
    }
  });

  it("the schema refuses a key without a value: a missing value is an absent key", async () => {
    const cruise = await readCruise("fixtures/demo-cruise");
    const document = assessCruise({
      ...cruise,
      casts: cruise.casts.slice(0, 1),
      bottles: [],
      maintenance: [],
    });
    expect(verdictSchema.safeParse(document).success).toBe(true);
    const [cast] = document.casts;
    const without = { ...document, casts: [{ ...cast, health: undefined }] };
    expect(verdictSchema.safeParse(without).success).toBe(false);
  });
});
