/** Of the verdict document. A module of its own: whoever makes verdicts needs no schema. */
export const verdictFormat = "foulcast-verdict/1";
