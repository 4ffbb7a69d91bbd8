import { describe, expect, it } from "vitest";
import { readCruiseDescription } from "../../src/read/cruiseDescription.js";
import { faultsOf } from "./faultsOf.js";

const read = (text: string) => readCruiseDescription(text, { file: "cruise.json" });

const whole = `{
  "name": "RV Tarnfeather, second leg (invented)",
  "note": "invented",
  "casts": [
    { "id": "001", "file": "casts/001.csv", "start": "2031-05-04T12:30:00+02:00",
      "mapping": { "pressure_dbar": "pr" }, "sampleRate_Hz": 24 },
    { "id": "002", "file": "casts/002.csv" }
  ],
  "bottles": "bottles.csv",
  "maintenance": "maintenance.csv",
  "instrument": { "flow": "pumped", "bore_mm": 4 },
  "target": 0.003,
  "nextStation": { "time": "2031-05-05T06:00Z", "minutesAvailable": 45 }
}`;

describe("cruise.json", () => {
  it("cruise.json describes the cruise, with times as UTC", () => {
    const { casts, bottles, instrument, target, nextStation } = read(whole);
    expect(casts.map(({ id }) => id)).toEqual(["001", "002"]);
    expect(casts[0]!.start).toBe("2031-05-04T10:30:00.000Z");
    expect({ bottles, instrument, target, nextStation }).toEqual({
      bottles: "bottles.csv",
      instrument: { flow: "pumped", bore_mm: 4 },
      target: 0.003,
      nextStation: { time: "2031-05-05T06:00:00.000Z", minutesAvailable: 45 },
    });
  });

  it("cruise.json gives serial numbers, calibration days, spares, time on board and air temperature on deck", () => {
    const instrument = {
      serial: "frame 3",
      sensors: { primary: { cell: "C-17", cellCalibrated: "2031-01-10", thermometer: "T-9" } },
      spares: [{ kind: "cell", serial: "C-31", calibrated: "2030-11-02" }],
    };
    const more = { timeZone: "-03:30", nextStation: { air_C: -5, castsToCome: 4 } };
    expect(read(JSON.stringify({ name: "x", instrument, ...more }))).toMatchObject({
      instrument,
      ...more,
    });
    const faulty = (value: object) =>
      faultsOf(() => read(JSON.stringify({ name: "x", ...value }))).map(({ column }) => column);
    expect(faulty({ timeZone: "UTC+2" })).toEqual(["timeZone"]);
    expect(faulty({ timeZone: "+15:00" })).toEqual(["timeZone"]);
    expect(faulty({ instrument: { serial: "\u202e3" } })).toEqual(["instrument.serial"]);
    expect(
      faulty({ instrument: { sensors: { primary: { cellCalibrated: "2031-02-30" } } } }),
    ).toEqual(["instrument.sensors.primary.cellCalibrated"]);
    expect(faulty({ nextStation: { castsToCome: 0 } })).toEqual(["nextStation.castsToCome"]);
  });

  it("cruise.json needs only a name", () => {
    expect(read('{"name": "x"}')).toMatchObject({ name: "x", casts: [], instrument: {} });
  });

  it.each([
    ["an absolute path", '"/etc/passwd"'],
    ["a way out of the folder", '"../other/001.csv"'],
    ["a way out further down", '"casts/../../001.csv"'],
    ["a drive of another system", '"C:\\\\casts\\\\001.csv"'],
    ["a way out in the other system's writing", '"..\\\\001.csv"'],
    ["a character that no name has", '"001\\u0000.csv"'],
    ["nothing", '""'],
  ])("does not let a file be %s", (_, file) => {
    const faults = faultsOf(() => read(whole.replace('"casts/002.csv"', file)));
    expect(faults.map(({ line, column }) => [line, column])).toEqual([[7, "casts.1.file"]]);
  });

  it.each(["casts/a..b.csv", "deck..csv", "öre/001.csv"])("lets a file be %s", (file) => {
    expect(read(whole.replace("casts/002.csv", file)).casts[1]!.file).toBe(file);
  });

  it("every wrong key of cruise.json is named by path and line, with the found and the expected value", () => {
    const faults = faultsOf(() =>
      read(
        whole
          .replace('"sampleRate_Hz": 24', '"sampleRate_Hz": "24"')
          .replace('"pumped"', '"pump"')
          .replace('"target"', '"tarbet"')
          .replace('"2031-05-05T06:00Z"', '"tomorrow"'),
      ),
    );
    expect(new Map(faults.map(({ column, line, found }) => [column, [line, found]]))).toEqual(
      new Map([
        ["casts.0.sampleRate_Hz", [6, '"24"']],
        ["instrument.flow", [11, '"pump"']],
        ["tarbet", [12, "a key that is not known"]],
        ["nextStation.time", [13, '"tomorrow"']],
      ]),
    );
    for (const { expected, mend } of faults) expect(expected !== "" && mend !== "").toBe(true);
  });

  it("a repeated cast id is refused with the line of the second", () => {
    const [fault] = faultsOf(() => read(whole.replace('"002"', '"001"')));
    expect(fault).toMatchObject({ line: 7, column: "casts.1.id" });
  });

  it.each([
    ["a comma too many", '{\n  "name": "x",\n}', 3, "1"],
    ["a comma too few", '{\n  "name": "x"\n  "target": 1\n}', 3, "3"],
    ["a text without its end", '{\n  "name": "x\n}', 2, "11"],
    ["a bracket too few", '{\n  "casts": [\n}', 3, "1"],
    ["no end", '{\n  "name": "x"', 2, "14"],
    ["a word that JSON has not", '{ "name": None }', 1, "11"],
    ["something behind its end", '{ "name": "x" }\n}', 2, "1"],
  ])("with %s is refused with line and column", (_, text, line, column) => {
    const faults = faultsOf(() => read(text));
    expect(faults.map((fault) => [fault.line, fault.column])).toEqual([[line, column]]);
  });

  it("JSON nested a hundred thousand levels deep is refused", () => {
    const deep = 100_000;
    expect(faultsOf(() => read("[".repeat(deep) + "]".repeat(deep)))).toHaveLength(1);
    expect(faultsOf(() => read("[".repeat(deep)))).toHaveLength(1);
  });
});
