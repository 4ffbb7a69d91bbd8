// Figures held to the data they are drawn from; what they look like is for people.
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { causes } from "../../src/figures/causes.js";
import { decision } from "../../src/figures/decision.js";
import type { FigureData } from "../../src/figures/figureData.js";
import { gainTrack } from "../../src/figures/gainTrack.js";
import { nextStation, trackKey } from "../../src/figures/gainTrackKey.js";
import { legs } from "../../src/figures/legs.js";
import { shapeOf } from "../../src/figures/marks.js";
import { pair } from "../../src/figures/pair.js";
import { dark, light, type Palette } from "../../src/figures/palette.js";
import { profiles } from "../../src/figures/profiles.js";
import { residuals } from "../../src/figures/residuals.js";
import { responseTrack } from "../../src/figures/responseTrack.js";
import { drawing, escapeText, label } from "../../src/figures/svg.js";
import { deepThetaSalinity, thetaSalinity } from "../../src/figures/thetaSalinity.js";
import type { ResponseSeen } from "../../src/verdict/verdict.js";
import { assessed, bottleCruise, hostile, shortDemoCruise } from "./cruises.js";
import { elementsOf } from "./elementsOf.js";

const allOf = (data: FigureData, cast: string, width?: number) => ({
  gainTrack: gainTrack(data, width),
  residuals: residuals(data, width),
  pair: pair(data, width),
  responseTrack: responseTrack(data, width),
  deepThetaSalinity: deepThetaSalinity(data, width),
  causes: causes(data, cast, width),
  decision: decision(data, cast, width),
  legs: legs(data, cast, width),
  thetaSalinity: thetaSalinity(data, cast, width),
  profiles: profiles(data, cast, width),
});

/** Only these are written; none of them runs, fetches or styles anything. */
const known = ["svg", "title", "desc", "g", "rect", "line", "path", "text"];

