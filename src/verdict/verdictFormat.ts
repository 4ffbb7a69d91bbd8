/** Format of the verdict document. It is a module of its own so that the assessment does not load the schema. */
export const verdictFormat = "foulcast-verdict/1";
