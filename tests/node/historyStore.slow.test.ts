// A history is whole whenever a process that writes it ends, and many writers lose nothing.
import { type ChildProcess, spawn } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { describe, expect, it } from "vitest";
import { readHistory } from "../../src/node/index.js";
import { randomStream } from "../../src/simulate/index.js";
import { inLanes, killedAt } from "../cli/killing.js";
import { recordFor } from "../history/recordFor.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { skippedWithout, sqliteHere } from "./sqliteHere.js";

const seed = 20310511;
const kills = 200;
const base = temporaryFolder("history");

/** Says after each record how many it has added; the record of a number can be told by its content. */
function writerOf(name: string, place: string, serial: string, many: number): string {
  const script = join(base, name);
  const module = pathToFileURL("build/cli-test/node/historyStore.js").href;
  writeFileSync(
    script,
    `import { addToHistory } from ${JSON.stringify(module)};
const record = ${JSON.stringify(recordFor({ serial }))};
process.stdout.write("begun\\n");
for (let k = 1; k <= ${many}; k++) {
  const cruise = "cruise " + (k % 20);
  await addToHistory(${JSON.stringify(place)}, [{ ...record, cruise, casts: k }]);
  process.stdout.write(k + "\\n");
}
`,
  );
  return script;
}

function listen(child: ChildProcess): { last: number; readonly begun: Promise<void> } {
  const begun = new Promise<void>((resolve, reject) => {
    child.stdout!.once("data", () => resolve());
    child.once("close", (status) =>
      reject(new Error(`the writer ended before it began: ${status}`)),
    );
  });
  const heard = { last: 0, begun };
  child.stdout!.on("data", (piece: Buffer) => {
    for (const line of piece.toString().split("\n")) heard.last = Number(line) || heard.last;
  });
  return heard;
}

/** Nodes that have SQLite may say that it is experimental. */
function start(script: string): ChildProcess {
  const stdio = ["ignore", "pipe", "inherit"] as ["ignore", "pipe", "inherit"];
  return spawn(process.execPath, ["--no-warnings", script], { stdio });
}

const ended = (child: ChildProcess) => new Promise((resolve) => child.once("close", resolve));

describe.each([
  { kind: "a folder of histories", ending: "", has: true },
  { kind: `an SQLite history${skippedWithout}`, ending: ".sqlite", has: sqliteHere },
])("$kind", ({ ending, has }) => {
  const placeOf = (name: string) => join(base, `${name}${ending}`);
  const scriptOf = (name: string) => `${name}${ending}.mjs`;

  it.runIf(has)(
    `is whole, with all that was added, after each of ${kills} kills at random moments (seed ${seed})`,
    async () => {
      const random = randomStream(seed);
      const waits = Array.from({ length: kills }, () => 60 * random.uniform());
      // So many cores are used; each lane has a history of its own.
      const own = ["one", "other"].map((name) => {
        const place = placeOf(`killed-${name}`);
        return { place, script: writerOf(scriptOf(`killed-${name}`), place, "K-17", 1e6) };
      });
      const said = new Set<string>();
      await inLanes(own.length, kills, async (k, lane) => {
        const { place, script } = own[lane]!;
        const child = start(script);
        const heard = listen(child);
        await heard.begun;
        await killedAt(child, { after_ms: waits[k]! });
        if (heard.last > 0) said.add(place);
        const records = await readHistory(place).catch((error) => {
          // Killed before it was made, each time so far.
          if (!said.has(place)) return [];
          throw error;
        });
        if (heard.last === 0) return;
        // What it said to have added is there, or what came after it in the same place.
        const last = records.find(({ cruise }) => cruise === `cruise ${heard.last % 20}`);
        expect(last!.casts % 20).toBe(heard.last % 20);
        expect(last!.casts).toBeGreaterThanOrEqual(heard.last);
      });
    },
  );

  it.runIf(has)(
    "four writers at the same time lose no record, and a reader meanwhile finds a complete history",
    async () => {
      const place = placeOf("together");
      const serials = ["A", "B", "C", "D"];
      const children = serials.map((serial) => {
        const script = writerOf(scriptOf(serial), place, serial, 60);
        return start(script);
      });
      const heard = children.map(listen);
      const all = Promise.all(children.map(ended));
      await Promise.all(heard.map(({ begun }) => begun));
      let running = true;
      all.then(() => {
        running = false;
      });
      while (running) {
        await readHistory(place).catch((error) => {
          if (heard.some(({ last }) => last > 0)) throw error;
        });
        await new Promise((later) => setTimeout(later, 5));
      }
      const records = await readHistory(place);
      expect(records).toHaveLength(4 * 20);
      // The newest of each: 41 to 60.
      for (const serial of serials) {
        const own = records.filter((one) => one.serial === serial).map(({ casts }) => casts);
        expect(own.sort((a, b) => a - b)).toEqual(Array.from({ length: 20 }, (_, i) => 41 + i));
      }
    },
  );

  it.runIf(has)(
    "two writers of the same records leave each record complete, from one of them",
    async () => {
      const place = placeOf("same");
      const children = ["one", "two"].map((name) =>
        spawn(process.execPath, [writerOf(scriptOf(name), place, "K-17", 60)], {
          stdio: ["ignore", "ignore", "inherit"],
        }),
      );
      await Promise.all(children.map(ended));
      expect(await readHistory(place)).toHaveLength(20);
    },
  );
});
