/** Unit of a gain: ppm of conductivity, 1e6 x the natural logarithm of a ratio. */
export type Unit = "ppm" | "mK" | "uS/cm";
