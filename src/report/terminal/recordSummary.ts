// A checked maintenance record as text for a terminal: findings by severity, the work due, cautions.
import { group } from "d3-array";
import { type BatteryTrend, batterySentence } from "../../cleaning/record/battery.js";
import { type Due, occasions } from "../../cleaning/record/due.js";
import { type Finding, type Severity, severities } from "../../cleaning/record/recordRule.js";
import { plainText } from "../../words/plainText.js";
import { type Paint, paintFor } from "./paint.js";
import type { SummaryStyle } from "./terminalSummary.js";
import { wrap } from "./wrap.js";

/** The result of `foulcast check`, as in its JSON. */
export interface CheckedRecord {
  readonly format: "foulcast-record/1";
  /** The file or cruise that was read. */
  readonly record: string;
  /** The time of the check, ISO 8601 UTC. */
  readonly now: string;
  /** Number of entries. */
  readonly entries: number;
  readonly findings: readonly Finding[];
  readonly due: readonly Due[];
  /** Absent if the record has no usable battery check. */
  readonly battery?: BatteryTrend;
  /** The usual cautions of everything named above. */
  readonly cautions: readonly string[];
  /** Assumptions. */
  readonly notes: readonly string[];
}

const labelWidth = 10;
/** Number of findings of one rule that are shown in full; the others only by place. */
const mostOfOneRule = 3;
const meanings: Readonly<Record<Severity, string>> = {
  error: "impossible as written",
  danger: "can hurt people",
  warning: "can hurt the instrument or the data",
  note: "the record does not say enough",
};

/** A checked record as text: faults, work that is due, cautions. */
export function recordSummary(
  given: CheckedRecord,
  style: Pick<SummaryStyle, "colour" | "width">,
): string {
  const checked = plainText(given);
  const paint = paintFor(style.colour);
  const width = Math.max(50, Math.min(style.width, 110));
  const item = (text: string, label = "") =>
    `${paint.dim(label.padEnd(labelWidth))}${wrap(text, width - labelWidth, " ".repeat(labelWidth))}`;
  const { record, entries, now, findings, due, battery, cautions, notes } = checked;
  const sections = [
    [
      paint.strong(record),
      wrap(`${entries} ${entries === 1 ? "entry" : "entries"}, checked for ${now}`, width, ""),
      ...notes.map((note) => item(note, "note")),
    ],
    ...(findings.length === 0
      ? [[paint.good("No fault was found in this record.")]]
      : severities.map((severity) => bySeverity(severity, findings, paint, item))),
    ...occasions.map((when) => {
      const own = due.filter((one) => one.when === when);
      const more =
        when === "before the next cast" && battery !== undefined ? [batterySentence(battery)] : [];
      return own.length + more.length === 0
        ? []
        : [
            paint.strong(`Due ${when}`),
            ...own.map(({ what, because }) => item(`${what} ${because}`, "-")),
            ...more.map((sentence) => item(sentence)),
          ];
    }),
    cautions.map((caution, i) => item(paint.warn(`! ${caution}`), i === 0 ? "cautions" : "")),
  ];
  const shown = sections.filter((lines) => lines.length > 0).map((lines) => lines.join("\n"));
  return `${shown.join("\n\n")}\n`;
}

function bySeverity(
  severity: Severity,
  findings: readonly Finding[],
  paint: Paint,
  item: (text: string, label?: string) => string,
): readonly string[] {
  const own = findings.filter((finding) => finding.severity === severity);
  if (own.length === 0) return [];
  const colour = severity === "note" ? paint.strong : paint.bad;
  return [
    `${colour(severity)}: ${meanings[severity]}`,
    ...[...group(own, ({ rule }) => rule)].flatMap(([name, breaches]) => {
      const rest = breaches.slice(mostOfOneRule);
      return [
        ...breaches
          .slice(0, mostOfOneRule)
          .map(({ rule, line, because, source }) =>
            item(`${because} (${rule}; ${source})`, line === undefined ? "-" : `line ${line}`),
          ),
        ...(rest.length === 0 ? [] : [item(`and ${rest.length} more of ${name}${where(rest)}`)]),
      ];
    }),
  ];
}

/** Places of the other findings of a rule. */
function where(findings: readonly Finding[]): string {
  const places = findings.flatMap(({ line, cast }) =>
    line === undefined ? (cast === undefined ? [] : [`cast ${cast}`]) : [`line ${line}`],
  );
  return places.length === 0 ? "" : `: ${places.join(", ")}`;
}
