// What `assess` and `watch` write is whole whenever they are killed, and the next start completes. The cruise is invented.
import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { beforeAll, describe, expect, it } from "vitest";
import { cruiseFiles, randomStream, simulateCruise } from "../../src/simulate/index.js";
import { crc32 } from "../../src/verdict/incremental/crc32.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { foulcast, main } from "./foulcast.js";
import { inLanes, killedAt } from "./killing.js";

const kills = 200;
const base = temporaryFolder("killed");
/** Two cores' worth, and some that wait. */
const lanes = 3;

/** A small cruise of averages, so that a run is short. One cast is there; the second comes and goes. */
const files = cruiseFiles(
  simulateCruise({ seed: 61, casts: 2, deepest_dbar: 200, bottles: 4, cells: ["primary"] }),
);
const second = files.get("cast-002.csv")!;
const bottlesOfOne = files
  .get("bottles.csv")!
  .split("\n")
  .filter((line) => !line.startsWith("002"))
  .join("\n");

interface Lane {
  readonly cruise: string;
  /** Reports and verdicts are written there. */
  readonly out: string;
}

function laneOf(name: string): Lane {
  const [cruise, out] = [join(base, name, "cruise"), join(base, name, "out")];
  mkdirSync(join(cruise, ".foulcast"), { recursive: true });
  mkdirSync(out);
  writeFileSync(join(cruise, "cast-001.csv"), files.get("cast-001.csv")!);
  writeFileSync(join(cruise, "bottles.csv"), bottlesOfOne);
  return { cruise, out };
}

const secondOf = ({ cruise }: Lane) => join(cruise, "cast-002.csv");
const setSecond = (lane: Lane, there: boolean) =>
  there ? writeFileSync(secondOf(lane), second) : rmSync(secondOf(lane), { force: true });

function run(...words: readonly string[]): ChildProcess {
  return spawn(process.execPath, [main, ...words], { stdio: ["ignore", "pipe", "inherit"] });
}

/** Verdicts on one cast and on both, from the files alone; and how long that takes here, ms. */
let expected: { readonly one: string; readonly both: string; readonly usual_ms: number };
beforeAll(() => {
  const lane = laneOf("alone");
  const verdicts = () => foulcast(["assess", lane.cruise, "--json", "-", "--no-cache"]).stdout;
  const one = verdicts();
  setSecond(lane, true);
  const begun = performance.now();
  const both = verdicts();
  expected = { one, both, usual_ms: performance.now() - begun };
  expect([one, both].map((text) => JSON.parse(text).casts.length)).toEqual([1, 2]);
}, 120_000);

/** Three of four kills are at any moment of a run, the others within some ms after it began to write. */
function moments(seed: number, most_ms: number) {
  const random = randomStream(seed);
  return Array.from({ length: kills }, (_, k) =>
    k % 4 > 0
      ? { after_ms: most_ms * random.uniform(), writes: false }
      : { after_ms: 8 * random.uniform(), writes: true },
  );
}

/** Files that a process had begun to write as it was killed; they are taken away. */
function begunIn(folder: string): number {
  const parts = readdirSync(folder).filter((name) => name.endsWith(".part"));
  for (const name of parts) rmSync(join(folder, name));
  return parts.length;
}

describe(`killed ${kills} times at random moments, as a cast comes and goes`, () => {
  const ofAssess = 20310513;
  it(`foulcast assess leaves its state whole, and the next run takes it up (seed ${ofAssess})`, async () => {
    const own = Array.from({ length: lanes }, (_, lane) => laneOf(`assess-${lane}`));
    const when = moments(ofAssess, 1.2 * expected.usual_ms);
    let inTheMiddle = 0;
    await inLanes(lanes, kills, async (k, at) => {
      const lane = own[at]!;
      const kept = join(lane.cruise, ".foulcast");
      const isThere = !existsSync(secondOf(lane));
      setSecond(lane, isThere);
      const { after_ms, writes } = when[k]!;
      const child = run("assess", lane.cruise, "--json", "-");
      await killedAt(child, { after_ms, ...(writes ? { writingIn: kept } : {}) });
      inTheMiddle += begunIn(kept);
      const file = join(kept, "cruise.json");
      if (existsSync(file)) {
        const { checksum, plain } = JSON.parse(readFileSync(file, "utf8"));
        expect(crc32(JSON.stringify(plain))).toBe(checksum);
      }
      // The whole answer costs a run, so it is asked for each tenth time.
      if (k % 10 > 0) return;
      const { stdout } = foulcast(["assess", lane.cruise, "--json", "-"]);
      expect(stdout).toBe(isThere ? expected.both : expected.one);
    });
    // Else nothing was tested.
    expect(inTheMiddle).toBeGreaterThan(0);
  });

  const ofWatch = 20310514;
  it(`foulcast watch leaves report and verdicts whole, and the next start completes (seed ${ofWatch})`, async () => {
    const own = Array.from({ length: lanes }, (_, lane) => laneOf(`watch-${lane}`));
    const filesOf = ({ out }: Lane) => [join(out, "report.html"), join(out, "verdict.json")];
    const start = (lane: Lane) => {
      const [report, json] = filesOf(lane);
      const options = ["--every", "0.2", "--report", report!, "--json", json!];
      return run("watch", lane.cruise, ...options);
    };
    // It looks twice, 200 ms apart, before it assesses.
    const whole_ms = 400 + 1.2 * expected.usual_ms;
    const when = moments(ofWatch, whole_ms);
    const random = randomStream(ofWatch).split("as it lands");
    const landing = when.map(() => [random.uniform(), random.uniform()] as const);
    let inTheMiddle = 0;
    await inLanes(lanes, kills, async (k, at) => {
      const lane = own[at]!;
      const { after_ms, writes } = when[k]!;
      const child = start(lane);
      const isGone = new Promise<void>((gone) => child.once("exit", () => gone()));
      const killed = killedAt(child, { after_ms, ...(writes ? { writingIn: lane.out } : {}) });
      // The cast comes in two parts, as it is copied; or it is taken away.
      if (existsSync(secondOf(lane))) setSecond(lane, false);
      else {
        const [half, rest] = landing[k]!.map((share) => (share * whole_ms) / 3);
        await Promise.race([isGone, sleep(half)]);
        writeFileSync(secondOf(lane), second.slice(0, second.length / 2));
        await Promise.race([isGone, sleep(rest)]);
        setSecond(lane, true);
      }
      await killed;
      inTheMiddle += begunIn(lane.out);
      const [report, json] = filesOf(lane);
      if (existsSync(report!)) expect(readFileSync(report!, "utf8")).toMatch(/<\/html>\s*$/);
      if (existsSync(json!)) expect(JSON.parse(readFileSync(json!, "utf8")).latest).toMatch(/\d/);
    });
    expect(inTheMiddle).toBeGreaterThan(0);
    for (const lane of own) {
      setSecond(lane, true);
      const [report, json] = filesOf(lane);
      for (const file of [report!, json!]) rmSync(file, { force: true });
      const child = start(lane);
      while (!existsSync(json!) || !existsSync(report!)) {
        expect(child.exitCode).toBeNull();
        await sleep(50);
      }
      const gone = new Promise((resolve) => child.once("close", resolve));
      child.kill("SIGINT");
      await gone;
      expect(JSON.parse(readFileSync(json!, "utf8"))).toEqual(JSON.parse(expected.both));
    }
  });
});
