// The report as text: what is in it, in which order, and that no text of a file is anything but text.
// How it looks and works in a browser is held to in tests/browser.
import { createHash } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import { momentOf, moments } from "../../src/cleaning/cautions.js";
import { escapeText } from "../../src/figures/svg.js";
import { report } from "../../src/report/html/report.js";
import { markdownReport } from "../../src/report/markdown/markdownReport.js";
import { sparkline } from "../../src/report/terminal/sparkline.js";
import { terminalSummary } from "../../src/report/terminal/terminalSummary.js";
import { leftOutWords } from "../../src/words/leftOut.js";
import { responseTable } from "../../src/words/responseTable.js";
import { start } from "../../src/words/words.js";
import { assessed, bottleCruise, hostile, shortDemoCruise } from "../figures/cruises.js";

describe("the report of the demonstration cruise", () => {
  let demo: Awaited<ReturnType<typeof shortDemoCruise>>;
  let page: string;
  beforeAll(async () => {
    demo = await shortDemoCruise();
    // Numbers stay with their units on the page; the sentences have plain blanks.
    page = report(demo.document, demo.data).replaceAll("\u00a0", " ");
  });

  it("the report gives the answer first, then checklist, reasons, cast, evidence, figures, casts, excluded data and trace", () => {
    const parts = ["verdict", "checklist", "why", "cast", "evidence", "figures", "casts"].concat([
      ...["left-out", "trace"],
    ]);
    const places = parts.map((id) => page.indexOf(`<h2 id="${id}"`));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
  });

  it("shows every caution, step and material of the advice before the reasons", () => {
    const { advice } = demo.document.casts.at(-1)!;
    const first = page.slice(0, page.indexOf('<h2 id="why"'));
    expect(advice.cautions.length).toBeGreaterThan(3);
    for (const text of [...advice.cautions, ...advice.steps, ...advice.materials]) {
      expect(first).toContain(escapeText(text));
    }
    expect(first).toContain(`${advice.minutes.toFixed(0)} minutes`);
  });

  it("has the amounts of each solution as dilute works them out, for the stocks that are usually aboard", () => {
    const { solutions } = demo.document.casts.at(-1)!.advice;
    expect(solutions.map(({ kind }) => kind)).toEqual(["hypochlorite", "detergent"]);
    const sheet = page.slice(page.indexOf('<h2 id="checklist"'), page.indexOf('<h2 id="why"'));
    // 1000 ppm from 5 % (50 000 ppm) is 1 in 50, from 10 % 1 in 100: C1 V1 = C2 V2 [WHO2014]. 250 ml are made.
    expect(sheet).toMatch(
      /5 % chlorine<\/th><td class="number">5 ml<\/td><td class="number">245 ml/,
    );
    expect(sheet).toMatch(/10 % chlorine<\/th><td class="number">2.5 ml</);
    expect(sheet).toMatch(/undiluted<\/th><td class="number">2.5 ml</);
  });

  it("prints each caution once, on the checklist, under the time at which it is needed", () => {
    const { advice } = demo.document.casts.at(-1)!;
    const sheet = page.slice(page.indexOf('<h2 id="checklist"'), page.indexOf('<h2 id="why"'));
    const places = ["Before you begin", "While you work", "If it goes wrong", "Afterwards"].map(
      (title) => sheet.indexOf(title),
    );
    expect(places.every((place) => place > 0)).toBe(true);
    for (const caution of advice.cautions) {
      expect(sheet.split(escapeText(caution)).length).toBe(2);
      const place = sheet.indexOf(escapeText(caution));
      const part = places.findLastIndex((from) => from < place);
      expect(moments[part]).toBe(momentOf(caution));
    }
  });

  it("the report gives the time on board together with UTC if the cruise has a zone, with the day if it differs", () => {
    const at = { ...demo.document.casts[0]!, start: "2031-05-07T20:30:00Z" };
    expect(start(at)).toBe("2031-05-07 20:30 UTC");
    expect(start(at, "+02:00")).toBe("2031-05-07 20:30 UTC (22:30 on board)");
    expect(start(at, "+09:30")).toBe("2031-05-07 20:30 UTC (2031-05-08 06:00 on board)");
    expect(start(at, "-03:00")).toBe("2031-05-07 20:30 UTC (17:30 on board)");
    const { document, data } = assessed({ ...bottleCruise(2, 4), bottles: [], timeZone: "-03:00" });
    expect(report(document, data)).toContain("2031-01-01 06:00 UTC (03:00 on board)");
  });

  it("names every file with its SHA-256, and every bottle left out with the reason", () => {
    for (const { name, sha256 } of demo.cruise.inputs) {
      expect(page).toContain(escapeText(name));
      expect(page).toContain(sha256);
    }
    const out = demo.document.casts.flatMap(({ evidence }) => evidence.flatMap((e) => e.leftOut));
    expect(out.length).toBeGreaterThan(0);
    for (const { what, why } of out) {
      expect(page).toContain(escapeText(what));
      expect(page).toContain(escapeText(why));
    }
  });

  it("has one script, which its policy names by its hash, no handler, and no address but that of SVG's own name", () => {
    const [script, ...others] = [...page.matchAll(/<script>([\s\S]*?)<\/script>/g)];
    expect(others).toEqual([]);
    const hash = createHash("sha256").update(script![1]!).digest("base64");
    expect(page).toContain(escapeText(`script-src 'sha256-${hash}'`));
    expect(page.replace(script![0], "")).not.toMatch(
      /<script|<iframe|<object|<embed|<link|<img|javascript:/i,
    );
    expect(page).not.toMatch(/<[a-z]+[^>]* on[a-z]+=/i);
    const addresses = new Set(page.match(/https?:[^"'\s<)]*/g));
    expect([...addresses]).toEqual(["http://www.w3.org/2000/svg"]);
    expect(page).not.toMatch(/url\(|@import/);
    expect(page).toContain("default-src 'none'".replaceAll("'", "&#39;"));
  });

  it("the report shows any cast in full, and refuses an unknown cast", () => {
    expect(report(demo.document, demo.data, "008")).toContain("After cast 008,");
    expect(() => report(demo.document, demo.data, "no such")).toThrow(/no cast no such/);
  });

  it("as Markdown has the cause, its probability, the action, cautions, casts and files", () => {
    const text = markdownReport(demo.document);
    const { advice, cells } = demo.document.casts.at(-1)!;
    expect(text).toContain(`## To do: ${advice.intensity}, ${advice.minutes.toFixed(0)} minutes`);
    expect(text).toContain(cells.primary!.causes[0]!.cause);
    for (const caution of advice.cautions) {
      expect(text.toLowerCase()).toContain(caution.slice(0, 40).toLowerCase());
    }
    const casts = text.slice(text.indexOf("## Casts"));
    const rows = casts.match(/^\| \d{3} \|.*$/gm)!;
    expect(rows.length).toBe(demo.document.casts.length);
    const columns = new Set(rows.map((row) => row.replaceAll("\\|", "").split("|").length));
    expect(columns.size).toBe(1);
    for (const { name, sha256 } of demo.cruise.inputs) {
      expect(text).toContain(sha256);
      expect(text).toMatch(new RegExp(`^- ${name}: \\d+ rows`, "m"));
    }
  });

  it("names the cell of what was left out, and leaves out no line twice", () => {
    const last = demo.document.casts.at(-1)!;
    const one = { what: "3 thin layers", why: "too few" };
    const two = { what: "9 scans in air before the cast", why: "too short" };
    const summary = { ppm: 0, standardUncertainty: 9, n: 4, weight: 0, notes: [] };
    const evidence = [
      { ...summary, line: "legs", cell: "primary" as const, leftOut: [one, two] },
      { ...summary, line: "legs", cell: "secondary" as const, leftOut: [two] },
      { ...summary, line: "pair", cell: "both" as const, leftOut: [one] },
    ];
    expect(leftOutWords({ ...last, evidence })).toEqual([
      "legs, primary cell: 3 thin layers: too few",
      "legs, both cells: 9 scans in air before the cast: too short",
      "pair: 3 thin layers: too few",
    ]);
  });

  it("gives the film and the error without it, so that together they are the gain error", () => {
    let seen = 0;
    for (const { cells } of demo.document.casts) {
      const { causes, gainError } = cells.primary!;
      const [leading] = causes;
      if (leading?.cause !== "fouling" || leading.probability < 0.98) continue;
      const [film, rest] = leading.because.match(/[+-]?\d+(?= ± \d+ ppm)/g)!.map(Number);
      // Each is rounded, and other causes have up to 2 %.
      expect(Math.abs(film! + rest! - gainError.up.ppm)).toBeLessThan(4);
      seen++;
    }
    expect(seen).toBeGreaterThan(1);
  });

  it("in a terminal has the gain of each cell through the cruise as a line of bars, lowest on cast 008", () => {
    const summary = terminalSummary(demo.document, { colour: false, width: 100 });
    const line = /[\u2581-\u2588]{3}/.exec(summary)?.[0];
    expect(line?.indexOf("\u2581")).toBe(0);
  });
});

describe("a cruise whose names and notes are markup", () => {
  const { document, data } = assessed(bottleCruise(2, 6, hostile));

  it("has a report in which they are words", () => {
    const page = report(document, data, hostile.cast(1));
    expect(page.match(/<script/gi)?.length).toBe(1);
    expect(page).not.toMatch(/<img|<svg onload/i);
    expect(page).toContain(escapeText(hostile.cruise));
    expect(page.match(/<\/style>/g)?.length).toBe(1);
    expect(page.match(/<title>/g)?.length).toBe(page.match(/<\/title>/g)?.length);
    for (const unfit of ["\u202e", "\u0007"]) expect(page).not.toContain(unfit);
  });

  it("has a Markdown report in which they are words", () => {
    const text = markdownReport(document, hostile.cast(1));
    expect(text.replace("<!-- foulcast report -->", "")).not.toContain("<");
    for (const unfit of ["\u202e", "\u0007"]) expect(text).not.toContain(unfit);
  });
});

describe("alignment and thermal lag through a cruise, in numbers", () => {
  const { document, data } = assessed({ ...bottleCruise(4, 4), bottles: [] });
  const lag = (timesUsual: number, differs?: boolean) => ({
    thermalLag: {
      timesUsual,
      standardUncertainty: 0.1,
      ...(differs === undefined ? {} : { usual: 1, differs }),
    },
    changes: [],
  });
  const casts = document.casts.map((verdict, i) => {
    if (i === 1) return verdict;
    const secondary = {
      ...lag(3, true),
      alignment: { seconds: -0.0002, standardUncertainty: 0.004 },
    };
    return {
      ...verdict,
      response: i === 3 ? { primary: lag(1.1, false), secondary } : { primary: lag(1) },
    };
  });

  it("has the casts and the columns with a value", () => {
    const table = responseTable(casts)!;
    expect(table.cells).toEqual([
      { cell: "primary", titles: ["lag, times usual"] },
      { cell: "secondary", titles: ["delay, ms", "lag, times usual"] },
    ]);
    expect(table.rows.map(({ cast }) => cast)).toEqual(["001", "003", "004"]);
    expect(table.rows[0]).toEqual({
      cast: "001",
      words: ["1.00 \u00b1 0.10", "", ""],
      beside: "",
      differs: false,
    });
    expect(table.rows[2]).toEqual({
      cast: "004",
      words: ["1.10 \u00b1 0.10", "0 \u00b1 4", "3.00 \u00b1 0.10"],
      beside: "secondary more lag",
      differs: true,
    });
    expect(responseTable(document.casts)).toBeUndefined();
  });

  it("the report gives the time constant with its uncertainty, in the table and in words", () => {
    const primary = {
      ...lag(1),
      thermalLag: {
        ...lag(1).thermalLag,
        alpha: 0.025,
        alphaStandardUncertainty: 0.003,
        tau_s: 9.5,
        tauStandardUncertainty_s: 1.2,
      },
    };
    const verdict = { ...document.casts[0]!, response: { primary } };
    const table = responseTable([verdict])!;
    expect(table.cells[0]!.titles).toContain("time of lag, s");
    expect(table.rows[0]!.words).toContain("9.5 \u00b1 1.2");
    expect(markdownReport({ ...document, casts: [verdict], latest: verdict.cast })).toContain(
      "(amplitude 0.025 \u00b1 0.003, 10 \u00b1 1 s)",
    );
  });

  it("appears in page and log only if a cast has a value", () => {
    const told = { ...document, casts };
    const figures = {
      ...data,
      casts: data.casts.map((cast, i) => ({ ...cast, verdict: casts[i]! })),
    };
    const page = report(told, figures);
    expect(page).toContain("secondary more lag");
    expect(page.indexOf("Response of the cells")).toBeGreaterThan(0);
    expect(markdownReport(told)).toContain("| 004 | 1.10 \u00b1 0.10 | 0 \u00b1 4 |");
    expect(report(document, data)).not.toContain("Response of the cells");
    expect(markdownReport(document)).not.toContain("Alignment and thermal lag");
  });
});

it("a line of bars rises with its values, keeps a blank for what is missing, and is level for one value", () => {
  expect(sparkline([0, 1, 2, 3, 4, 5, 6, 7])).toBe("▁▂▃▄▅▆▇█");
  expect(sparkline([-10, Number.NaN, 10])).toBe("▁ █");
  expect(sparkline([5])).toBe("▄");
  expect(sparkline([])).toBe("");
});
