// The types of a verdict, derived from its schema: verdictSchema.ts is the one definition.
import type * as z from "zod";
import type { HealthFinding } from "../health/finding.js";
import type { Immutable } from "../immutable.js";
import type { castVerdict, cleaningSeen } from "./schema/castVerdict.js";
import type { causeProbability, cellVerdict, forecast } from "./schema/cellVerdict.js";
import type { dataQuality } from "./schema/dataQuality.js";
import type { responseSeen } from "./schema/responseSeen.js";
import { verdictFormat } from "./verdictFormat.js";
import type { verdictSchema } from "./verdictSchema.js";

export type { ChangeOfGain } from "../model/changeOfGain.js";
export type { EvidenceSummary } from "../model/evidenceSummary.js";
export type { Estimate } from "../model/parts.js";
export { type HealthFinding, verdictFormat };

export type VerdictDocument = Immutable<z.infer<typeof verdictSchema>>;
export type Verdict = Immutable<z.infer<typeof castVerdict>>;
export type CellVerdict = Immutable<z.infer<typeof cellVerdict>>;

export type CauseProbability = Immutable<z.infer<typeof causeProbability>>;
export type Forecast = Immutable<z.infer<typeof forecast>>;
export type DataQuality = Immutable<z.infer<typeof dataQuality>>;

export type CleaningSeen = Immutable<z.infer<typeof cleaningSeen>>;
export type ResponseSeen = Immutable<z.infer<typeof responseSeen>>;
