import { describe, expect, it } from "vitest";
import { cautionsByHazard, generalCautions } from "../../src/cleaning/cautions.js";
import { dilute } from "../../src/cli/commands/dilute.js";
import { UsageError } from "../../src/cli/usageError.js";
import type { WorkedDilution } from "../../src/report/terminal/dilutionSummary.js";
import { flat, run } from "./run.js";

const bleach = (percent: number) => [
  "--stock",
  "hypochlorite",
  "--strength-percent",
  String(percent),
  "--percent-means",
  "chlorine-by-volume",
];
const acid = [
  "--stock",
  "hydrochloric-acid",
  "--strength-percent",
  "37",
  "--density-kg-per-l",
  "1.18",
];
async function worked(...words: readonly string[]) {
  const { status, out } = await run(dilute, [...words, "--json", "-"]);
  expect(status).toBe(0);
  return JSON.parse(out) as WorkedDilution;
}

describe("foulcast dilute", () => {
  it("500 ppm are 1 part of 5 % in 100, and 2 parts of 2.5 % in 100, as WHO's table has them [WHO2014]", async () => {
    for (const [percent, parts] of [
      [5, 1],
      [2.5, 2],
    ] as const) {
      const { stages } = await worked(...bleach(percent), "--to-ppm", "500", "--volume-ml", "1000");
      expect(stages).toHaveLength(1);
      expect(stages[0]!.take_ml).toBeCloseTo(10 * parts, 9);
      expect(stages[0]!.water_ml).toBeCloseTo(1000 - 10 * parts, 9);
    }
  });

  it("0.1 mol/l of hydrochloric acid takes 8.3 ml of 37 % to a litre (concentrated acid is 12 mol/l, handbook value from memory)", async () => {
    const { stages, stockStrength } = await worked(
      ...acid,
      "--to-mol-per-l",
      "0.1",
      "--volume-ml",
      "1000",
    );
    expect(stockStrength).toBeCloseTo(12, 1);
    // To the marks of a syringe: within 5 %.
    expect(Math.abs(stages[0]!.take_ml / 8.3 - 1)).toBeLessThan(0.05);
  });

  it("an old stock takes more, and none younger than its label less", async () => {
    const take = async (...age: readonly string[]) =>
      (await worked(...bleach(12.5), ...age, "--to-ppm", "1000", "--volume-ml", "5000")).stages[0]!
        .take_ml;
    const fresh = await take("--age-days", "0");
    expect(await take("--age-days", "30")).toBeGreaterThan(fresh);
    expect(await take("--age-days", "30", "--kept-celsius", "30")).toBeGreaterThan(
      await take("--age-days", "30", "--kept-celsius", "15"),
    );
    expect(await take()).toBe(fresh);
  });

  it("the volume follows from the plumbing and the fills, with a quarter to spare", async () => {
    const { makes_ml } = await worked(
      ...bleach(5),
      ...["--to-ppm", "1000", "--plumbing-ml", "60", "--fills", "2"],
    );
    expect(makes_ml).toBe(150);
  });

  it("an amount too small to measure is diluted in two bottles", async () => {
    const { stages } = await worked(...bleach(12.5), "--to-ppm", "100", "--volume-ml", "250");
    expect(stages).toHaveLength(2);
    for (const { take_ml } of stages) expect(take_ml).toBeGreaterThanOrEqual(1);
  });

  it("shows the cautions of the chemical with every solution", async () => {
    const hypochlorite = await run(dilute, [
      ...bleach(5),
      ...["--to-ppm", "1000", "--volume-ml", "500"],
    ]);
    for (const caution of [...generalCautions, ...cautionsByHazard.hypochlorite]) {
      expect(flat(hypochlorite.out)).toContain(caution);
    }
    const descaler = await run(dilute, [...acid, "--to-mol-per-l", "0.1", "--volume-ml", "500"]);
    for (const caution of cautionsByHazard.acid) expect(flat(descaler.out)).toContain(caution);
    // Water first, then acid.
    expect(flat(descaler.out)).toMatch(
      /Pour [\d.]+ ml of deionised water into the bottle. Then add/,
    );
  });

  it("refuses hypochlorite where acid was, and acid where hypochlorite was, with status 2, the reason and the cautions of both", async () => {
    for (const words of [
      [...bleach(5), "--to-ppm", "1000", "--volume-ml", "500", "--bottle-held", "water,acid"],
      [...acid, "--to-mol-per-l", "0.1", "--volume-ml", "500", "--bottle-held", "hypochlorite"],
    ]) {
      const { status, out, err } = await run(dilute, words);
      expect(status).toBe(2);
      expect(out).toBe("");
      expect(flat(err)).toContain("chlorine, a poisonous gas");
      for (const caution of [...cautionsByHazard.hypochlorite, ...cautionsByHazard.acid]) {
        expect(flat(err)).toContain(caution);
      }
      const json = await run(dilute, [...words, "--json", "-"]);
      expect(json.status).toBe(2);
      expect(JSON.parse(json.out)).toMatchObject({ refused: { why: "dangerous mixture" } });
    }
  });

  it("refuses a stock that is weaker than the required solution, or too old", async () => {
    const weak = await run(dilute, [
      ...["--stock", "detergent", "--strength-percent", "2", "--to-percent", "3"],
      ...["--volume-ml", "500"],
    ]);
    expect(weak).toMatchObject({ status: 2 });
    expect(weak.err).toContain("stock too weak");
    const old = await run(dilute, [
      ...bleach(12.5),
      ...["--age-days", "900", "--to-ppm", "1000", "--volume-ml", "500"],
    ]);
    expect(old.err).toContain("stock too old");
  });

  it.each([
    [
      "a density of 1070",
      [...acid.slice(0, 4), "--density-kg-per-l", "1070"],
      "0.1",
      /1070.*1\.07/,
    ],
    ["more than a hundred per cent", bleach(500), "500", /500.*1 to 20/],
    ["5 % written as 0.05", bleach(0.05), "500", /Write 5 for 5 %/],
    ["an age of -300 days", [...bleach(5), "--age-days=-300"], "500", /-300/],
    ["a strength over the ceiling", bleach(5), "5000", /The limit is 2000/],
    ["acid of 1 mol/l", acid, "1", /0\.5 mol\/l/],
  ] as const)(
    "refuses %s with status 2, the reason and the cautions",
    async (_, stock, strength, why) => {
      const unit = stock.includes("hypochlorite") ? "--to-ppm" : "--to-mol-per-l";
      const { status, out, err } = await run(dilute, [
        ...stock,
        unit,
        strength,
        "--volume-ml",
        "500",
      ]);
      expect(status).toBe(2);
      expect(out).toBe("");
      expect(flat(err)).toMatch(why);
      for (const caution of generalCautions) expect(flat(err)).toContain(caution);
    },
  );

  it("says both bounds of an aged stock, and that the amounts follow from the lower one", async () => {
    const words = [
      "--age-days",
      "60",
      "--kept-celsius",
      "20",
      "--to-ppm",
      "500",
      "--volume-ml",
      "500",
    ];
    const { out } = await run(dilute, [...bleach(12.5), ...words]);
    const made = await worked(...bleach(12.5), ...words);
    expect(made.stockStrength).toBeLessThan(made.stockStrengthAtMost);
    expect(flat(out)).toMatch(/between \d+ and \d+ ppm.*amounts follow from the lower figure/);
    expect(flat(out)).toContain(String(Number(made.stockStrengthAtMost.toPrecision(2))));
  });

  it.each([
    [
      "the kind of per cent is left open",
      [
        "--stock",
        "hypochlorite",
        "--strength-percent",
        "5",
        "--to-ppm",
        "500",
        "--volume-ml",
        "1000",
      ],
      /three things/,
    ],
    [
      "a strength in another's unit",
      [...bleach(5), "--to-percent", "1", "--volume-ml", "100"],
      /--to-ppm/,
    ],
    [
      "a per cent by mass has no density",
      [
        "--stock",
        "hydrochloric-acid",
        "--strength-percent",
        "37",
        "--to-mol-per-l",
        "1",
        "--volume-ml",
        "100",
      ],
      /density/,
    ],
    ["no volume", [...bleach(5), "--to-ppm", "500"], /volume-ml/],
    [
      "a volume that is no number",
      [...bleach(5), "--to-ppm", "500", "--volume-ml", "much"],
      /number/,
    ],
    [
      "an age of what does not age",
      [...acid, "--age-days", "3", "--to-mol-per-l", "1", "--volume-ml", "100"],
      /only for hypochlorite/,
    ],
    ["an unknown stock", ["--stock", "vodka"], /expected hypochlorite/],
    [
      "an unknown remnant",
      [...bleach(5), "--to-ppm", "500", "--volume-ml", "100", "--bottle-held", "tea"],
      /expected some of/,
    ],
    ["an unknown option", ["--stok", "acid"], /stok/],
  ] as const)("is not understood with %s", async (_, words, message) => {
    const running = run(dilute, words);
    await expect(running).rejects.toThrow(UsageError);
    await expect(running).rejects.toThrow(message);
  });
});
