import { describe, expect, it } from "vitest";
import { intensityNames, maintenanceActions } from "../../src/cast/maintenance.js";
import { readMaintenance } from "../../src/read/maintenanceRecord.js";
import { faultsOf } from "./faultsOf.js";

const read = (text: string) => readMaintenance(text, { file: "maintenance.csv" });
const head = "time,after_cast,action,solution,concentration,minutes";

describe("a maintenance record", () => {
  it("a maintenance record gives action, time, solution and duration", () => {
    const { events } = read(
      `${head},cell,soaked\n2031-05-04T12:30:00Z,003,soak,detergent,1 %,30,primary,yes\n`,
    );
    expect(events).toEqual([
      {
        action: "soak",
        time: "2031-05-04T12:30:00.000Z",
        afterCast: "003",
        cell: "primary",
        solution: "detergent",
        concentration: "1 %",
        minutes: 30,
        soaked: true,
        line: 2,
      },
    ]);
  });

  it("every action of the ladder and of the record is known", () => {
    for (const action of maintenanceActions) {
      const rest = action === "air-reading" ? "primary,0" : ",";
      const text = `time,action,cell,reading_mS_cm\n2031-05-04T12:30Z,${action},${rest}\n`;
      expect(read(text).events[0]!.action).toBe(action);
    }
  });

  it("letter case and blanks do not change a maintenance entry", () => {
    const rows = (change: (word: string) => string) =>
      ["pre-cast-check", "rinse", "soak"].map(
        (action, i) => `,00${i + 1},${change(action)},,,,${change("primary")}`,
      );
    const plain = read(`${head},cell\n${rows((word) => word).join("\n")}\n`).events;
    expect(plain).toHaveLength(3);
    for (const change of [
      (word: string) => word.toUpperCase(),
      (word: string) => word[0]!.toUpperCase() + word.slice(1),
      (word: string) => `  ${word.replaceAll("-", " ")} `,
      (word: string) => word.replaceAll("-", "_"),
    ]) {
      expect(read(`${head},cell\n${rows(change).join("\n")}\n`).events).toEqual(plain);
    }
    const listed = JSON.stringify([{ after_cast: "001", action: " SOAK " }]);
    expect(read(listed).events[0]!.action).toBe("soak");
  });

  it("an unknown action is refused with the list of known actions", () => {
    const faults = faultsOf(() =>
      read(`${head}\n2031-05-04T12:30Z,,polish,,,\n,003,rinse,,,5\n,004,scrub,,,5\n`),
    );
    expect(faults.map(({ line, column, found }) => [line, column, found])).toEqual([
      [2, "action", '"polish"'],
      [4, "action", '"scrub"'],
    ]);
    for (const action of intensityNames) expect(faults[0]!.expected).toContain(action);
  });

  // An entry that is passed over could hide a cleaning, so nothing is left out here.
  it.each([
    ["a time that is none", "yesterday,,rinse,,,", "time"],
    ["neither time nor cast", ",,rinse,,,", "time"],
    ["minutes that are no number", ",003,rinse,,,a few", "minutes"],
    ["minutes below zero", ",003,rinse,,,-5", "minutes"],
    ["a cell missing in the row", ",003,rinse,5", undefined],
  ])("with %s is refused", (_, row, column) => {
    const faults = faultsOf(() => read(`${head}\n${row}\n`));
    expect(faults.length).toBeGreaterThan(0);
    expect(faults[0]!.line).toBe(2);
    if (column !== undefined) expect(faults.map((f) => f.column)).toContain(column);
  });

  it("a reading in air belongs to its cell, also at zero and below", () => {
    const { events } = read(
      "after_cast,action,cell,rinsed,drained,reading_mS_cm\n" +
        "003,air-reading,primary,yes,yes,0.0004\n003,air-reading,secondary,yes,,0\n004,air-reading,primary,,,-0.0031\n",
    );
    expect(events.map(({ cell, reading_mS_cm }) => [cell, reading_mS_cm])).toEqual([
      ["primary", 0.0004],
      ["secondary", 0],
      ["primary", -0.0031],
    ]);
    expect(events[0]).toMatchObject({ rinsed: true, drained: true });
    expect(events[1]).not.toHaveProperty("drained");
  });

  it.each([
    ["without a reading", "air-reading,primary,", ["reading_mS_cm", "nothing"]],
    ["without a cell: two cells have two readings", "air-reading,,0.001", ["cell", "nothing"]],
    ["of no number", "air-reading,primary,dry", ["reading_mS_cm", '"dry"']],
    ["in uS/cm", "air-reading,primary,3.2", ["reading_mS_cm", '"3.2"']],
    ["of a cell full of water", "air-reading,secondary,38.7", ["reading_mS_cm", '"38.7"']],
    ["beside another action", "rinse,primary,0.001", ["reading_mS_cm", '"0.001"']],
  ])("with a reading in air %s is refused", (_, row, expected) => {
    const faults = faultsOf(() =>
      read(`after_cast,action,cell,reading_mS_cm\n003,rinse,,\n003,${row}\n`),
    );
    expect(faults.map(({ line, column, found }) => [line, column, found])).toEqual([
      [3, ...expected],
    ]);
    expect(faults[0]!.mend).not.toBe("");
  });

  it("a maintenance time without zone is UTC, with a note", () => {
    const { events, input } = read(`${head}\n2031-05-04 12:30,,rinse,,,5\n`);
    expect(events[0]!.time).toBe("2031-05-04T12:30:00.000Z");
    expect(input.notes.join()).toContain("UTC");
  });

  it("a JSON array gives the same record as a table", () => {
    const json = `[
  {"time": "2031-05-04T12:30:00Z", "action": "rinse", "minutes": 5},
  {"after_cast": "003", "action": "wash",
   "soaked": false, "note": "braces { in a text"},
  {"after_cast": "004", "action": "soak"}
]`;
    const table =
      "time,after_cast,action,minutes,soaked,note\n" +
      "2031-05-04T12:30:00Z,,rinse,5,,\n,003,wash,,no,braces { in a text\n,004,soak,,,\n";
    const bare = (text: string) => read(text).events.map(({ line, ...event }) => event);
    expect(bare(json)).toEqual(bare(table));
    expect(read(json).events.map(({ line }) => line)).toEqual([2, 3, 5]);
  });

  it.each(["[1, 2]", "[[]]", '{"action": "rinse"}', "[", '[{"action": "rinse"'])(
    "that is JSON of another shape is refused: %s",
    (text) => {
      expect(faultsOf(() => read(text))).toHaveLength(1);
    },
  );
});
