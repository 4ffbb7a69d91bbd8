// The line `air-zero`: a cell read in air observes its additive offset, not its gain.
import type { CellName } from "../../cast/cast.js";
import type { EvidenceLine } from "../evidenceLine.js";
import { type DeckReadings, deckReadings } from "./airReadings.js";
import { airZeroOf } from "./airZero.js";

type DeckByCell = Readonly<Partial<Record<CellName, DeckReadings>>>;

export const airLine: EvidenceLine<null, DeckByCell> = {
  name: "air-zero",
  ofGain: false,
  shown: true,
  sharedErrors: [],
  begin: null,
  read: ({ cells, scans }) =>
    Object.fromEntries(cells.map((cell) => [cell, deckReadings(cell, scans.data)])),
  observe: ({ cast, cells, entries }, _memory, deck) => ({
    lines: cells
      .map((cell) => airZeroOf(cast.id, cell, deck?.[cell], entries))
      .filter(({ observations, leftOut }) => observations.length + leftOut.length > 0),
    memory: null,
  }),
};
