// The report in a real browser: what is seen, not the markup.
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { report } from "../../src/report/html/report.js";
import { headlineOf } from "../../src/words/headline.js";
import { assessed, bottleCruise, demoCruise, hostile } from "../figures/cruises.js";
import { absent, launch, watched, where } from "./chromium.js";

const folder = mkdtempSync(join(tmpdir(), "foulcast-report-"));
const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
const looks = [1100, 760, 360].flatMap((width) =>
  (["light", "dark"] as const).map((colorScheme) => ({
    viewport: { width, height: 900 },
    colorScheme,
  })),
);

function written(name: string, page: string): string {
  writeFileSync(join(folder, name), page);
  return pathToFileURL(join(folder, name)).href;
}

describe.skipIf(absent)(`the report of the demonstration cruise in a browser${where}`, () => {
  let browser: Browser;
  let demo: Awaited<ReturnType<typeof demoCruise>>;
  let url: string;
  beforeAll(async () => {
    [browser, demo] = await Promise.all([launch(), demoCruise()]);
    url = written("demo.html", report(demo.document, demo.data));
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true });
  });

  it("the report opens with one request and no console message, with scripts on or off", async () => {
    for (const javaScriptEnabled of [true, false]) {
      const { page, requests, complaints } = await watched(browser, { javaScriptEnabled });
      await page.goto(url);
      expect(await page.getByRole("heading", { level: 1 }).isVisible()).toBe(true);
      expect(requests).toEqual([url]);
      expect(complaints).toEqual([]);
      await page.close();
    }
  });

  it("the first screen names the cell, its state, the action, its minutes and the salinity to use, also on a phone", async () => {
    const verdict = demo.document.casts.at(-1)!;
    const { cells, toDo, salinity } = headlineOf(verdict);
    expect(cells.length).toBe(2);
    for (const viewport of [
      { width: 1280, height: 800 },
      { width: 390, height: 844 },
    ]) {
      const { page } = await watched(browser, { viewport });
      await page.goto(url);
      for (const words of [toDo, salinity, ...cells.map(({ cause }) => cause)]) {
        const place = await page.getByText(words, { exact: true }).first().boundingBox();
        expect(place!.y + place!.height).toBeLessThan(viewport.height);
      }
      await page.close();
    }
  });

  it("the report shows each figure once at every width, and nothing is wider than the page", async () => {
    for (const look of looks) {
      const { page } = await watched(browser, look);
      await page.goto(url);
      await openAll(page);
      const figures = page.locator("figure");
      expect(await figures.count()).toBe(10);
      for (const figure of await figures.all()) {
        const seen = figure.getByRole("img");
        expect(await seen.count()).toBe(1);
        const { width } = (await seen.boundingBox())!;
        expect(width).toBeLessThanOrEqual(look.viewport.width);
        expect(width).toBeGreaterThan(0.7 * Math.min(look.viewport.width, 900));
      }
      const wide = await page.evaluate("document.documentElement.scrollWidth");
      expect(wide).toBe(look.viewport.width);
      await page.close();
    }
  });

  it("text in figures has at least 10 px on a phone", async () => {
    const { page } = await watched(browser, { viewport: { width: 360, height: 800 } });
    await page.goto(url);
    await openAll(page);
    for (const svg of await page.locator("figure .narrow svg").all()) {
      const drawn = (await svg.boundingBox())!.width;
      expect((12 * drawn) / Number(await svg.getAttribute("width"))).toBeGreaterThan(10);
    }
    await page.close();
  });

  it("the value of a mark appears under the pointer, by script or by the browser's own tooltip", async () => {
    for (const javaScriptEnabled of [true, false]) {
      const { page, complaints } = await watched(browser, { javaScriptEnabled });
      await page.goto(url);
      const figure = page
        .locator("figure", { hasText: "Cast 014 as it was read" })
        .locator(".wide");
      const says = /^\d+ dbar\nprimary cell, down leg: [\d.]+\n/;
      if (javaScriptEnabled) {
        await figure.locator("rect[data-says]").nth(12).hover();
        expect(await page.locator(".hint").textContent()).toMatch(says);
        // The figure's own name stays.
        expect(await figure.locator("svg > title").count()).toBe(1);
      } else {
        expect(await figure.locator("rect > title").nth(12).textContent()).toMatch(says);
        expect(await page.locator(".hint").count()).toBe(0);
      }
      expect(complaints).toEqual([]);
      await page.close();
    }
  });

  it("in dark mode the page is dark and its text light, also in figures", async () => {
    const brightness = async (colorScheme: "light" | "dark") => {
      const { page } = await watched(browser, { colorScheme });
      await page.goto(url);
      const style = (of: string, what: string) =>
        page.evaluate<string>(`getComputedStyle(document.querySelector("${of}")).${what}`);
      const sum = (colour: string) =>
        (colour.match(/\d+/g) ?? []).slice(0, 3).reduce((total, one) => total + Number(one), 0);
      const colours = [
        sum(await style("html", "backgroundColor")),
        sum(await style("figure .wide text.fill-ink", "fill")),
      ] as const;
      await page.close();
      return colours;
    };
    const [[day, ink], [night, chalk]] = [await brightness("light"), await brightness("dark")];
    expect(day).toBeGreaterThan(ink);
    expect(night).toBeLessThan(chalk);
  });

  it("the keyboard opens the reasons of a cast without a script", async () => {
    const { page } = await watched(browser, { javaScriptEnabled: false });
    await page.goto(url);
    await page.locator("summary", { hasText: /^All casts/ }).click();
    const chip = page.locator(".chips details", {
      has: page.locator("summary", { hasText: /^008$/ }),
    });
    const reasons = chip.locator("div");
    expect(await reasons.isVisible()).toBe(false);
    await chip.locator("summary").focus();
    await page.keyboard.press("Enter");
    expect(await reasons.isVisible()).toBe(true);
    expect(await reasons.getByText("fouling").first().isVisible()).toBe(true);
    await page.close();
  });

  it("axe-core finds no serious or critical fault in the report, at any width, light or dark", async () => {
    const source = readFileSync(axe, "utf8");
    for (const look of looks) {
      // The page's own policy lets no script in, so the checker is put in past it.
      const { page } = await watched(browser, { ...look, bypassCSP: true });
      await page.goto(url);
      await openAll(page);
      await page.evaluate(source);
      const faults = await page.evaluate(async () => {
        const checker = (globalThis as unknown as { axe: { run(): Promise<AxeResults> } }).axe;
        const { violations } = await checker.run();
        return violations
          .filter(({ impact }) => impact === "serious" || impact === "critical")
          .map(
            ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 200)).join(" ")}`,
          );
      });
      expect(faults).toEqual([]);
      await page.close();
    }
  });

  it("the report prints in print colours on at most four pages, the checklist on its own page", async () => {
    const { page } = await watched(browser, { colorScheme: "dark" });
    await page.goto(url);
    expect(await pagesOf(page)).toBeLessThanOrEqual(4);
    expect(await sheetShare(page)).toBeLessThanOrEqual(1);
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    const ground = await page.evaluate(
      "getComputedStyle(document.documentElement).backgroundColor",
    );
    expect(ground).toBe("rgb(255, 255, 255)");
    await page.close();
  });

  it("scripts, links and styles in names and notes of files have no effect on the page", async () => {
    const { document, data } = assessed(bottleCruise(3, 6, hostile));
    const bad = written("hostile.html", report(document, data, hostile.cast(1)));
    const { page, requests, complaints } = await watched(browser, { bypassCSP: true });
    page.on("dialog", (dialog) => {
      complaints.push(`dialog: ${dialog.message()}`);
      void dialog.dismiss();
    });
    await page.goto(bad);
    expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe(hostile.cruise);
    expect(await page.locator("script").count()).toBe(1);
    expect(await page.locator("img:not(svg), iframe").count()).toBe(0);
    expect(requests).toEqual([bad]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("a report of 200 casts is under 3 MB and shows every cast", async () => {
    const { document, data } = assessed(bottleCruise(200, 24));
    const long = written("long.html", report(document, data));
    expect(statSync(join(folder, "long.html")).size).toBeLessThan(3e6);
    const { page } = await watched(browser);
    await page.goto(long);
    expect(
      await page
        .locator(".fold", { has: page.locator("#casts") })
        .locator("tbody tr")
        .count(),
    ).toBe(200);
    expect(await pagesOf(page)).toBeLessThanOrEqual(4);
    await page.close();
  });

  it("with two fouled cells and all work due, the report prints on four pages, the checklist on one", async () => {
    const { page } = await watched(browser);
    await page.goto(written("laden.html", laden()));
    expect(await page.locator(".sheet .boxes input").count()).toBeGreaterThan(20);
    expect(await sheetShare(page)).toBeLessThanOrEqual(1);
    expect(await pagesOf(page)).toBeLessThanOrEqual(4);
    await page.close();
  });

  it("an opened section of the report is printed, and a closed one is not", async () => {
    const { page } = await watched(browser);
    await page.goto(url);
    await page.locator("summary", { hasText: "Settings and trace" }).click();
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("#trace").isVisible()).toBe(true);
    expect(await page.locator("#casts").isVisible()).toBe(false);
    await page.close();
  });
});

async function openAll(page: Page): Promise<void> {
  await page.evaluate("for (const one of document.querySelectorAll('.fold')) one.open = true");
}

async function pagesOf(page: Page): Promise<number> {
  const pdf = await page.pdf({ format: "A4", preferCSSPageSize: true, printBackground: true });
  const text = pdf.toString("latin1");
  expect(text.startsWith("%PDF-")).toBe(true);
  return text.match(/\/Type\s*\/Page\b/g)!.length;
}

/** Height of the checklist as a share of what A4 less margins of 12 mm holds, 96 px an inch. */
async function sheetShare(page: Page): Promise<number> {
  const before = page.viewportSize()!;
  await page.setViewportSize({ width: 703, height: 1031 });
  await page.emulateMedia({ media: "print" });
  const { height } = (await page.locator(".sheet").boundingBox())!;
  await page.setViewportSize(before);
  return height / 1031;
}

/** Both cells with a film, not of the same size, a soak in vain, a flat battery, an opened housing, frost to come. */
function laden(): string {
  const plain = bottleCruise(8, 12);
  const bottles = plain.bottles.map((bottle) => ({
    ...bottle,
    ctd: Object.fromEntries(
      Object.entries(bottle.ctd!).map(([cell, read]) => [
        cell,
        {
          ...read,
          conductivity_mS_cm:
            read.conductivity_mS_cm *
            (bottle.cast > "003" ? 1 - (cell === "primary" ? 4e-4 : 2.5e-4) : 1),
        },
      ]),
    ),
  }));
  const { document, data } = assessed({
    ...plain,
    bottles,
    maintenance: [
      { action: "soak", afterCast: "005" },
      {
        action: "battery",
        afterCast: "006",
        batteryVolts: 13,
        batteryCells: 10,
        batteryKind: "alkaline",
      },
      {
        action: "battery",
        afterCast: "007",
        batteryVolts: 12.4,
        batteryCells: 10,
        batteryKind: "alkaline",
      },
      { action: "housing-opened", afterCast: "008" },
      { action: "plugs", afterCast: "008" },
      { action: "storage", afterCast: "008", note: "kept wet, ice on deck" },
    ],
    nextStation: { time: "2031-01-12T00:00:00Z", air_C: -8 },
  });
  expect(document.casts.at(-1)!.advice.cells).toEqual(["primary", "secondary"]);
  expect(document.beforeNextCast!.due.length).toBeGreaterThan(5);
  return report(document, data);
}

/** The part of axe-core's answer that is looked at. */
interface AxeResults {
  readonly violations: readonly {
    readonly id: string;
    readonly impact: string;
    readonly nodes: readonly { readonly html: string }[];
  }[];
}
