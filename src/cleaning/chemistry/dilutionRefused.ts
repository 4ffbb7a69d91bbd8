// The refusal of a solution, with the reason: it would be dangerous, or cannot be made from that stock.

export class DilutionRefused extends Error {
  override readonly name = "DilutionRefused";
  readonly why:
    | "already mixed"
    | "dangerous mixture"
    | "wrong order"
    | "too strong"
    | "implausible stock"
    | "stock too weak"
    | "stock too old"
    | "nothing to dilute"
    | "too little";
  /** A key of docs/references.md, or another basis. */
  readonly source: string;

  constructor(why: DilutionRefused["why"], sentence: string, source: string) {
    super(sentence);
    this.why = why;
    this.source = source;
  }
}
