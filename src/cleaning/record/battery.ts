// When a battery pack is low.
import type { BatteryKind } from "../../cast/maintenance.js";
import type { Entry } from "./recordTimeline.js";

/**
 * Least voltage of a cell, without load, with which a pack is taken on a long cast (common practice, no source):
 * alkaline cells fall steadily from 1.5, lithium cells hold 3.6 and then drop at once.
 */
export const workingVolts: Readonly<Record<BatteryKind, number>> = {
  alkaline: 1.2,
  lithium: 3.4,
  "lithium-ion": 3.5,
  "nickel-metal-hydride": 1.2,
};

/** Volts of a pack and the least it should have, where the record says enough to judge. */
export function packVolts({
  event,
}: Entry): { readonly volts: number; readonly least: number } | undefined {
  const { batteryVolts, batteryCells, batteryKind } = event;
  if (batteryVolts === undefined || batteryCells === undefined || batteryKind === undefined)
    return undefined;
  return { volts: batteryVolts, least: batteryCells * workingVolts[batteryKind] };
}
