// Where the numbers of the rungs are from.

export const commonPractice = "common practice, no source";
export const judgement = "judgement";
