// Colours of figures and report. People with any common kind of colour blindness can tell blue from rust. The two differ in
// lightness, so they differ in grey too; shape and dash repeat the difference.

export interface Palette {
  readonly ground: string;
  /** Slightly darker than the background: panels, head rows. */
  readonly raised: string;
  readonly ink: string;
  readonly quiet: string;
  /** Grid and hairlines. */
  readonly faint: string;
  readonly primary: string;
  readonly secondary: string;
  /** Within the target. */
  readonly target: string;
  readonly good: string;
  readonly alarm: string;
}
export type Colour = keyof Palette;

export const light: Palette = {
  ground: "#fdfcf9",
  raised: "#f3f1ea",
  ink: "#1c2830",
  quiet: "#56646d",
  faint: "#d8d6ce",
  primary: "#0c5a80",
  secondary: "#9c4a12",
  target: "#e3ebdc",
  good: "#35682d",
  alarm: "#a02c2c",
};

export const dark: Palette = {
  ground: "#12191e",
  raised: "#1b252b",
  ink: "#e6e8e4",
  quiet: "#a3b0b6",
  faint: "#35434b",
  primary: "#6db7e0",
  secondary: "#f0a066",
  target: "#22362c",
  good: "#8fce83",
  alarm: "#ff9c92",
};
