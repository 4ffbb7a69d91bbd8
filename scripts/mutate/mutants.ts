// Single changes of a source file that leave it readable by the compiler and wrong in fact.
import ts from "typescript";

export interface Mutant {
  readonly file: string;
  /** From 1. */
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly before: string;
  readonly after: string;
}

const swapped: Readonly<Record<string, string>> = {
  "+": "-",
  "-": "+",
  "*": "/",
  "/": "*",
  "+=": "-=",
  "-=": "+=",
  "*=": "/=",
  "&&": "||",
  "||": "&&",
  "<": ">",
  ">": "<",
  "<=": ">",
  ">=": "<",
  "===": "!==",
  "!==": "===",
};

/** Every mutant of a file: operators, signs, comparisons, numbers times 2, booleans, statements left out. */
export function mutantsOf(file: string, text: string): readonly Mutant[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const found: Mutant[] = [];
  const change = (node: ts.Node, after: string) => {
    const from = node.getStart();
    const line = source.getLineAndCharacterOfPosition(from).line + 1;
    found.push({ file, line, from, to: node.end, before: node.getText(), after });
  };
  const visit = (node: ts.Node): void => {
    // Types have no behaviour, and of messages only the wording would change.
    if (ts.isTypeNode(node) || ts.isImportDeclaration(node) || ts.isThrowStatement(node)) return;
    if (ts.isTemplateExpression(node)) return;
    if (ts.isBinaryExpression(node) && !joinsText(node)) {
      const after = swapped[node.operatorToken.getText()];
      if (after !== undefined) change(node.operatorToken, after);
    } else if (ts.isPrefixUnaryExpression(node)) {
      if (node.operator === ts.SyntaxKind.MinusToken) change(node, `(${node.operand.getText()})`);
      if (node.operator === ts.SyntaxKind.ExclamationToken)
        change(node, `!!(${node.operand.getText()})`);
    } else if (ts.isNumericLiteral(node)) {
      change(node, Number(node.text) === 0 ? "1" : `(2 * ${node.getText()})`);
    } else if (node.kind === ts.SyntaxKind.TrueKeyword) change(node, "false");
    else if (node.kind === ts.SyntaxKind.FalseKeyword) change(node, "true");
    else if (ts.isExpressionStatement(node)) change(node, ";");
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

function joinsText({ left, right }: ts.BinaryExpression): boolean {
  return [left, right].some((side) => ts.isStringLiteral(side) || ts.isTemplateExpression(side));
}

export function mutated(text: string, { from, to, after }: Mutant): string {
  return text.slice(0, from) + after + text.slice(to);
}
