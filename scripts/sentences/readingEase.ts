// How easy a sentence is to read.

export interface ReadingEase {
  readonly words: number;
  /** Words of more than six letters. */
  readonly longWords: number;
  /**
   * Reading ease of Flesch: 206.835 - 1.015 x words a sentence - 84.6 x syllables a word [Flesch1948]. 60 to 70 is plain English,
   * below 30 very difficult. It was made for evolutions of 100 words: of one sentence it is rough.
   */
  readonly ease: number;
}

/** Words of a text: runs of letters or digits, with what joins them. A number with its sign and unit is a word each. */
export const wordsOf = (text: string): readonly string[] =>
  text.match(/[\p{L}\p{N}]+(?:['’.,:/-][\p{L}\p{N}]+)*/gu) ?? [];

/**
 * Syllables of an English word by a simple rule: groups of vowels (y among them), less a silent e at the end, at least one. A number, a
 * unit or an abbreviation counts as one.
 */
export function syllablesOf(word: string): number {
  if (/\d/.test(word) || /^[A-Z]+$/.test(word)) return 1;
  const bare = word
    .toLowerCase()
    .replace(/(?<![aeiouyl])e$|(?<=[aeiouy]l)e$|(?<=[^aeioudt])ed$/, "");
  return Math.max(1, (bare.match(/[aeiouy]+/g) ?? []).length);
}

const sum = (values: readonly number[]) => values.reduce((all, value) => all + value, 0);

/** The measure of some sentences together, or of one. */
export function readingEase(sentences: readonly string[]): ReadingEase {
  const words = sentences.flatMap(wordsOf);
  const syllables = sum(words.map(syllablesOf));
  return {
    words: words.length,
    longWords: words.filter((word) => word.replaceAll(/\P{L}/gu, "").length > 6).length,
    ease: 206.835 - (1.015 * words.length) / sentences.length - (84.6 * syllables) / words.length,
  };
}

/** Sentences of a text: they end with a point, a question mark or an exclamation mark before a space or the end. */
export const sentencesOf = (text: string): readonly string[] =>
  text
    .replaceAll(/\s+/g, " ")
    .split(/(?<=[.!?]["')]?)\s+/u)
    .map((sentence) => sentence.trim())
    .filter((sentence) => wordsOf(sentence).length > 0);
