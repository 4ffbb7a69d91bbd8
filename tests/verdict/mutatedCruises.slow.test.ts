// Cruises as sensors, cables, people and programs spoil them: each has a verdict and a correction, or a fault that
// says where and why. The seed of each run is in the title of its test.
import { beforeAll, describe, expect, it } from "vitest";
import type { Bottle } from "../../src/cast/bottle.js";
import type { Cruise, CruiseCast } from "../../src/cast/cruise.js";
import { readCruise } from "../../src/node/index.js";
import { BadInput } from "../../src/read/badInput.js";
import { type RandomStream, randomStream } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { correctCruise } from "../../src/verdict/correctCruise.js";
import { verdictSchema } from "../../src/verdict/verdictSchema.js";

const seed = Number(process.env.FOULCAST_FUZZ_SEED ?? 20310510);
const runs = Number(process.env.FOULCAST_FUZZ_RUNS ?? 40);

let demo: Cruise;
beforeAll(async () => {
  const { casts, bottles, ...rest } = await readCruise("fixtures/demo-cruise");
  const few = casts.slice(0, 3);
  const ids = new Set(few.map(({ id }) => id));
  const own = bottles.filter(({ cast }) => ids.has(cast));
  demo = { ...rest, casts: few, bottles: own, maintenance: rest.maintenance.slice(0, 2) };
});

/** What loggers, converters and broken sensors write. */
const values = [
  ...[0, -0.001, 0.0001, -99, -9.99, 99, 1e20, -1e20, 1e35, 9.97e36, -9.99e-29, 1e-30],
  ...[Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 35, -5, 4e4, 12_000],
];

const names = ["pressure", "temperature", "conductivity"] as const;
type Columns = Record<(typeof names)[number], Float64Array>;

/** Ways in which a column of scans goes wrong. */
const spoil: readonly ((
  column: Float64Array,
  at: number,
  value: number,
  random: RandomStream,
) => void)[] = [
  (column, at, value) => {
    column[at] = value;
  },
  (column, at, value, random) => {
    const step = 2 + Math.floor(8 * random.uniform());
    for (let i = at % step; i < column.length; i += step) column[i] = value;
  },
  (column, at, value, random) => {
    column.fill(value, at, at + Math.floor(column.length * random.uniform()));
  },
  (column, at) => column.fill(column[at]!),
  (column) => column.reverse(),
  (column, at) => column.copyWithin(0, at),
  (column, _, __, random) => {
    const scale = [10, 0.1, -1, 1000, 1.0001][Math.floor(5 * random.uniform())]!;
    for (let i = 0; i < column.length; i++) column[i]! *= scale;
  },
  (column, _, __, random) => {
    for (let i = 0; i < column.length; i++) column[i]! += 50 * random.normal();
  },
  (column) => column.sort(),
];

function spoiltCast(cast: CruiseCast, random: RandomStream): CruiseCast {
  const data = cast.data!;
  const { primary, secondary, pressure_dbar } = data.columns;
  const columns: Columns = {
    pressure: pressure_dbar.slice(),
    temperature: primary.temperature_C.slice(),
    conductivity: primary.conductivity_mS_cm.slice(),
  };
  for (let k = Math.floor(3 * random.uniform()); k >= 0; k--) {
    const column = columns[names[Math.floor(3 * random.uniform())]!];
    const value = values[Math.floor(values.length * random.uniform())]!;
    const way = spoil[Math.floor(spoil.length * random.uniform())]!;
    way(column, Math.floor(column.length * random.uniform()), value, random);
  }
  const from = random.uniform() < 0.2 ? Math.floor(pressure_dbar.length * random.uniform()) : 0;
  const [p, t, c] = names.map((name) => columns[name].slice(from));
  const second =
    secondary === undefined || random.uniform() < 0.3
      ? undefined
      : {
          temperature_C: secondary.temperature_C.slice(from),
          conductivity_mS_cm: secondary.conductivity_mS_cm.slice(from),
        };
  return {
    ...cast,
    data: {
      ...data,
      columns: {
        pressure_dbar: p!,
        primary: { temperature_C: t!, conductivity_mS_cm: c! },
        ...(second === undefined ? {} : { secondary: second }),
        others: {},
      },
    },
  };
}

function spoiltBottle(bottle: Bottle, random: RandomStream): Bottle {
  const value = values[Math.floor(values.length * random.uniform())]!;
  const key = random.uniform();
  if (key < 0.3) return { ...bottle, pressure_dbar: value };
  if (key < 0.6) return { ...bottle, salinity: value };
  const { primary } = bottle.ctd!;
  return key < 0.8
    ? { ...bottle, ctd: { primary: { ...primary!, conductivity_mS_cm: value } } }
    : { ...bottle, ctd: { primary: { ...primary!, temperature_C: value } } };
}

function spoilt(random: RandomStream): Cruise {
  const casts = demo.casts.map((cast) =>
    random.uniform() < 0.6 ? spoiltCast(cast, random) : cast,
  );
  const bottles = demo.bottles.map((bottle) =>
    random.uniform() < 0.01 ? spoiltBottle(bottle, random) : bottle,
  );
  return { ...demo, casts, bottles: random.uniform() < 0.3 ? [] : bottles };
}

/** Every number of a document, for none of them may be endless. */
function numbersIn(value: unknown): readonly number[] {
  if (typeof value === "number") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

describe("a spoilt cruise", () => {
  it(`has a verdict and a correction of finite numbers, or a fault with its reasons: ${runs} from seed ${seed}`, () => {
    const wrong: string[] = [];
    let judged = 0;
    for (let run = 0; run < runs; run++) {
      const given = spoilt(randomStream(seed + run));
      try {
        const document = assessCruise(given);
        verdictSchema.parse(JSON.parse(JSON.stringify(document)));
        const correction = correctCruise(given);
        const endless = [document, correction]
          .flatMap(numbersIn)
          .filter((n) => !Number.isFinite(n));
        if (endless.length > 0) wrong.push(`seed ${seed + run}: ${endless.length} endless numbers`);
        judged++;
      } catch (error) {
        if (error instanceof BadInput && error.faults.length > 0) continue;
        wrong.push(
          `seed ${seed + run}: ${(error as Error).stack?.split("\n").slice(0, 4).join(" ")}`,
        );
      }
    }
    expect(wrong).toEqual([]);
    if (process.env.FOULCAST_FUZZ_RUNS !== undefined) console.log(`${judged} of ${runs} judged`);
    // A test in which all is refused would say nothing of the verdict.
    expect(judged).toBeGreaterThan(runs / 5);
  });
});
