// What can explain the evidence. The words are used everywhere: API, command line, files, docs.

export const causeNames = [
  "sound",
  "fouling",
  "transient",
  "calibration-shift",
  "pressure-response",
  "temperature-error",
  "reference-error",
  "thermal-lag",
  "flow",
  "water",
  "undetermined",
] as const;
export type CauseName = (typeof causeNames)[number];
