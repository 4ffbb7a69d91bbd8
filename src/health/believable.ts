// Readings that can be true of water that a ship lowers a package into, whatever the cast.
import type { Sensor } from "./finding.js";

/**
 * Fill values such as -999, -9.99 or 1e35 lie outside, and so do a conductivity of zero in the water, boiling and
 * frozen water (judgement; the freshest seas read 0.1 mS/cm, the saltiest warm ones about 85).
 */
const limits: Readonly<Record<Sensor, readonly [number, number]>> = {
  conductivity: [0.01, 110],
  temperature: [-4, 60],
  pressure: [-20, 12000],
};

export function believable(sensor: Sensor): (value: number) => boolean {
  const [least, most] = limits[sensor];
  return (value) => value > least && value < most;
}
