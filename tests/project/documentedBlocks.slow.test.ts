// Every ts, js, sh and html block of README and docs is run as it stands, in the place that its first line names: a project
// with the package installed. A block marked "text output" is what the sh block before it prints.
import { execFileSync, spawnSync } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { absent, launch, watched, where } from "../browser/chromium.js";
import { elementsOf } from "../figures/elementsOf.js";
import { temporaryFolder } from "../temporaryFolder.js";

const root = fileURLToPath(new URL("../..", import.meta.url));

interface Block {
  readonly file: string;
  readonly line: number;
  readonly language: string;
  readonly place: string;
  readonly code: string;
}

const documents = [
  "README.md",
  ...readdirSync(join(root, "docs"))
    .filter((name) => name.endsWith(".md"))
    .map((name) => `docs/${name}`),
];
const blocks: readonly Block[] = documents.flatMap((file) => {
  const text = readFileSync(join(root, file), "utf8");
  return [...text.matchAll(/^```(\w*) ?(.*)\n([\s\S]*?)^```$/gm)].map(
    ([, language, place, code], i, all): Block => ({
      file,
      line: text.slice(0, all[i]!.index).split("\n").length,
      language: language!,
      place: place!,
      code: code!,
    }),
  );
});
const titleOf = ({ file, line, language }: Block) => `${language}, ${file} line ${line}`;
const written = (language: string) =>
  blocks
    .filter((block) => block.language === language)
    .map((block) => [titleOf(block), block] as const);

const project = temporaryFolder("project");

/** The package as `npm pack` gives it, beside the dependencies of this tree, which need no network. */
beforeAll(() => {
  execFileSync("npm", ["pack", "--silent", "--pack-destination", project], { cwd: root });
  const packed = readdirSync(project).find((name) => name.endsWith(".tgz"))!;
  const modules = join(project, "node_modules");
  mkdirSync(join(modules, ".bin"), { recursive: true });
  execFileSync("tar", ["-xzf", join(project, packed), "-C", modules]);
  execFileSync("mv", [join(modules, "package"), join(modules, "foulcast")]);
  for (const name of readdirSync(join(root, "node_modules"))) {
    if (!name.startsWith(".")) symlinkSync(join(root, "node_modules", name), join(modules, name));
  }
  const bin = join(modules, "foulcast/dist/bin/main.js");
  execFileSync("chmod", ["+x", bin]);
  symlinkSync(bin, join(modules, ".bin/foulcast"));
  writeFileSync(join(project, "package.json"), JSON.stringify({ type: "module", private: true }));
});

function ran(command: string, words: readonly string[]): string {
  const { NO_COLOR: _, FORCE_COLOR: __, ...environment } = process.env;
  const more = {
    env: environment,
    stdio: ["ignore", "pipe", "pipe"] as ["ignore", "pipe", "pipe"],
  };
  return execFileSync(command, words, { cwd: project, encoding: "utf8", ...more });
}

/** Strict TypeScript, as a careful project has it. */
const options = ["--strict", "--exactOptionalPropertyTypes", "--noUncheckedIndexedAccess"].concat([
  ...["--target", "es2022", "--module", "nodenext", "--types", "node"],
]);

describe("the code blocks of README and docs", () => {
  it("name a language, and those that run name their place", () => {
    const other = blocks.filter(
      ({ language, place }) =>
        !(
          language === "text" ||
          (["ts", "js", "sh", "html"].includes(language) && place === "project")
        ),
    );
    expect(other.map(titleOf)).toEqual([]);
    for (const language of ["ts", "js", "sh", "html"]) expect(written(language)).not.toEqual([]);
  });

  it.each(written("ts"))("%s: passes strict type checks and runs", (_, { code }) => {
    writeFileSync(join(project, "block.ts"), code);
    const tsc = join(root, "node_modules/typescript/bin/tsc");
    expect(ran(process.execPath, [tsc, ...options, "block.ts"])).toBe("");
    expect(ran(process.execPath, ["block.js"])).not.toBe("");
  });

  it.each(written("js"))("%s: runs", (_, { code }) => {
    writeFileSync(join(project, "block.mjs"), code);
    const run = spawnSync(process.execPath, ["block.mjs"], { cwd: project, encoding: "utf8" });
    expect(run.stderr).toBe("");
    expect(run.status).toBe(0);
  });

  it("leave figures that are well-formed, and a report, where docs/recipes.md says so", () => {
    const made = readdirSync(project);
    expect(made).toEqual(expect.arrayContaining(["gain.svg", "legs-008.svg", "report.html"]));
    for (const figure of ["gain.svg", "legs-008.svg"])
      elementsOf(readFileSync(join(project, figure), "utf8"));
  });

  const shown = blocks.flatMap((block, i) =>
    block.place === "output" ? [[titleOf(block), block, blocks[i - 1]!] as const] : [],
  );
  it.each(shown)("%s: is what the sh block before it prints", (_, { code, file }, before) => {
    expect(before).toMatchObject({ file, language: "sh" });
    expect(ran("bash", ["-eu", "-c", before.code]).trimEnd()).toBe(code.trimEnd());
  });

  it.each(written("sh"))("%s: runs and prints", (_, { code }) => {
    expect(ran("bash", ["-eu", "-c", code])).not.toBe("");
  });

  it.skipIf(absent).each(written("html"))(
    `%s: works in a browser without a complaint${where}`,
    async (_, { code }) => {
      const browser = await launch();
      try {
        const { page, complaints } = await watched(browser);
        await page.route("**/*", (route) => {
          const path = new URL(route.request().url()).pathname;
          if (path === "/") return route.fulfill({ contentType: "text/html", body: code });
          if (path === "/favicon.ico") return route.fulfill({ status: 204 });
          const file = join(project, path);
          if (!existsSync(file) || !statSync(file).isFile()) return route.fulfill({ status: 404 });
          const contentType = /\.m?js$/.test(file) ? "text/javascript" : "text/plain";
          return route.fulfill({ contentType, body: readFileSync(file) });
        });
        await page.goto("http://foulcast.invalid/", { waitUntil: "networkidle" });
        expect(complaints).toEqual([]);
        const input = page.locator("input[type=file]");
        if ((await input.count()) > 0) {
          const cast = "node_modules/foulcast/fixtures/demo-cruise/cast-008.csv";
          await input.setInputFiles(join(project, cast));
          await page.getByText(/primary cell +(clean|not clean|open) \(/).waitFor();
        } else {
          await page.getByRole("img", { name: /Gain error/ }).waitFor();
        }
        expect(complaints).toEqual([]);
      } finally {
        await browser.close();
      }
    },
  );
});
