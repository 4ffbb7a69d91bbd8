// Occasions at which work is due.
export const occasions = [
  "before the next cast",
  "at the end of the leg",
  "before a transit",
] as const;
export type Occasion = (typeof occasions)[number];
