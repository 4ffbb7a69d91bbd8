// Write the demonstration cruise: npx tsc -p tsconfig.scripts.json && node build/scripts/makeDemoCruise.js
import { mkdirSync, writeFileSync } from "node:fs";
import { demoCruiseFiles } from "./demoCruise.js";

const folder = "fixtures/demo-cruise";
mkdirSync(folder, { recursive: true });
for (const [name, text] of demoCruiseFiles()) writeFileSync(`${folder}/${name}`, text);
