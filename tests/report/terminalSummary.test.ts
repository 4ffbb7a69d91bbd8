import { describe, expect, it } from "vitest";
import type { Cruise } from "../../src/cast/cruise.js";
import { figureData, htmlReport, markdownReport } from "../../src/index.js";
import { terminalSummary } from "../../src/report/terminal/terminalSummary.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import type { CauseProbability, VerdictDocument } from "../../src/verdict/verdict.js";

const { cruise } = simulateCruise({
  seed: 3,
  casts: 4,
  deepest_dbar: 600,
  bottles: 8,
  events: [
    { kind: "film-step", cells: ["primary"], cast: 3, at: "before-cast", ppm: -300 },
    { kind: "leak", cast: 4, bottle: 2, share: 0.5 },
  ],
});
const document = assessCruise(cruise);
const plain = { colour: false, width: 80 };
/** Anything that moves the cursor, colours, rings, or turns the direction of text, but the end of a line. */
const control = /(?!\n)[\p{Cc}\p{Bidi_Control}\u2028\u2029]/u;
/** What turns colour or weight on, and off again. */
const painted = /\p{Cc}\[\d+m/gu;

/** The document with this change of the primary cell on its last cast. */
function withOnset(sinceCast: string, probability: number): VerdictDocument {
  const last = document.casts.at(-1)!;
  const change = { kind: "step", sinceCast, when: "before", probability } as const;
  const primary = { ...last.cells.primary!, change };
  const changed = { ...last, cells: { ...last.cells, primary } };
  return { ...document, casts: [...document.casts.slice(0, -1), changed] };
}

/** The document with this most probable cause of the primary cell on its last cast. */
function withCause(cause: CauseProbability): VerdictDocument {
  const last = document.casts.at(-1)!;
  const primary = { ...last.cells.primary!, causes: [cause] };
  const changed = { ...last, cells: { ...last.cells, primary } };
  return { ...document, casts: [...document.casts.slice(0, -1), changed] };
}

/** As rows, HTML and Markdown name it. */
function onset(cast: string): RegExp {
  return new RegExp(
    `(^change +|Most probable change: |^- Most probable change of the primary cell: )present since before cast ${cast}`,
    "m",
  );
}

function everyReport(of: VerdictDocument): readonly string[] {
  return [
    terminalSummary(of, { ...plain, detail: "full" }),
    htmlReport(of, figureData(cruise, of)),
    markdownReport(of),
  ];
}

describe("the summary in a terminal", () => {
  it("has no control characters, whatever the names in the files", () => {
    const hostile = "\u001b[2J\u001b]0;title\u0007\u202egnp.exe\u061c\u2028\r\u009b31m";
    const named: Cruise = {
      ...cruise,
      casts: cruise.casts.slice(2),
      name: `name ${hostile}`,
      note: `note ${hostile}`,
      bottles: cruise.bottles.slice(16).map((bottle) => ({
        ...bottle,
        bottle: `${bottle.bottle}${hostile}`,
      })),
      inputs: [
        {
          name: `bottles${hostile}.csv`,
          role: "bottles",
          rows: 9,
          leftOut: [{ line: 4, why: `found ${hostile}` }],
          notes: [`heading ${hostile}`],
        },
      ],
    };
    // Ids with such characters are refused at the door; a document from elsewhere may still hold them.
    const assessed = assessCruise(named);
    const named4 = {
      ...assessed,
      casts: assessed.casts.map((verdict) => ({ ...verdict, cast: `${verdict.cast}${hostile}` })),
      latest: `${assessed.latest}${hostile}`,
    };
    const text = terminalSummary(named4, plain);
    expect(text).not.toMatch(control);
    for (const word of ["name ", "note ", "bottles", "004"]) expect(text).toContain(word);
    // A cast is found by its name as it is written in the file.
    expect(terminalSummary(named4, { ...plain, cast: `003${hostile}` })).toMatch(/^Cast 003/m);
    // With colours the only escapes are those of colour and weight, each of them ended.
    const coloured = terminalSummary(named4, { ...plain, colour: true });
    expect(coloured.replaceAll(painted, "")).not.toMatch(control);
  });

  it("has colour only on request, and the same words without it", () => {
    expect(terminalSummary(document, plain)).not.toMatch(painted);
    const coloured = terminalSummary(document, { ...plain, colour: true });
    expect(coloured).toMatch(painted);
    const words = (text: string) => text.replaceAll(painted, "").replaceAll(/\s+/g, " ");
    expect(words(coloured)).toBe(words(terminalSummary(document, plain)));
    const codes = [...coloured.matchAll(painted)].map(([code]) => code.slice(1));
    const [on, off] = [
      codes.filter((code) => code !== "[0m"),
      codes.filter((code) => code === "[0m"),
    ];
    expect(on.length).toBe(off.length);
  });

  it("keeps to the width of the terminal and to 80 columns, whatever the names and the detail", () => {
    const long = "x".repeat(200);
    const renamed = {
      ...document,
      cruise: { ...document.cruise, name: long },
      casts: document.casts.map((verdict) => ({ ...verdict, cast: `${verdict.cast}${long}` })),
      latest: `${document.latest}${long}`,
    };
    for (const width of [60, 80, 200]) {
      for (const detail of ["usual", "full"] as const) {
        for (const shown of [document, renamed]) {
          const text = terminalSummary(shown, { colour: false, width, detail });
          const widths = text.split("\n").map((line) => line.length);
          expect(Math.max(...widths)).toBeLessThanOrEqual(Math.min(width, 80));
        }
      }
    }
  });

  it("ends with the answer: each cell with its one number, the data, whose salinity, what to do", () => {
    for (const detail of ["usual", "full"] as const) {
      const answer = terminalSummary(document, { ...plain, detail })
        .trimEnd()
        .split("\n\n")
        .at(-1)!;
      expect(answer).toMatch(/^primary cell +not clean \(fouling, /);
      expect(answer).toMatch(/^secondary cell +clean \(sound, /m);
      expect(answer.match(/ ± /g)).toHaveLength(2);
      expect(answer).toMatch(/^data +primary cell usable after the gain error is removed$/m);
      expect(answer).toMatch(/^salinity +Use the salinity of the secondary cell as it is\.$/m);
      const { intensity, minutes } = document.casts.at(-1)!.advice;
      expect(answer.split("\n").findLast((line) => line.startsWith("do "))).toMatch(
        new RegExp(`^do +${intensity} the primary cell, ${minutes} minutes\\.`, "i"),
      );
    }
  });

  it("in brief is three lines of at most 80 columns, with the cast, that point to the cautions", () => {
    for (const { cast, advice } of document.casts) {
      const lines = terminalSummary(document, { ...plain, cast, detail: "brief" }).split("\n");
      expect(lines).toHaveLength(4);
      expect(lines[3]).toBe("");
      expect(lines[0]).toMatch(new RegExp(`^Cast ${cast}: primary: `));
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
      expect(lines[1]).toContain(`${advice.minutes} minutes; cautions: run without --brief`);
      expect(lines[2]).toMatch(/^Use /);
    }
  });

  it("calls a cell without a film clean only if it is sound, in full, in brief and on the page", () => {
    const because = "The cell is off even when clean.";
    const off = withCause({ cause: "calibration-shift", probability: 0.993, because });
    const answer = terminalSummary(off, plain).trimEnd().split("\n\n").at(-1)!;
    expect(answer.replaceAll(/\s+/g, " ")).toContain(
      "primary cell no film, but off by a constant factor (calibration-shift, over 99 %): ",
    );
    const brief = terminalSummary(off, { ...plain, detail: "brief" }).split("\n");
    expect(brief).toContain(
      "primary: no film, but off by a constant factor, calibration-shift 99 %",
    );
    for (const line of brief) expect(line.length).toBeLessThanOrEqual(80);
    const page = htmlReport(off, figureData(cruise, off));
    expect(page).toContain("<b>No film, but off by a constant factor:</b>");
    const other = withCause({ cause: "transient", probability: 0.8, because: "It came and went." });
    expect(terminalSummary(other, { ...plain, detail: "brief" })).toMatch(
      /primary: no film, transient 80 %/,
    );
  });

  it("gives the probability beside the reason, so that an open verdict does not read as settled", () => {
    const reason = "The cell has no film or calibration shift.";
    const sound = withCause({ cause: "sound", probability: 0.54, because: reason });
    expect(terminalSummary(sound, plain)).toMatch(/^primary cell +Sound, 54 %\. The cell has no/m);
    expect(markdownReport(sound)).toContain(`- Primary cell: sound, 54 %. ${reason}`);
  });

  it("calls data questionable, not open", () => {
    const last = document.casts.at(-1)!;
    const casts = [...document.casts.slice(0, -1), { ...last, data: "questionable" as const }];
    expect(terminalSummary({ ...document, casts }, plain)).toMatch(/^004 .* questionable /m);
  });

  it("an onset is named from 50 % on, in the terminal, on the page and in the log", () => {
    for (const told of everyReport(withOnset("003", 0.39))) expect(told).not.toMatch(onset("003"));
    for (const told of everyReport(withOnset("003", 0.6))) expect(told).toMatch(onset("003"));
  });

  it("an onset is never shown beside a later cast that its own verdict called sound", () => {
    expect(document.casts[1]!.cells.primary!.causes[0]!.cause).toBe("sound");
    for (const cast of ["001", "002"])
      for (const told of everyReport(withOnset(cast, 0.9))) expect(told).not.toMatch(onset(cast));
  });

  it("says that an invented cruise is invented", () => {
    expect(terminalSummary(document, plain)).toMatch(/This cruise is invented/);
    const { note: _, ...about } = document.cruise;
    expect(terminalSummary({ ...document, cruise: about }, plain)).not.toMatch(/is invented/);
  });

  it("has its cautions wherever it has steps, on every cast", () => {
    for (const { cast, advice } of document.casts) {
      const text = terminalSummary(document, { ...plain, cast });
      expect(advice.steps.length).toBeGreaterThan(0);
      expect(text).toMatch(/^steps +1\. /m);
      expect(text).toMatch(/^cautions +! /m);
      const all = text.replaceAll(/\s+/g, " ");
      for (const caution of advice.cautions) expect(all).toContain(`! ${caution}`);
    }
  });

  it("shows cause, gain, salinity and interval of the cast asked for, and every cast in a line", () => {
    const text = terminalSummary(document, plain);
    expect(text).toMatch(/^Cast 004, 2021/m);
    expect(text).toMatch(/^primary cell +not clean \(fouling, /m);
    const { ppm } = document.casts[3]!.cells.primary!.gainError.up;
    expect(text).toContain(`${ppm.toFixed(0)} ± `);
    // 100 ppm are 0.0039 in salinity at SP 35 (PSS-78).
    const salinity = Number(/ppm \((-0\.\d+)\s+in\s+salinity\)/.exec(text)![1]);
    expect(Math.abs(salinity - ppm * 3.9e-5)).toBeLessThan(0.0003);
    for (const { cast } of document.casts) expect(text).toMatch(new RegExp(`^${cast} +-?\\d`, "m"));
  });

  it("names the bottles that were left out, and why", () => {
    const [leftOut] = document.casts[3]!.evidence.find(({ line }) => line === "bottles")!.leftOut;
    const full = { ...plain, detail: "full" } as const;
    const all = terminalSummary(document, full).replaceAll(/\s+/g, " ");
    expect(all).toContain(`left out bottles, primary cell: ${leftOut!.what}`);
    expect(all).toMatch(/leaked, tripped elsewhere or is mislabelled/);
  });

  it("of a long cruise shows the last casts and says that --full shows those before; --full has all", () => {
    const many: VerdictDocument = {
      ...document,
      casts: Array.from({ length: 100 }, (_, i) => ({ ...document.casts[3]!, cast: `c${i}` })),
      latest: "c99",
    };
    const text = terminalSummary(many, plain);
    expect(text).toMatch(/^100 casts/m);
    expect(text).toMatch(/^90 earlier casts: --full shows them$/m);
    expect(text).toMatch(/^c90 /m);
    expect(text).not.toMatch(/^c89 /m);
    const full = terminalSummary(many, { ...plain, detail: "full" });
    for (const { cast } of many.casts) expect(full).toMatch(new RegExp(`^${cast} `, "m"));
  });

  it("refuses a cast that is not there, naming those that are", () => {
    expect(() => terminalSummary(document, { ...plain, cast: "9\u001b[2J" })).toThrow(RangeError);
    expect(() => terminalSummary(document, { ...plain, cast: "9" })).toThrow(/001, 002, 003, 004/);
  });
});
