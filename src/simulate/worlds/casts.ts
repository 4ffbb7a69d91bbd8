// The casts and bottles of a cruise: the readings of the sensors on each, and the results of the laboratory.
// Numbers without a source are judgement: an ordinary cruise.
import type { Bottle } from "../../cast/bottle.js";
import type { ByCell, CastColumns } from "../../cast/cast.js";
import type { CruiseCast } from "../../cast/cruise.js";
import type { RandomStream } from "../random.js";
import { type Blemishes, blemished, drawBlemishes } from "./blemishes.js";
import { closeBottles, drawFlushing } from "./bottles.js";
import { between, exponential } from "./draws.js";
import type { CellHistory } from "./gains.js";
import { copied, drawLaboratory, measure } from "./laboratory.js";
import { drawMotion } from "./motion.js";
import { drawOcean } from "./ocean.js";
import { hourOf, type Plan, type PlannedCast } from "./plan.js";
import { timeOf } from "./record.js";
import { readSensor, type SimulatedSensor, type Surroundings } from "./sensors.js";
import type { Troubles } from "./troubles.js";
import { castWater } from "./water.js";

interface Instruments {
  readonly histories: ByCell<CellHistory>;
  readonly sensors: ByCell<SimulatedSensor>;
}

export function makeCasts(
  random: RandomStream,
  plan: Plan,
  troubles: Troubles,
  instruments: Instruments,
  newestUnmeasured: number,
) {
  const ocean = drawOcean(random.split("ocean"), plan.bottom_dbar);
  const motion = drawMotion(random.split("motion"), plan.bottom_dbar);
  const flushing = drawFlushing(random.split("flushing"));
  const laboratory = drawLaboratory(random.split("laboratory"));
  const blemishes = drawBlemishes(random.split("blemishes"));
  const deckRandom = random.split("deck");
  const usualDeck = {
    air_C: ocean.theta[0]! + between(deckRandom, -4, 6),
    drags_s: between(deckRandom, 0, 1.2),
    barometer_dbar: 0.15 * deckRandom.normal(),
    left_uS_cm: between(deckRandom, 0.05, 1),
  };
  const start = {
    latitude: between(deckRandom, -55, 55),
    longitude: between(deckRandom, -60, -10),
  };
  const casts: CruiseCast[] = [];
  const bottles: Bottle[] = [];
  for (const [index, cast] of plan.casts.entries()) {
    const own = random.split("scans").split(index);
    const { journey } = cast;
    const upFrom_h = hourOf(cast, journey.upFrom);
    const water = castWater(ocean, motion, {
      km: index * motion.stationSpacing_km,
      from_h: cast.began_h,
      to_h: hourOf(cast, journey.pressure.length),
      ...(troubles.otherWater.includes(index) ? { otherWaterFrom_h: upFrom_h } : {}),
    });
    const surroundings: Surroundings = {
      journey,
      water,
      began_h: cast.began_h,
      deck: {
        air_C: usualDeck.air_C + own.normal(),
        left_uS_cm: usualDeck.left_uS_cm * exponential(own),
        drains_s: between(own, 1, 5),
      },
      dragged_dbar: dragged(journey.pressure, usualDeck.drags_s, journey.rate_Hz),
    };
    const columns = readCast(own, plan, troubles, instruments, surroundings, index);
    const pressure_dbar = journey.pressure.map(
      (p) => Math.round(100 * (p + usualDeck.barometer_dbar + 0.012 * own.normal())) / 100,
    );
    const where = {
      latitude: start.latitude,
      longitude: start.longitude + (index * motion.stationSpacing_km) / 80,
    };
    casts.push(asCast(own, cast, where, blemishes, { ...columns, pressure_dbar }));
    const spoilt = troubles.spoilt.find((one) => one.cast === index)?.fresh;
    bottles.push(
      ...measure(random.split("samples"), laboratory, {
        cast: cast.id,
        index,
        rate_Hz: journey.rate_Hz,
        closed: closeBottles(random.split("bottles").split(index), flushing, cast, water),
        pressure: pressure_dbar,
        measured: index < plan.casts.length - newestUnmeasured,
        spoilt,
      }),
    );
  }
  const id = (index: number) => plan.casts[index]!.id;
  return {
    casts,
    bottles: troubles.copies.reduce(
      (some, { to, from }) => copied(some, id(to), id(from)),
      bottles,
    ),
  };
}

function readCast(
  random: RandomStream,
  plan: Plan,
  troubles: Troubles,
  { histories, sensors }: Instruments,
  surroundings: Surroundings,
  index: number,
): Omit<CastColumns, "pressure_dbar"> {
  const [primary, secondary] = plan.cells.map((cell) => {
    const sensor = sensors[cell]!;
    const history = histories[cell]!;
    const slow = troubles.slow.find((one) => one.cell === cell && one.what.fromCast <= index);
    return readSensor(
      random.split(cell),
      sensor,
      {
        ...history,
        wall: {
          ...sensor.wall,
          amplitude: sensor.wall.amplitude * (slow?.what.factor ?? 1),
        },
        blockage_ppm: (hour) => troubles.blockageNoise * history.film_ppm(hour),
      },
      surroundings,
    );
  });
  return { primary: primary!, ...(secondary === undefined ? {} : { secondary }), others: {} };
}

function asCast(
  random: RandomStream,
  { id, began_h, journey }: PlannedCast,
  where: { readonly latitude: number; readonly longitude: number },
  blemishes: Blemishes,
  columns: CastColumns,
): CruiseCast {
  const start = timeOf(began_h);
  const time_s = columns.pressure_dbar.map((_, i) => i / journey.rate_Hz);
  return {
    id,
    start,
    ...where,
    data: {
      id,
      start,
      ...where,
      sampleRate_Hz: journey.rate_Hz,
      conductivityFrom: "measured",
      columns: blemished(random.split("blemishes"), blemishes, { ...columns, time_s }),
    },
  };
}

/** A rising frame drags water along: depth below the frame that it comes from, speed x seconds, dbar. It relaxes within 2 s. */
function dragged(pressure: Float64Array, seconds: number, rate_Hz: number): Float64Array {
  const settle = 1 - Math.exp(-1 / (2 * rate_Hz));
  let rising = 0;
  return pressure.map((p, i) => {
    const speed = i === 0 ? 0 : (pressure[i - 1]! - p) * rate_Hz;
    rising += settle * (Math.max(0, speed) - rising);
    return seconds * rising;
  });
}
