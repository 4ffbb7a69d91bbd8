// dC/dt and dC/dp at constant salinity, accurate enough to distinguish a sensor fault from the water, not to correct it.
// The sensitivities of [UNESCO1983] over the ocean's range.

/** mS/cm per K: between 0.8 and 1.15. */
export const conductivityPerKelvin = 1;
/** mS/cm per dbar: between 4.2e-4 and 5.1e-4 in sea water (derived from PSS-78 [UNESCO1983]). */
export const conductivityPerDbar = 4.5e-4;