describe("the figures of the demonstration cruise", () => {
  let demo: Awaited<ReturnType<typeof shortDemoCruise>>;
  beforeAll(async () => {
    demo = await shortDemoCruise();
  });

  it("each figure, wide or narrow, is valid SVG of known elements with a title, a description and no NaN", () => {
    for (const width of [360, 720]) {
      for (const [name, svg] of Object.entries(allOf(demo.data, "008", width))) {
        const elements = elementsOf(svg);
        for (const { name: tag } of elements) expect(known).toContain(tag);
        expect(elements[0]!.attributes.role).toBe("img");
        expect(elements.slice(1, 3).map((one) => one.name)).toEqual(["title", "desc"]);
        expect(svg, name).not.toMatch(/NaN|Infinity|undefined|null/);
      }
    }
  });

  it("no mark of a figure lies outside its edges", () => {
    for (const svg of Object.values(allOf(demo.data, "008", 360))) {
      const [{ attributes: size }, ...rest] = elementsOf(svg) as [
        ReturnType<typeof elementsOf>[number],
      ] &
        ReturnType<typeof elementsOf>;
      for (const { attributes } of rest) {
        const [x = "0", y = "0"] = /translate\((\S+) (\S+)\)/
          .exec(attributes.transform ?? "")
          ?.slice(1) ?? [attributes.x, attributes.y];
        expect(Number(x)).toBeGreaterThanOrEqual(0);
        expect(Number(x)).toBeLessThanOrEqual(Number(size!.width));
        expect(Number(y)).toBeGreaterThanOrEqual(0);
        expect(Number(y)).toBeLessThanOrEqual(Number(size!.height));
      }
    }
  });

  it("the gain figure shows deep water with its own key entry and its uncertainty", () => {
    const lines = ["bottles", "pair", "legs", "deep-water"];
    expect(lines.map(shapeOf)).not.toContain(nextStation);
    const seen = new Set(
      demo.document.casts.flatMap(({ evidence }) => evidence.map((e) => e.line)),
    );
    expect(seen).toContain("deep-water");
    const entries = trackKey(demo.data);
    const shapes = entries.flatMap(({ look }) => (look === undefined ? [] : [look.shape]));
    expect(new Set(shapes).size).toBe(shapes.length);
    expect(entries.map(({ words }) => words).join()).toContain("deep water");
    const said = [...gainTrack(demo.data).matchAll(/deep-water \(\d+\): \S+ ± (\d+) ppm/g)];
    const deep = demo.data.casts.flatMap((cast) =>
      cast.verdict.evidence.flatMap(({ line, standardUncertainty }) =>
        line === "deep-water" ? [Math.hypot(standardUncertainty, cast.deepWater_sd_ppm)] : [],
      ),
    );
    expect(said.map(([, sd]) => sd)).toEqual(deep.map((sd) => sd.toFixed(0)));
    // Every point of a cell that is soundly known by its bottles is within three of its own standard deviations.
    for (const { verdict, deepWater_sd_ppm } of demo.data.casts) {
      const one = verdict.evidence.find(({ line }) => line === "deep-water");
      const up = verdict.cells.primary!.gainError.up;
      if (one === undefined) continue;
      const sd = Math.hypot(one.standardUncertainty, deepWater_sd_ppm, up.standardUncertainty);
      expect(Math.abs(one.ppm - up.ppm)).toBeLessThan(3 * sd);
    }
  });

  it("the profile figure has a line for each cell and leg, and tells each salinity at a pressure", () => {
    const svg = profiles(demo.data, "008");
    for (const cell of ["primary", "secondary"]) {
      for (const leg of ["down", "up"])
        expect(svg).toContain(`<title>${cell} cell, ${leg} leg</title>`);
    }
    const { pressure_dbar, salinity } = demo.data.casts[0]!.legs.primary!.profiles.down;
    const [, at, value] = /<title>(\d+) dbar\nprimary cell, down leg: ([\d.]+)/.exec(svg)!;
    const k = pressure_dbar.findIndex((pressure) => pressure >= Number(at));
    expect(Math.abs(salinity[k]! - Number(value))).toBeLessThan(0.02);
    expect(profiles(assessed(bottleCruise(1, 1)).data, "001")).toBe("");
  });

  it("the bottle figure shows every measured bottle once for each cell in both panels", () => {
    const measured = demo.cruise.bottles.filter(({ salinity }) => Number.isFinite(salinity)).length;
    const hints = residuals(demo.data).match(/<title>cast [^<]*bottle/g);
    expect(hints?.length).toBe(measured * 2 * 2);
  });

  it("the bottle figure crosses out the bottles that the verdict excluded, with the reason", () => {
    const told = demo.document.casts.flatMap(({ cast, evidence }) =>
      evidence.flatMap(({ line, cell, leftOut }) =>
        line === "bottles" && cell === "primary" ? leftOut.map(({ why }) => ({ cast, why })) : [],
      ),
    );
    expect(told.length).toBeGreaterThan(0);
    const svg = residuals(demo.data);
    for (const { cast, why } of told) {
      expect(svg).toMatch(new RegExp(`cast ${cast}, bottle [^<]*primary cell: [^<]*left out: `));
      expect(svg).toContain(escapeText(why));
    }
  });

  it("the leg figure places the film of cast 008 within 100 dbar of the simulated 620 dbar", () => {
    // fixtures/demo-cruise/README.md tells the truth of the invented cruise.
    const said = /change at (\d+) [^<]* on the (\w+) leg/.exec(legs(demo.data, "008"));
    expect(Math.abs(Number(said?.[1]) - 620)).toBeLessThan(100);
    expect(said?.[2]).toBe("down");
  });

  it("the gain figure draws the gain of the latest cast at its value on the axis", () => {
    const svg = gainTrack(demo.data);
    const { ppm } = demo.document.casts.at(-1)!.cells.primary!.gainError.up;
    // The axis of the first panel, by two of its labels: y = a + b ppm.
    const labels = [...svg.matchAll(/<text x="44" y="([\d.]+)"[^>]*>(\u2212?\d+)</g)]
      .slice(0, 4)
      .map(([, y, words]) => [Number(words!.replace("\u2212", "-")), Number(y) - 4] as const);
    const [[p0, y0], [p1, y1]] = [labels[0]!, labels[1]!];
    const expected = y0 + ((ppm - p0) * (y1 - y0)) / (p1 - p0);
    const line = /<path d="M([^"Z]*)" class="stroke-primary"/.exec(svg)![1]!;
    expect(Number(line.split(",").at(-1))).toBeCloseTo(expected, 0);
  });
});

