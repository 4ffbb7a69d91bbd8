// The maintenance record as written by the watch: a rinse after each cast, the soaks, some mistakes.
// Numbers without a source are judgement: the habits of an invented watch.
import type { MaintenanceEvent } from "../../cast/maintenance.js";
import type { RandomStream } from "../random.js";
import { happens, wholeBetween } from "./draws.js";
import { cleanedAfter, hourAfter } from "./filmWorlds.js";
import type { Plan } from "./plan.js";
import type { Soak } from "./troubles.js";

/** Start of every cruise, ms since 1970 (invented). */
const epoch = Date.UTC(2031, 2, 3, 6);

/** ISO 8601 UTC, to the second. */
export function timeOf(hour: number): string {
  return new Date(epoch + Math.round(hour * 3600) * 1000).toISOString().replace(".000Z", "Z");
}

/** A ship writes either times or the cast that an entry followed. `slips`: share of entries missing or at a wrong hour. */
export function writeRecord(
  random: RandomStream,
  plan: Plan,
  soaks: readonly Soak[],
  slips: number,
): readonly MaintenanceEvent[] {
  const byTime = happens(random, 0.5);
  return plan.casts.flatMap(({ id }, i) => {
    const when = (share: number) => {
      const wrong = happens(random, slips) ? wholeBetween(random, -9, 9) : 0;
      return byTime ? { time: timeOf(hourAfter(plan, i, share) + wrong) } : { afterCast: id };
    };
    const rinse: MaintenanceEvent = {
      action: "rinse",
      ...when(0.1),
      solution: "fresh water",
      minutes: 5,
    };
    const soaked = soaks.filter(({ afterCast }) => afterCast === i).slice(0, 1);
    const written = [
      rinse,
      ...soaked.map(
        (): MaintenanceEvent => ({
          action: "soak",
          ...when(cleanedAfter),
          solution: "nonionic detergent",
          concentration: "1 %",
          minutes: 30,
          rinsed: true,
        }),
      ),
    ];
    return written.filter(() => !happens(random, slips));
  });
}
