// A strict reader of the small part of XML that figures are written in.

export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
}

const part = /<(\/?)([A-Za-z]+)((?: [A-Za-z][\w-]*="[^"<]*")*)(\/?)>|[^<]+|</g;

/** All elements in order; throws where a tag is not closed, is closed out of turn, or is no tag. */
export function elementsOf(markup: string): readonly Element[] {
  const open: string[] = [];
  const found: Element[] = [];
  for (const [whole, closing, name, attributes, empty] of markup.matchAll(part)) {
    if (name === undefined) {
      if (whole === "<") throw new Error("a < that begins no tag");
      if (/&(?!(amp|lt|gt|quot|#39);)/.test(whole)) throw new Error(`a bare & in ${whole}`);
      continue;
    }
    if (closing === "/") {
      if (open.pop() !== name) throw new Error(`</${name}> out of turn`);
      continue;
    }
    const pairs = [...attributes!.matchAll(/ ([A-Za-z][\w-]*)="([^"]*)"/g)];
    found.push({
      name,
      attributes: Object.fromEntries(pairs.map(([, key, value]) => [key, value])),
    });
    if (empty !== "/") open.push(name);
  }
  if (open.length > 0) throw new Error(`<${open.at(-1)}> is not closed`);
  return found;
}