describe("how the cells answered through a cruise", () => {
  const { data } = assessed({
    ...bottleCruise(6, 4),
    bottles: [],
    instrument: { cells: ["primary", "secondary"] },
  });
  const alignment = (ms: number, differs?: boolean): ResponseSeen => ({
    alignment: {
      seconds: ms / 1000,
      standardUncertainty: 0.004,
      ...(differs === undefined ? {} : { usual: 0.07, differs }),
    },
    changes: [],
  });
  const answered = (of: (at: number) => FigureData["casts"][number]["verdict"]["response"]) => ({
    ...data,
    casts: data.casts.map((cast, at) => {
      const response = of(at);
      return { ...cast, verdict: { ...cast.verdict, ...(response && { response }) } };
    }),
  });
  const told = answered((at) => {
    if (at === 2) return undefined;
    const primary = alignment(at === 5 ? 250 : 70 + at, at > 3 ? at === 5 : undefined);
    return { primary, ...(at === 0 ? {} : { secondary: alignment(70 - at) }) };
  });

  it("the response figure marks every cell and cast with a value, with a ring where it differs", () => {
    const svg = responseTrack(told);
    const hints = [...svg.matchAll(/<title>cast (\d+), (\w+) cell: ([^<]*)</g)];
    expect(hints.length).toBe(5 + 4);
    expect(hints.filter(([, cast]) => cast === "003")).toEqual([]);
    const [, cast, cell, said] = hints.find(([, , , words]) => words!.includes("differs"))!;
    expect([cast, cell, said]).toEqual(["006", "primary", "250 \u00b1 4 ms, 70 before: differs"]);
    expect(svg.match(/class="fill-ground stroke-alarm"/g)?.length).toBe(1 + 1);
  });

  it("the response figure puts a longer delay higher, with bars of two standard uncertainties", () => {
    const svg = responseTrack(told);
    const marks = [...svg.matchAll(/translate\((\S+) (\S+)\)"[^>]*><title>cast (\d+), primary/g)];
    const height = (cast: string) => Number(marks.find(([, , , id]) => id === cast)![2]);
    const perMs = (height("001") - height("006")) / (250 - 70);
    expect(perMs).toBeGreaterThan(0);
    const [x, y] = marks
      .find(([, , , id]) => id === "006")!
      .slice(1, 3)
      .map(Number);
    const bars = [
      ...svg.matchAll(/<line x1="(\S+)" y1="(\S+)" x2="\S+" y2="(\S+)" class="stroke-primary"/g),
    ]
      .map((found) => found.slice(1, 4).map(Number))
      .filter(([at]) => Math.abs(at! - x!) < 0.1);
    expect(bars.length).toBe(1);
    expect(bars[0]![1]! - bars[0]![2]!).toBeCloseTo(4 * 4 * perMs, 0);
    expect((bars[0]![1]! + bars[0]![2]!) / 2).toBeCloseTo(y!, 0);
  });

  it("the response figure is empty without values, and has one panel for one quantity", () => {
    expect(responseTrack(data)).toBe("");
    expect(responseTrack(told)).not.toContain("thermal lag");
  });
});

it("figures with hostile names are valid SVG with the names as text", () => {
  const { data } = assessed(bottleCruise(2, 6, hostile));
  for (const svg of Object.values(allOf(data, hostile.cast(1)))) {
    if (svg === "") continue;
    for (const { name, attributes } of elementsOf(svg)) {
      expect(known).toContain(name);
      expect(Object.keys(attributes).filter((key) => /^on|href/.test(key))).toEqual([]);
    }
  }
});

it("a cruise of one cast, one bottle or no evidence has valid figures", () => {
  for (const cruise of [
    bottleCruise(1, 1),
    bottleCruise(2, 3),
    { ...bottleCruise(2, 3), bottles: [] },
  ]) {
    const { data, document } = assessed(cruise);
    for (const svg of Object.values(allOf(data, document.latest))) {
      elementsOf(svg);
      expect(svg).not.toMatch(/NaN|Infinity|undefined/);
    }
  }
});

it("a figure keeps any text unchanged, except characters that XML forbids", () => {
  const text = fc
    .array(fc.integer({ min: 0, max: 0x10ffff }), { maxLength: 40 })
    .map((points) => String.fromCodePoint(...points));
  fc.assert(
    fc.property(text, text, (name, words) => {
      const svg = drawing({ width: 10, height: 10 }, name, words, label(words, 1, 2, { id: name }));
      const elements = elementsOf(svg);
      expect(elements.map((one) => one.name)).toEqual(["svg", "title", "desc", "rect", "text"]);
      const read = escapeText(words).replace(
        /&(amp|lt|gt|quot|#39);/g,
        (_, entity: string) => ({ amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'" })[entity]!,
      );
      expect(escapeText(words)).not.toMatch(/[<>"']/);
      if (/^[\u0020-\u007e]*$/.test(words)) expect(read).toBe(words);
    }),
    { seed: 20310505 },
  );
});

/** Relative luminance and contrast: W3C, Web Content Accessibility Guidelines 2.2, definitions. */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) =>
    [1, 3, 5]
      .map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255)
      .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4))
      .reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i]!, 0);
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high! + 0.05) / (low! + 0.05);
}

it("black on white has the contrast of 21 that WCAG 2.2 gives it", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 9);
});

for (const [name, palette] of Object.entries({ light, dark } satisfies Record<string, Palette>)) {
  it(`the ${name} text colours have a contrast of at least 4.5, as WCAG 2.2 requires (1.4.3)`, () => {
    for (const words of ["ink", "quiet", "primary", "secondary", "good", "alarm"] as const) {
      for (const ground of ["ground", "raised", "target"] as const) {
        const found = contrast(palette[words], palette[ground]);
        expect(found, `${words} on ${ground}`).toBeGreaterThan(4.5);
      }
    }
  });
}
