// What a page that bundles the library has to load: the main job with every reader, minified for a browser.
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const used = [
  "assessCruise",
  "assembleCruise",
  "checkCruise",
  "readBottlesCsv",
  "readCastCsv",
  "readCruiseDescription",
  "readDeepReference",
  "readExchangeBottles",
  "readExchangeCast",
  "readMaintenance",
];

/**
 * What there is and a little room (judgement): the library itself is 354,000 bytes of it, the reader of quoted tables
 * 52,000, the schema of cruise.json 29,000.
 */
const most = { bytes: 445_000, gzip: 161_000 };

it("a verdict with every reader is a small download for a browser", async () => {
  const { outputFiles, metafile } = await build({
    stdin: { contents: `export { ${used} } from "./src/index.ts";`, resolveDir: root },
    bundle: true,
    minify: true,
    format: "esm",
    platform: "browser",
    metafile: true,
    write: false,
  });
  const [{ contents }] = outputFiles as [(typeof outputFiles)[number]];
  expect(contents.length).toBeLessThan(most.bytes);
  expect(gzipSync(contents, { level: 9 }).length).toBeLessThan(most.gzip);
  // One import of the whole of zod brings the words of fifty languages.
  const parts = Object.values(metafile.outputs).flatMap(({ inputs }) => Object.entries(inputs));
  const kept = parts.filter(([, { bytesInOutput }]) => bytesInOutput > 0).map(([path]) => path);
  expect(kept.filter((path) => path.includes("node_modules/zod/")).length).toBeGreaterThan(0);
  const languages = kept.filter((path) => /zod\/v4\/locales\/(?!en\.js)/.test(path));
  expect(languages).toEqual([]);
});
