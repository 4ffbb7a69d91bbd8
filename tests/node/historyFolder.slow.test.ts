// A history is whole whenever a process that writes it ends, and many writers lose nothing.
import { type ChildProcess, spawn } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { readHistory } from "../../src/node/index.js";
import { randomStream } from "../../src/simulate/index.js";
import { build } from "../cli/build.js";
import { recordFor } from "../history/recordFor.js";
import { temporaryFolder } from "../temporaryFolder.js";

const seed = 20310511;
const kills = 200;
const base = temporaryFolder("history");
beforeAll(() => build());

/** Says after each record how many it has added; the record of a number can be told by its content. */
function writerOf(name: string, folder: string, serial: string, many: number): string {
  const script = join(base, name);
  const module = pathToFileURL("build/cli-test/node/index.js").href;
  writeFileSync(
    script,
    `import { addToHistory } from ${JSON.stringify(module)};
const record = ${JSON.stringify(recordFor({ serial }))};
process.stdout.write("begun\\n");
for (let k = 1; k <= ${many}; k++) {
  const cruise = "cruise " + (k % 20);
  await addToHistory(${JSON.stringify(folder)}, [{ ...record, cruise, casts: k }]);
  process.stdout.write(k + "\\n");
}
`,
  );
  return script;
}

function listen(child: ChildProcess): { last: number; readonly begun: Promise<void> } {
  let begun = () => {};
  const heard = { last: 0, begun: new Promise<void>((resolve) => (begun = resolve)) };
  child.stdout!.on("data", (piece: Buffer) => {
    begun();
    for (const line of piece.toString().split("\n")) heard.last = Number(line) || heard.last;
  });
  return heard;
}

const ended = (child: ChildProcess) => new Promise((resolve) => child.once("close", resolve));

describe("a folder of histories", () => {
  it(`is whole, with all that was added, after each of ${kills} kills at random moments (seed ${seed})`, async () => {
    const folder = join(base, "killed");
    const script = writerOf("killed.mjs", folder, "K-17", 1e6);
    const random = randomStream(seed);
    for (let k = 0; k < kills; k++) {
      const child = spawn(process.execPath, [script], { stdio: ["ignore", "pipe", "inherit"] });
      const heard = listen(child);
      await heard.begun;
      await new Promise((later) => setTimeout(later, 60 * random.uniform()));
      const gone = ended(child);
      child.kill("SIGKILL");
      await gone;
      const records = await readHistory(folder).catch((error) => {
        // Killed before the folder was made.
        if (k === 0 && heard.last === 0) return [];
        throw error;
      });
      const own = records.find(({ cruise }) => cruise === `cruise ${heard.last % 20}`);
      if (heard.last > 0) expect(own!.casts % 20).toBe(heard.last % 20);
      // What it said to have added is there, or what came after it in the same place.
      if (heard.last > 0) expect(own!.casts).toBeGreaterThanOrEqual(heard.last);
    }
  });

  it("four writers at once lose no record, and a reader meanwhile finds complete records", async () => {
    const folder = join(base, "together");
    const serials = ["A", "B", "C", "D"];
    const children = serials.map((serial) => {
      const script = writerOf(`${serial}.mjs`, folder, serial, 60);
      return spawn(process.execPath, [script], { stdio: ["ignore", "pipe", "inherit"] });
    });
    const heard = children.map(listen);
    const all = Promise.all(children.map(ended));
    await Promise.all(heard.map(({ begun }) => begun));
    let running = true;
    all.then(() => {
      running = false;
    });
    while (running) {
      await readHistory(folder).catch((error) => {
        if (heard.some(({ last }) => last > 0)) throw error;
      });
      await new Promise((later) => setTimeout(later, 5));
    }
    const records = await readHistory(folder);
    expect(records).toHaveLength(4 * 20);
    // The newest of each: 41 to 60.
    for (const serial of serials) {
      const own = records.filter((one) => one.serial === serial).map(({ casts }) => casts);
      expect(own.sort((a, b) => a - b)).toEqual(Array.from({ length: 20 }, (_, i) => 41 + i));
    }
  });

  it("two writers of the same records leave each whole, of one or the other", async () => {
    const folder = join(base, "same");
    const children = ["one.mjs", "two.mjs"].map((name) =>
      spawn(process.execPath, [writerOf(name, folder, "K-17", 60)], {
        stdio: ["ignore", "ignore", "inherit"],
      }),
    );
    await Promise.all(children.map(ended));
    expect(await readHistory(folder)).toHaveLength(20);
  });
});
