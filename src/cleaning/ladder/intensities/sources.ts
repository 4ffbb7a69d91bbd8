// Sources of the numbers of the intensities.

export const commonPractice = "common practice, no source";
export const judgement = "judgement";
