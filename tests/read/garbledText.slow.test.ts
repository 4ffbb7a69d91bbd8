import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BadInput } from "../../src/read/badInput.js";
import { readBottlesCsv } from "../../src/read/bottlesCsv.js";
import { readCastCsv } from "../../src/read/castCsv.js";
import { readCruiseDescription } from "../../src/read/cruiseDescription.js";
import { readExchangeBottles } from "../../src/read/exchangeBottles.js";
import { readExchangeCast } from "../../src/read/exchangeCast.js";
import { readMaintenance } from "../../src/read/maintenanceRecord.js";
import { sniff } from "../../src/read/sniff.js";

const file = "garbled.csv";
/** Each reader with a text that it takes, invented. */
const readers: readonly (readonly [
  name: string,
  sound: string,
  read: (text: string) => unknown,
])[] = [
  [
    "a cast",
    'time_s,pressure_dbar,temperature_C,conductivity_mS_cm,note\n0,10,12.1,39.8,\n1,20,12.0,39.7,"a, b"\n2,30,11.9,39.6,\n',
    (text) => readCastCsv(text, { id: "1", file }),
  ],
  [
    "bottles",
    "cast,bottle,pressure_dbar,salinity,start,ctd_temperature_C,ctd_conductivity_mS_cm\n001,1,900,34.9,2031-05-04T12:30Z,4.1,33.0\n001,2,500,34.8,,5,33.6\n",
    (text) => readBottlesCsv(text, { file }),
  ],
  [
    "a maintenance record",
    "time,after_cast,action,minutes\n2031-05-04T12:30Z,,rinse,5\n,003,soak,30\n",
    (text) => readMaintenance(text, { file }),
  ],
  [
    "a maintenance record in JSON",
    '[{"time": "2031-05-04T12:30Z", "action": "rinse", "minutes": 5}]',
    (text) => readMaintenance(text, { file }),
  ],
  [
    "a WHP-Exchange bottle file",
    "BOTTLE,x\nSTNNBR,CASTNO,DATE,TIME,CTDPRS,CTDTMP,CTDSAL,SALNTY\n,,,,DBAR,ITS-90,PSS-78,PSS-78\n1,2,20310504,0905,900,4.1,34.9,34.901\nEND_DATA\n",
    (text) => readExchangeBottles(text, { file }),
  ],
  [
    "a WHP-Exchange CTD file",
    "CTD,x\nNUMBER_HEADERS = 3\nSTNNBR = 1\nCASTNO = 2\nCTDPRS,CTDTMP,CTDSAL\nDBAR,ITS-90,PSS-78\n10,4.1,34.9\n20,4.0,34.9\nEND_DATA\n",
    (text) => readExchangeCast(text, { file }),
  ],
  [
    "cruise.json",
    '{"name": "x", "casts": [{"id": "1", "file": "1.csv", "mapping": {"time_s": "t"}}], "target": 0.002}',
    (text) => readCruiseDescription(text, { file }),
  ],
];

/** Reads, or gives faults that each say where, what, what else and how to mend it. */
function readsOrSaysWhy(read: () => unknown): void {
  try {
    read();
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    expect(error.faults.length).toBeGreaterThan(0);
    for (const fault of error.faults.slice(0, 1000)) {
      expect(fault.file).toBe(file);
      expect(Number.isInteger(fault.line) && fault.line >= 0).toBe(true);
      for (const part of [fault.found, fault.expected, fault.mend]) expect(part).not.toBe("");
    }
    // What a file holds does not steer a terminal, and does not flood it.
    expect(error.message).not.toMatch(/[^\P{Cc}\n]/u);
    expect(error.message.length).toBeLessThan(20_000);
  }
}

const anything = fc.oneof(
  fc.string({ unit: "binary", maxLength: 200 }),
  fc.uint8Array({ maxLength: 300 }).map((bytes) => new TextDecoder("latin1").decode(bytes)),
);
const pieces = fc.constantFrom(
  ...[
    "",
    ",",
    ",,,",
    '"',
    '""',
    "\n",
    "\r",
    "\r\n",
    "\ufeff",
    "#",
    "-999",
    "NaN",
    "1e999",
    "-",
    "0x1f",
  ],
  ...[
    "1,5",
    "\u0000",
    "\u001b[31m",
    "END_DATA",
    "=",
    "{",
    "[",
    "]}",
    "\\",
    "__proto__",
    "constructor",
    "é",
  ],
);
const random = { seed: 20310506, numRuns: 400 };

describe.each(readers)("text that may be %s", (_, sound, read) => {
  it("valid text is read", () => {
    expect(() => read(sound)).not.toThrow();
  });

  it("any text is read or refused with reasons", () => {
    fc.assert(
      fc.property(anything, (text) => readsOrSaysWhy(() => read(text))),
      random,
    );
  });

  it("text with inserted, removed or repeated pieces is read or refused with reasons", () => {
    const change = fc.record({
      at: fc.nat(sound.length),
      gone: fc.nat(12),
      put: pieces,
      times: fc.integer({ min: 1, max: 3 }),
    });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
        const text = changes.reduce(
          (t, { at, gone, put, times }) => t.slice(0, at) + put.repeat(times) + t.slice(at + gone),
          sound,
        );
        readsOrSaysWhy(() => read(text));
      }),
      random,
    );
  });

  it("text cut anywhere is read or refused with reasons", () => {
    for (let length = 0; length < sound.length; length++) {
      readsOrSaysWhy(() => read(sound.slice(0, length)));
    }
  });

  it.each([
    ["one line of a million characters", "x".repeat(1_000_000)],
    [
      "a number of a million digits and a letter",
      `${sound.split("\n")[0]}\n${"1".repeat(1_000_000)}x`,
    ],
    ["a header of a million blanks", `CTD,x\n${" ".repeat(1_000_000)}=${" ".repeat(1_000_000)}\n`],
    [
      "a hundred thousand unknown keys",
      `{ "name": "x",\n${Array.from({ length: 100_000 }, (_, i) => `"k${i}": 1`).join(",\n")} }`,
    ],
    ["a million commas", ",".repeat(1_000_000)],
    ["a million blank lines", "\n".repeat(1_000_000)],
    ["a hundred thousand quotes", '"'.repeat(100_001)],
    ["a hundred thousand brackets", "[{".repeat(50_000)],
    [
      "its first line and a million characters",
      `${sound.split("\n")[0]}\n${"1".repeat(1_000_000)}`,
    ],
  ])("with %s does not hang", (_title, text) => {
    readsOrSaysWhy(() => read(text));
  });
});

describe("the kind of a file", () => {
  it("any text has a kind of file", () => {
    fc.assert(
      fc.property(anything, (text) => {
        expect(() => sniff(text)).not.toThrow();
      }),
      random,
    );
  });
});
