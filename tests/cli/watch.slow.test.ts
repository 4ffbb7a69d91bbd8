// A folder that fills as a cruise goes on: casts that arrive in pieces, and faults. The cruise is invented.
import { type ChildProcess, spawn } from "node:child_process";
import { appendFileSync, cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, it } from "vitest";
import { temporaryFolder } from "../temporaryFolder.js";
import { foulcast, main } from "./foulcast.js";

const demo = fileURLToPath(new URL("../../fixtures/demo-cruise", import.meta.url));
const folder = temporaryFolder("watch");
const cruise = join(folder, "cruise");
let running: ChildProcess | undefined;
let output = { text: "" };

afterEach(() => {
  running?.kill("SIGKILL");
  rmSync(cruise, { recursive: true, force: true });
});

/** A folder with the first casts of the demonstration and nothing that describes it. */
function firstCasts(count: number): void {
  mkdirSync(cruise);
  for (let cast = 1; cast <= count; cast++)
    cpSync(join(demo, nameOf(cast)), join(cruise, nameOf(cast)));
}

const nameOf = (cast: number) => `cast-${String(cast).padStart(3, "0")}.csv`;

function start(...words: readonly string[]): void {
  // Of this process: what an earlier one still had to say is not mixed in.
  const own = { text: "" };
  output = own;
  running = spawn(process.execPath, [main, "watch", cruise, "--every", "0.2", ...words]);
  for (const stream of [running.stdout!, running.stderr!]) {
    stream.on("data", (piece: Buffer) => {
      own.text += piece.toString();
    });
  }
}

/** Waits until what was printed has this; the test's own time ends the wait. */
async function until(text: string | RegExp): Promise<void> {
  const had = () =>
    typeof text === "string" ? output.text.includes(text) : text.test(output.text);
  for (let waited = 0; !had(); waited += 50) {
    // A patience far beyond any need, so that a fault is told instead of hanging.
    expect(waited, output.text).toBeLessThan(120_000);
    expect(running!.exitCode, output.text).toBeNull();
    await new Promise((later) => setTimeout(later, 50));
  }
}

const answersIn = (text: string) => text.match(/^Use the salinity/gm)?.length ?? 0;

describe("foulcast watch", () => {
  it("watch prints three lines at the start, and again when a cast is complete", async () => {
    firstCasts(2);
    start();
    await until(/^Use the salinity/m);
    expect(answersIn(output.text)).toBe(1);
    // Copied in pieces, each some looks apart: a part of a cast may be told as such, and the whole is told in the end.
    const whole = readFileSync(join(demo, nameOf(3)));
    const half = whole.subarray(0, whole.length / 2);
    writeFileSync(join(cruise, nameOf(3)), half);
    await new Promise((later) => setTimeout(later, 700));
    appendFileSync(join(cruise, nameOf(3)), whole.subarray(half.length));
    const expected = foulcast(["assess", cruise, "--brief", "--no-cache"]).stdout;
    await until(expected.trimEnd());
    expect(expected.trim().split("\n").length).toBeGreaterThanOrEqual(3);
  });

  it("watch reports an unreadable file, continues, and writes report and JSON again", async () => {
    firstCasts(1);
    const json = join(cruise, "verdict.json");
    start("--json", json);
    await until(/^Use the salinity/m);
    writeFileSync(join(cruise, nameOf(2)), "pressure_dbar,temperature_C\n1,2\n");
    await until("cast-002.csv");
    expect(JSON.parse(readFileSync(json, "utf8")).casts).toHaveLength(1);
    cpSync(join(demo, nameOf(2)), join(cruise, nameOf(2)));
    await until(/(Use the salinity.*){2}/s);
    expect(JSON.parse(readFileSync(json, "utf8")).casts).toHaveLength(2);
    // What it wrote itself is no news.
    await new Promise((later) => setTimeout(later, 1500));
    expect(answersIn(output.text)).toBe(2);
  });

  it("watch rings and runs a command if a limit is met, and exits 0 on a signal", async () => {
    firstCasts(8);
    start("--fail-on", "fouling", "--ring", "--run", "echo limit met here");
    await until("limit met here");
    expect(output.text).toContain("\u0007");
    running!.kill("SIGINT");
    const status = await new Promise((ended) => running!.once("exit", ended));
    expect(status).toBe(0);
  });
});
