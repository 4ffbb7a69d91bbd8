/** Cruises from here on were not looked at as the model was made: that was seeds 1 to 100, 1001 to 2000 and 3001 to 3060. */
export const firstFreshSeed = 5001;
