// Units in the spelling of UDUNITS [UDUNITS2010], and their conversion to ours.

/** Ours is theirs times `factor` plus `offset`. */
export interface Conversion {
  readonly factor: number;
  readonly offset: number;
}

const prefixes: Readonly<Record<string, number>> = {
  "": 1,
  n: 1e-9,
  nano: 1e-9,
  u: 1e-6,
  "\u00b5": 1e-6,
  "\u03bc": 1e-6,
  micro: 1e-6,
  m: 1e-3,
  milli: 1e-3,
  c: 1e-2,
  centi: 1e-2,
  d: 0.1,
  deci: 0.1,
  h: 100,
  hecto: 100,
  k: 1000,
  kilo: 1000,
  M: 1e6,
  mega: 1e6,
};

/** The factor of a unit with a prefix, for the given names; undefined if it is none of them. */
function prefixed(text: string, names: RegExp): number | undefined {
  const found = new RegExp(`^(.*?)(?:${names.source})$`).exec(text);
  return found === null || !Object.hasOwn(prefixes, found[1]!) ? undefined : prefixes[found[1]!];
}

/** To dbar. */
export function pressureFrom(unit: string): Conversion | undefined {
  const bar = prefixed(unit, /bars?/);
  if (bar !== undefined) return { factor: exact(bar * 10), offset: 0 };
  const pascal = prefixed(unit, /Pa|[Pp]ascals?/);
  return pascal === undefined ? undefined : { factor: exact(pascal * 1e-4), offset: 0 };
}

/** To degree C. "C" alone is the coulomb. */
export function temperatureFrom(unit: string): Conversion | undefined {
  if (/^(deg(rees?)?[ _]?C(elsius)?|\u00b0 ?C|[cC]elsius)$/.test(unit)) {
    return { factor: 1, offset: 0 };
  }
  return /^(K|[kK]elvins?|deg(rees?)?[ _]?K(elvin)?)$/.test(unit)
    ? { factor: 1, offset: -273.15 }
    : undefined;
}

/** To mS/cm. */
export function conductivityFrom(unit: string): Conversion | undefined {
  const parts =
    /^(\S+?)(?: ?\/ ?| per |[ .*\u00b7](?=\S+?(?:\^|\*\*)?-1$))(\S+?)((?:\^|\*\*)?-1)?$/.exec(unit);
  if (parts === null || (/\/| per /.test(unit) && parts[3] !== undefined)) return undefined;
  const siemens = prefixed(parts[1]!, /S|[sS]iemens|mhos?/);
  const metre = prefixed(parts[2]!, /m|met(?:er|re)s?/);
  if (siemens === undefined || metre === undefined) return undefined;
  return { factor: exact((10 * siemens) / metre), offset: 0 };
}

const durations: readonly (readonly [names: RegExp, seconds: number])[] = [
  [/^(d|days?)$/, 86_400],
  [/^(h|hrs?|hours?)$/, 3600],
  [/^(min|mins|minutes?)$/, 60],
  [/^(s|secs?|seconds?)$/, 1],
  [/^(ms|msecs?|milliseconds?)$/, 1e-3],
];

/** To seconds. */
export function durationFrom(unit: string): Conversion | undefined {
  const factor = durations.find(([names]) => names.test(unit))?.[1];
  return factor === undefined ? undefined : { factor, offset: 0 };
}

/** Practical Salinity has no unit; it has several spellings, all with the same meaning. */
export function salinityFrom(unit: string): Conversion | undefined {
  return /^(|1|1e-0?3|0\.001|psu|PSU|PSS-?78|pss-?78)$/.test(unit)
    ? { factor: 1, offset: 0 }
    : undefined;
}

/** A power of ten as written, because products of others leave rounding errors. */
function exact(factor: number): number {
  return Number(factor.toPrecision(12));
}
