// What comes in on a ship, step by step: to a state, and to a plain record of all that came.
import type { Bottle } from "../../../src/cast/bottle.js";
import type { CellName } from "../../../src/cast/cast.js";
import type { Cruise, CruiseCast } from "../../../src/cast/cruise.js";
import type { MaintenanceEvent } from "../../../src/cast/maintenance.js";
import { simulateCruise } from "../../../src/simulate/index.js";
import type { CruiseState } from "../../../src/verdict/incremental/cruiseState.js";
import {
  addBottles,
  addCast,
  addMaintenance,
} from "../../../src/verdict/incremental/openCruise.js";

/** Everything that came so far, as a person would keep it. */
export interface Model {
  readonly casts: readonly CruiseCast[];
  readonly bottles: readonly Bottle[];
  readonly maintenance: readonly MaintenanceEvent[];
}

export type Arrival =
  | { readonly kind: "cast"; readonly at: number; readonly listed: boolean }
  | { readonly kind: "bottles"; readonly at: number }
  | { readonly kind: "record" };

const unmeasured = (bottle: Bottle): Bottle => ({ ...bottle, salinity: Number.NaN });

/** An invented cruise of these cells, and how its parts come in. */
export function arrivalsOf(cells: readonly CellName[]) {
  const { cruise } = simulateCruise({
    seed: 11,
    casts: 4,
    cells,
    deepest_dbar: 1300,
    events: [
      { kind: "film-step", cells: ["primary"], cast: 2, at: "before-cast", ppm: -220 },
      { kind: "cleaning", afterCast: 3, cells: ["primary"], intensity: "soak", retained: 0.1 },
    ],
  });
  const { name, instrument, target, nextStation } = cruise;
  const opening = {
    name,
    instrument,
    target,
    ...(nextStation === undefined ? {} : { nextStation }),
  };
  const ofCast = (id: string) => cruise.bottles.filter(({ cast }) => cast === id);
  const wholeOf = ({ casts, bottles, maintenance }: Model): Cruise => ({
    ...{ ...opening, casts, bottles, maintenance, inputs: [] },
  });

  function afterStep(state: CruiseState, model: Model, step: Arrival) {
    if (step.kind === "record") {
      const { maintenance } = cruise;
      return {
        state: addMaintenance(state, maintenance).state,
        model: { ...model, maintenance: [...model.maintenance, ...maintenance] },
      };
    }
    const cast = cruise.casts[step.at]!;
    if (step.kind === "cast") {
      const bottles = step.listed ? ofCast(cast.id).map(unmeasured) : [];
      return {
        state: addCast(state, cast, { bottles }).state,
        model: {
          ...model,
          casts: [...model.casts, cast],
          bottles: [...model.bottles, ...bottles],
        },
      };
    }
    const own = ofCast(cast.id);
    const known = model.bottles.some((bottle) => bottle.cast === cast.id);
    const measured = new Map(own.map((bottle) => [bottle.bottle, bottle]));
    return {
      state: addBottles(state, own, known ? [] : [cast.data!]).state,
      model: {
        ...model,
        bottles: known
          ? model.bottles.map((b) => (b.cast === cast.id ? measured.get(b.bottle)! : b))
          : [...model.bottles, ...own],
      },
    };
  }

  return { cruise, opening, ofCast, wholeOf, afterStep };
}
