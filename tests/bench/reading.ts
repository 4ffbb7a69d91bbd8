// How long a cast takes from its file to its columns, beside csv-parse alone, which makes cells of text of it; and how
// long the command line takes from the file to the answer, beside Python that loads the file by numpy and derives
// salinity, Conservative Temperature and density by the TEOS-10 C code. Processor time, in turns.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { readCastCsv } from "../../src/read/castCsv.js";
import { columnsOf, fullCast } from "./fullCast.js";
import { used } from "./processorTime.js";

const rounds = 5;
const python = "/usr/bin/python3";
const script = `
import sys, numpy as np, gsw
t, p, t90, c = np.loadtxt(sys.argv[1], delimiter=",", skiprows=1).T
sr = gsw.SR_from_SP(gsw.SP_from_C(c, t90, p))
gsw.sigma0(sr, gsw.CT_from_t(sr, t90, p))
`;

export function benchReading(): void {
  const columns = columnsOf(fullCast(1));
  const head = "time_s,pressure_dbar,temperature_C,conductivity_mS_cm";
  const rows = Array.from(columns[0]!, (_, i) =>
    columns.map((column, k) => column[i]!.toFixed([4, 3, 4, 5][k])).join(","),
  );
  const plain = `${head}\n${rows.join("\n")}\n`;
  const others = ",12.34567,-0.12345,1.00000,250.12,0.0123";
  const wide = `${head},a,b,c,d,e,f,g,h,i,j\n${rows.map((row) => row + others + others).join("\n")}\n`;
  for (const [name, text] of [
    ["4 columns", plain],
    ["14 columns, 4 wanted", wide],
  ] as const) {
    const facts = { id: "1", file: "cast.csv", keepOthers: false };
    const times = inTurns(
      () => used(() => readCastCsv(text, facts)),
      () => used(() => parse(text)),
    );
    console.log(`a cast of ${rows.length} scans from text, ${name}: ${times} of csv-parse alone`);
  }
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  try {
    const file = join(folder, "cast.csv");
    writeFileSync(file, plain);
    benchCommand(file);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function benchCommand(file: string): void {
  const bin = join(tmpdir(), `foulcast-bench-${process.pid}`);
  try {
    spawnSync(process.execPath, ["scripts/bundleCommandLine.mjs", bin]);
    const own = () => usedByChild(process.execPath, [join(bin, "main.js"), "assess", file]);
    if (spawnSync(python, ["-c", "import gsw"]).status !== 0) {
      console.log(`from file to answer: ${own().toFixed(0)} ms; python3-gsw is not installed`);
      return;
    }
    const times = inTurns(own, () => usedByChild(python, ["-c", script, file]));
    console.log(`from file to answer, a new process: ${times} of numpy and the TEOS-10 C code`);
  } finally {
    rmSync(bin, { recursive: true, force: true });
  }
}

/** The median time of each and the median of their ratios. */
function inTurns(own: () => number, reference: () => number): string {
  own();
  reference();
  const pairs = Array.from({ length: rounds }, () => [own(), reference()] as const);
  const middle = (values: readonly number[]) => values.toSorted((a, b) => a - b)[rounds >> 1]!;
  const [a, b] = [0, 1].map((k) => middle(pairs.map((pair) => pair[k]!)));
  const ratios = pairs.map(([x, y]) => x / y).toSorted((x, y) => x - y);
  const spread = `${ratios[0]!.toFixed(2)} to ${ratios.at(-1)!.toFixed(2)}`;
  return `${a!.toFixed(0)} ms, ${middle(ratios).toFixed(2)} (${spread}) times the ${b!.toFixed(0)} ms`;
}

/** Processor time of a process of its own, ms. */
function usedByChild(command: string, words: readonly string[]): number {
  const before = childTime();
  const { status } = spawnSync(command, words);
  if (status !== 0) throw new Error(`${command} ended with ${status}`);
  return childTime() - before;
}

/** Of all processes that were started and have ended, as Linux counts it in hundredths of a second, ms. */
function childTime(): number {
  const fields = readFileSync("/proc/self/stat", "utf8").replace(/^.*\)/, "").trim().split(" ");
  return 10 * (Number(fields[13]) + Number(fields[14]));
}
