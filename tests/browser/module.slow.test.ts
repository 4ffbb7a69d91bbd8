// The compiled library as an ES module in a page, without a bundler: from a cruise to a figure in the page.
import { existsSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { bottleCruise } from "../figures/cruises.js";
import { absent, launch, watched, where } from "./chromium.js";

const origin = "http://foulcast.invalid";
const dependencies: Readonly<Record<string, string>> = {
  "csv-parse/browser/esm/sync": "csv-parse/dist/esm/sync.js",
  "simple-statistics": "simple-statistics/dist/simple-statistics.mjs",
  zod: "zod/index.js",
  "zod/locales": "zod/locales/index.js",
  "zod/mini": "zod/mini/index.js",
  internmap: "internmap/src/index.js",
  ...Object.fromEntries(
    [
      "array",
      "scale",
      "shape",
      "path",
      "interpolate",
      "format",
      "time",
      "time-format",
      "color",
    ].map((name) => [`d3-${name}`, d3(`d3-${name}`)]),
  ),
};

/** Newer releases of the family come as one file. */
function d3(name: string): string {
  const source = `${name}/src/index.js`;
  return existsSync(`node_modules/${source}`) ? source : `${name}/dist/${name}.mjs`;
}

it.skipIf(absent)(
  `a page loads the compiled library as a module and draws a cruise with it${where}`,
  async () => {
    const browser = await launch();
    const { page, complaints } = await watched(browser);
    const imports = Object.entries(dependencies).map(([name, file]) => [
      name,
      `/node_modules/${file}`,
    ]);
    const map = JSON.stringify({ imports: Object.fromEntries(imports) });
    await page.route("**/*", (route) => {
      const path = new URL(route.request().url()).pathname;
      if (path === "/") {
        const body = `<!doctype html><title>module</title><script type="importmap">${map}</script>`;
        return route.fulfill({ contentType: "text/html", body });
      }
      const file = path.startsWith("/node_modules/") ? path.slice(1) : `build/cli-test${path}`;
      if (path === "/favicon.ico") return route.fulfill({ status: 204 });
      // Some packages leave the ending out, as a development server allows.
      const found = [file, `${file}.js`].find((one) => existsSync(one));
      if (found === undefined) return route.fulfill({ status: 404 });
      return route.fulfill({ contentType: "text/javascript", body: readFileSync(found) });
    });
    await page.goto(`${origin}/`);
    const cruise = JSON.stringify(bottleCruise(4, 8));
    await page.evaluate(`import("/index.js").then((foulcast) => {
      const cruise = ${cruise};
      const document_ = foulcast.assessCruise(cruise);
      const data = foulcast.figureData(cruise, document_);
      document.body.innerHTML = foulcast.gainTrackFigure(data);
    })`);
    const figure = page.getByRole("img", {
      name: /Gain error of the primary and the secondary cell/,
    });
    expect(await figure.isVisible()).toBe(true);
    expect(complaints).toEqual([]);
    await browser.close();
  },
  120_000,
);
