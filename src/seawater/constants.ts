/** 0 degree C, K. */
export const ZERO_CELSIUS = 273.15;

/**
 * The heat capacity that converts potential enthalpy to Conservative Temperature, J/(kg K), exact by definition: [TEOS10].
 */
export const HEAT_CAPACITY = 3991.86795711963;

/** Absolute Salinity of standard seawater of SP 35, g/kg: [MilleroEtAl2008]. */
export const STANDARD_SALINITY = 35.16504;

/** Pascal in a decibar. */
export const PASCAL_PER_DECIBAR = 1e4;
