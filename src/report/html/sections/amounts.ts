// How to make up the solutions of an advice, for the stocks that are usually aboard.

import { dilute } from "../../../cleaning/chemistry/dilute.js";
import type { Dilution } from "../../../cleaning/chemistry/dilution.js";
import { DilutionRefused } from "../../../cleaning/chemistry/dilutionRefused.js";
import { digits } from "../../../cleaning/chemistry/dilutionSteps.js";
import type { Stock } from "../../../cleaning/chemistry/stock.js";
import type { SolutionToMake } from "../../../cleaning/decision/advice.js";
import { cellWords } from "../../../cleaning/decision/wording.js";
import { html, type Markup, nothing } from "../html.js";

interface UsualStock {
  readonly label: string;
  readonly stock: Stock;
}

/** Common practice, no source; the density of hydrochloric acid is a handbook value from memory. */
const usualStocks: Readonly<Record<Stock["kind"], readonly UsualStock[]>> = {
  detergent: [{ label: "undiluted", stock: { kind: "detergent", percent: 100, by: "volume" } }],
  hypochlorite: [5, 10, 12.5].map((percent) => ({
    label: `${percent} % chlorine`,
    stock: { kind: "hypochlorite", percent, meaning: "available chlorine by volume" },
  })),
  acid: [
    {
      label: "hydrochloric, 37 %",
      stock: { kind: "acid", acid: "hydrochloric", percent: 37, density_kg_l: 1.18 },
    },
  ],
};

export function amounts(solutions: readonly SolutionToMake[]): Markup {
  if (solutions.length === 0) return nothing;
  return html`<h3>Amounts</h3>${solutions.map(table)}
<p class="quiet">Read the label first: these are for a fresh stock of that strength. For another, or one that has aged: <code>foulcast dilute</code>. Label each bottle with contents, strength, date and name. Discard dilute hypochlorite after a day.</p>`;
}

function table(wanted: SolutionToMake): Markup {
  const { kind, concentration, unit, volume_ml, cells } = wanted;
  const acid = kind === "acid";
  const [first, second] = acid ? ["water first", "then acid, slowly"] : ["stock", "water"];
  return html`<table class="amounts"><caption>${digits(volume_ml)} ml of ${kind}, ${concentration} ${unit}, for ${cellWords(cells)}</caption>
<thead><tr><th scope="col">stock says</th><th scope="col" class="number">${first!}</th><th scope="col" class="number">${second!}</th></tr></thead>
<tbody>${usualStocks[kind].map((usual) => row(usual, wanted))}</tbody></table>`;
}

function row({ label, stock }: UsualStock, { concentration, volume_ml }: SolutionToMake): Markup {
  const made = workedOut(stock, concentration, volume_ml);
  if (typeof made === "string") {
    return html`<tr><th scope="row">${label}</th><td colspan="2">${made}</td></tr>`;
  }
  return html`${made.stages.map(({ from, take_ml, water_ml }) => {
    const [take, water] = [`${digits(take_ml)} ml`, `${digits(water_ml)} ml`];
    const [first, second] = stock.kind === "acid" ? [water, take] : [take, water];
    const of = from === "stock" ? label : "of that bottle";
    return html`<tr><th scope="row">${of}</th><td class="number">${first}</td><td class="number">${second}</td></tr>`;
  })}`;
}

/** @returns the reason of a refusal, if any: a ship's own procedure may ask for a solution that is not computed */
function workedOut(stock: Stock, concentration: number, volume_ml: number): Dilution | string {
  try {
    return dilute(stock, { concentration, volume_ml });
  } catch (error) {
    if (error instanceof DilutionRefused) return `Refused: ${error.message}`;
    throw error;
  }
}
