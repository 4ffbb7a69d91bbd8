// The quantities of a cell's response in a figure: its delay, its thermal lag.
import type { CellName } from "../cast/cast.js";
import type { ResponseSeen } from "../verdict/verdict.js";

/** One value on one cast. */
export interface ResponseValue {
  readonly at: number;
  readonly id: string;
  readonly cell: CellName;
  readonly value: number;
  readonly standardUncertainty: number;
  readonly usual?: number;
  readonly differs: boolean;
}

/** Content of a panel. */
export interface ResponseQuantity {
  readonly caption: string;
  /** Text for a person, for one value. */
  readonly said: (value: ResponseValue) => string;
  readonly of: (
    seen: ResponseSeen,
  ) => Pick<ResponseValue, "value" | "standardUncertainty" | "differs" | "usual"> | undefined;
  /** Horizontal line. */
  readonly reference?: number;
  /** Least free space above and below, in its unit. */
  readonly least: number;
}

export const responseQuantities: readonly ResponseQuantity[] = [
  {
    caption: "conductivity after temperature, ms",
    said: ({ value, standardUncertainty: u }) => `${value.toFixed(0)} \u00b1 ${u.toFixed(0)} ms`,
    of: ({ alignment }) =>
      alignment && {
        value: 1e3 * alignment.seconds,
        standardUncertainty: 1e3 * alignment.standardUncertainty,
        differs: alignment.differs ?? false,
        ...(alignment.usual === undefined ? {} : { usual: 1e3 * alignment.usual }),
      },
    least: 5,
  },
  {
    caption: "thermal lag, times that of a usual cell",
    said: ({ value, standardUncertainty: u }) => `${value.toFixed(2)} \u00b1 ${u.toFixed(2)}`,
    of: ({ thermalLag }) =>
      thermalLag && {
        value: thermalLag.timesUsual,
        standardUncertainty: thermalLag.standardUncertainty,
        differs: thermalLag.differs ?? false,
        ...(thermalLag.usual === undefined ? {} : { usual: thermalLag.usual }),
      },
    reference: 1,
    least: 0.2,
  },
];
