// The command line made one bundle, so that it starts without a search for hundreds of files: `npm run build`. Each
// command is a piece of its own, loaded when it is called. The licences of what is bundled are written beside it.
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { basename, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("..", import.meta.url));
const [folder = "dist/bin"] = process.argv.slice(2);
const outdir = resolve(root, folder);

const { metafile, outputFiles } = await build({
  absWorkingDir: root,
  // The second is what a worker of `assess --many` runs.
  entryPoints: { main: "src/cli/main.ts", oneCruise: "src/cli/many/oneCruise.ts" },
  outdir,
  bundle: true,
  splitting: true,
  format: "esm",
  platform: "node",
  target: "node20",
  chunkNames: "[name]-[hash]",
  // Not minified: a stack trace names what it went through. These two load files of their own.
  external: ["h5wasm", "piscina"],
  legalComments: "none",
  metafile: true,
  write: false,
  logLevel: "warning",
});

const packages = new Set(
  Object.values(metafile.outputs)
    .flatMap(({ inputs }) => Object.entries(inputs))
    .filter(([, { bytesInOutput }]) => bytesInOutput > 0)
    .flatMap(([path]) => /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1] ?? []),
);
const notices = [...packages].sort().map((name) => {
  const home = join(root, "node_modules", name);
  const { version } = JSON.parse(readFileSync(join(home, "package.json"), "utf8"));
  const licence = readdirSync(home).find((file) => /^licen[cs]e(\.|$)/i.test(file));
  if (licence === undefined) {
    throw new Error(`${name} has no licence to be kept with it`);
  }
  return `${name} ${version}\n\n${readFileSync(join(home, licence), "utf8").trim()}\n`;
});
const text = `Parts of these packages are in the files of this folder.\n\n${notices.join(`\n${"-".repeat(72)}\n\n`)}`;

// A file that is as it should be is not touched: it may be running.
const files = new Map(outputFiles.map(({ path, contents }) => [basename(path), contents]));
files.set("NOTICES.txt", Buffer.from(text));
mkdirSync(outdir, { recursive: true });
for (const [name, contents] of files) {
  const path = join(outdir, name);
  if (!existsSync(path) || !readFileSync(path).equals(contents)) writeFileSync(path, contents);
}
chmodSync(join(outdir, "main.js"), 0o755);
// Names of pieces change with what is in them.
for (const old of readdirSync(outdir)) {
  if (old.endsWith(".js") && !files.has(old)) rmSync(join(outdir, old));
}
