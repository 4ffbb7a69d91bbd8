import type { MaintenanceEvent } from "../../src/cast/maintenance.js";
import { checkRecord } from "../../src/cleaning/record/checkRecord.js";
import type { MaintenanceRecord } from "../../src/cleaning/record/recordTimeline.js";

// An invented week: three casts, a pause of six days, a fourth. Lines are as in a file with one heading.
export const casts = [
  { id: "001", start: "2026-03-01T08:00:00Z", hours: 2 },
  { id: "002", start: "2026-03-01T16:00:00Z", hours: 5 },
  { id: "003", start: "2026-03-02T06:00:00Z", hours: 2 },
  { id: "004", start: "2026-03-08T06:00:00Z", hours: 2 },
];
const instrument = {
  cells: ["primary", "secondary"],
  flow: "pumped",
  oxygenSensorInLine: true,
} as const;
const now = "2026-03-08T12:00:00Z";

export function event(
  time: string,
  action: MaintenanceEvent["action"],
  more: Partial<MaintenanceEvent> = {},
): MaintenanceEvent {
  return { time: `2026-${time}:00Z`, action, ...more };
}

export const clean: readonly MaintenanceEvent[] = [
  event("01-10T09:00", "calibration", { serial: "C-17 and C-18" }),
  event("03-01T06:00", "housing-opened"),
  event("03-01T06:20", "battery", {
    batteryVolts: 14.6,
    batteryCells: 10,
    batteryKind: "alkaline",
  }),
  event("03-01T06:40", "seals"),
  event("03-01T07:00", "pre-cast-check"),
  event("03-01T10:20", "rinse", { minutes: 5, rinsed: true }),
  event("03-01T21:20", "disinfect", {
    minutes: 75,
    solution: "sodium hypochlorite",
    concentration: "1000 ppm",
    soaked: true,
    oxygenSensorOut: true,
    drained: true,
    rinsed: true,
  }),
  event("03-02T08:20", "wash", {
    minutes: 15,
    solution: "detergent in deionised water",
    concentration: "0.1 %",
    rinsed: true,
  }),
  event("03-02T09:00", "plugs"),
  event("03-02T09:10", "storage"),
  event("03-08T08:30", "rinse", { minutes: 5, rinsed: true }),
];

export const record = (maintenance: readonly MaintenanceEvent[]): MaintenanceRecord => ({
  maintenance: maintenance.map((entry, i) => ({ ...entry, line: i + 2 })),
  casts,
  instrument,
  now,
});

/** The clean record with one entry replaced, left out (no event) or put in after it. */
export function withEntry(
  index: number,
  ...entries: readonly MaintenanceEvent[]
): MaintenanceRecord {
  return record([...clean.slice(0, index), ...entries, ...clean.slice(index + 1)]);
}
export const found = (given: MaintenanceRecord) =>
  checkRecord(given).map(({ rule, severity, line }) => ({ rule, severity, line }));
