// A solution as a person reads it beside the bottle: amounts, steps, cautions.
import type { Dilution } from "../../cleaning/chemistry/dilution.js";
import { digits, roughly } from "../../cleaning/chemistry/dilutionSteps.js";
import { paintFor } from "./paint.js";
import type { SummaryStyle } from "./terminalSummary.js";
import { wrap } from "./wrap.js";

/** What `foulcast dilute` writes in JSON. */
export interface WorkedDilution extends Dilution {
  readonly format: "foulcast-dilution/1";
}

/** What it writes when a solution is refused. */
export interface RefusedDilution {
  readonly format: "foulcast-dilution/1";
  readonly refused: { readonly why: string; readonly because: string; readonly source: string };
  readonly cautions: readonly string[];
}

const labelWidth = 10;

/** A computed or refused dilution as text. */
export function dilutionSummary(
  shown: WorkedDilution | RefusedDilution,
  style: Pick<SummaryStyle, "colour" | "width">,
): string {
  const paint = paintFor(style.colour);
  const width = Math.max(50, Math.min(style.width, 110));
  const row = (label: string, text: string) =>
    `${paint.dim(label.padEnd(labelWidth))}${wrap(text, width - labelWidth, " ".repeat(labelWidth))}`;
  const cautions = shown.cautions.map((caution, i) =>
    row(i === 0 ? "cautions" : "", paint.warn(`! ${caution}`)),
  );
  if ("refused" in shown) {
    const { why, because, source } = shown.refused;
    return sectioned([[row("refused", `${paint.bad(why)}. ${because} (${source})`)], cautions]);
  }
  const { kind, makes_ml, unit, stages, steps, notes } = shown;
  const made = between(shown.concentration, shown.concentrationAtMost);
  const stock = between(shown.stockStrength, shown.stockStrengthAtMost);
  return sectioned([
    [
      row(
        "makes",
        `${paint.strong(`${digits(makes_ml)} ml of ${kind}, ${made} ${unit}`)}, from a stock of ${stock} ${unit}`,
      ),
      ...stages.map(({ from, take_ml, water_ml }) =>
        row("", `${digits(take_ml)} ml of the ${from}, ${digits(water_ml)} ml of deionised water`),
      ),
      ...notes.map((note) => row("note", note)),
    ],
    steps.map((step, i) => row(i === 0 ? "steps" : "", `${i + 1}. ${step}`)),
    cautions,
  ]);
}

function sectioned(sections: readonly (readonly string[])[]): string {
  return `${sections.map((lines) => lines.join("\n")).join("\n\n")}\n`;
}

/** "1000", or "1000 to 1230". */
function between(least: number, most: number): string {
  return least === most ? `${digits(least)}` : `${roughly(least)} to ${roughly(most)}`;
}
