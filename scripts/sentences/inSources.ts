// The sentences that stand in the sources as text: messages, notes, steps, headings. What is put in at run time stands as "N".
import { readdirSync, readFileSync } from "node:fs";
import ts from "typescript";
import { sentencesOf, wordsOf } from "./readingEase.js";

export interface SentenceInSource {
  readonly text: string;
  readonly file: string;
  readonly line: number;
}

/** Text of a literal, "N" for each value that is put into a template; nothing for another expression. */
function textOf(node: ts.Node): string | undefined {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text;
  if (!ts.isTemplateExpression(node)) return undefined;
  return node.head.text + node.templateSpans.map(({ literal }) => `N${literal.text}`).join("");
}

/** Strings joined by + are one text. */
function joined(node: ts.Node): string | undefined {
  if (!ts.isBinaryExpression(node) || node.operatorToken.kind !== ts.SyntaxKind.PlusToken)
    return textOf(node);
  const [left, right] = [joined(node.left), joined(node.right)];
  if (left === undefined && right === undefined) return undefined;
  return `${left ?? "N"}${right ?? "N"}`;
}

/** Not English: paths of imports, style sheets and drawings, code made as text. */
const notEnglish = (text: string) =>
  /[{};]\s*\n|[{}]|^\s*[MLHV]\s*N|\/\/|=>|^[\w./-]*$|[a-z-]+: ?(?:N|#|var|\d)[^.]*;/.test(text);

/** Text between the tags of a page, a piece each. */
const withoutTags = (text: string) => (text.includes("<") ? text.split(/<[^>]*>?/) : [text]);

/** @param files paths of TypeScript sources, relative to `root` */
export function sentencesInSources(
  root: string,
  files: readonly string[] = sourcesOf(root),
): readonly SentenceInSource[] {
  return files.flatMap((file) => {
    const source = ts.createSourceFile(
      file,
      readFileSync(`${root}/${file}`, "utf8"),
      ts.ScriptTarget.Latest,
    );
    const found: SentenceInSource[] = [];
    const visit = (node: ts.Node): void => {
      if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return;
      const text = joined(node);
      if (text === undefined) {
        ts.forEachChild(node, visit);
        return;
      }
      const line = source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1;
      for (const piece of withoutTags(text)) {
        if (notEnglish(piece)) continue;
        for (const sentence of piece.split(/\n/).flatMap(sentencesOf))
          if (wordsOf(sentence).length > 3) found.push({ text: sentence, file, line });
      }
      if (ts.isTemplateExpression(node))
        for (const { expression } of node.templateSpans) visit(expression);
    };
    visit(source);
    return found;
  });
}

export const sourcesOf = (root: string): readonly string[] =>
  readdirSync(`${root}/src`, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".ts") && !/seawater|coefficients/.test(file))
    .map((file) => `src/${file}`)
    .sort();
