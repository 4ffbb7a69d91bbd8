// foulcast dilute: from the stock to the required solution.
import { cautionsFor, hazards } from "../../cleaning/cautions.js";
import { ceilings } from "../../cleaning/chemistry/ceilings.js";
import { dilute as workOut } from "../../cleaning/chemistry/dilute.js";
import type { Dilution } from "../../cleaning/chemistry/dilution.js";
import { DilutionRefused } from "../../cleaning/chemistry/dilutionRefused.js";
import type { Substance } from "../../cleaning/chemistry/mixing.js";
import type { Stock } from "../../cleaning/chemistry/stock.js";
import {
  dilutionSummary,
  type RefusedDilution,
  type WorkedDilution,
} from "../../report/terminal/dilutionSummary.js";
import { dilutionWords } from "../dilutionWords.js";
import { writeJson } from "../writeJson.js";
import type { Command } from "./command.js";

const help = `Usage: foulcast dilute --stock NAME --strength-percent P --to-... C --volume-ml V [options]

Computes a cleaning solution from a stock, in amounts that can be measured. This is advice: the label,
the safety data sheet and local rules come first. Only people trained in this work should do it.

The stock:
  --stock NAME             hypochlorite, detergent, hydrochloric-acid or acetic-acid
  --strength-percent P     per cent on its label; 100 for an undiluted detergent
  --percent-means WHAT     which per cent. For hypochlorite: NaOCl-by-mass, chlorine-by-mass or chlorine-by-volume
                           (available chlorine, grams in 100 g or in 100 ml). For detergent: volume (default) or mass.
                           For acid: mass
  --density-kg-per-l D     density of the stock, if its per cent is by mass
  --age-days N             age of a hypochlorite stock (default: as strong as its label)
  --kept-celsius T         temperature it was kept at (default: somewhere from 10 to 30)

The solution:
  --to-ppm C               available chlorine, for hypochlorite (1 ppm is 1 mg in a litre); at most ${ceilings.hypochlorite}
  --to-percent C           by volume, for detergent; at most ${ceilings.detergent}
  --to-mol-per-l C         for acid; at most ${ceilings.acid}
  --volume-ml V            volume to make, or:
  --plumbing-ml V --fills N  one filling of cell and plumbing, and how many. A quarter is added

  --smallest-ml V          the least volume that can be measured (1)
  --bottle-held WHAT[,..]  what the bottle or line holds, in the order it went in: water,
                           detergent, hypochlorite, acid, ammonia, alcohol, peroxide, other cleaner
  --json FILE              write it as JSON (foulcast-dilution/1); - writes it to standard output
  --help                   this text

Exit status: 0 it was computed, 2 it was refused (dangerous, implausible or impossible) or bad usage.
`;

export const dilute: Command = {
  name: "dilute",
  summary: "compute a cleaning solution from a stock",
  help,
  async run(words) {
    const { stock, wanted, held, smallest_ml, json } = dilutionWords(words);
    const shown = workedOrRefused(stock, held, () => workOut(stock, wanted, held, smallest_ml));
    if (json === "-") process.stdout.write(`${JSON.stringify(shown, null, 2)}\n`);
    else if (json !== undefined) await writeJson("--json", json, shown, "foulcast-dilution");
    if (json !== "-") {
      const stream = "refused" in shown ? process.stderr : process.stdout;
      const colour = stream.isTTY === true && process.env.NO_COLOR === undefined;
      stream.write(dilutionSummary(shown, { colour, width: stream.columns ?? 100 }));
    }
    return "refused" in shown ? 2 : 0;
  },
};

function workedOrRefused(
  stock: Stock,
  held: readonly Substance[],
  work: () => Dilution,
): RefusedDilution | WorkedDilution {
  const format = "foulcast-dilution/1";
  try {
    return { format, ...work() };
  } catch (error) {
    if (!(error instanceof DilutionRefused)) throw error;
    const { why, message, source } = error;
    const present = [stock.kind, ...held];
    return {
      format,
      refused: { why, because: message, source },
      cautions: cautionsFor(hazards.filter((hazard) => present.some((one) => one === hazard))),
    };
  }
}
