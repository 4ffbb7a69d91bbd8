import { PRESSURE_UNIT, SALINITY_UNIT, TEMPERATURE_UNIT } from "./coefficientsGibbsSeawater.js";
import { SALINITY_OFFSET, v } from "./coefficientsSpecificVolume.js";
import { rhoKernel, sigma0Kernel } from "./columns/densityKernels.js";
import { runKernel } from "./columns/kernel.js";
import { outputFor } from "./outputFor.js";

// vijk as constants of this module, so that the compiler writes their values into the code.
const [rows0, rows1, rows2, rows3, rows4, [[v005]], [[v006]]] = v;
const [[v000, v100, v200, v300, v400, v500, v600], [v010, v110, v210, v310, v410, v510]] = rows0;
const [, , [v020, v120, v220, v320, v420], [v030, v130, v230, v330]] = rows0;
const [, , , , [v040, v140, v240], [v050, v150], [v060]] = rows0;
const [[v001, v101, v201, v301, v401, v501], [v011, v111, v211, v311, v411]] = rows1;
const [, , [v021, v121, v221, v321], [v031, v131, v231], [v041, v141], [v051]] = rows1;
const [[v002, v102, v202, v302, v402], [v012, v112, v212, v312], [v022, v122, v222]] = rows2;
const [, , , [v032, v132], [v042]] = rows2;
const [[v003, v103, v203], [v013, v113], [v023]] = rows3;
const [[v004, v104], [v014]] = rows4;

const perSalinityUnit = 1 / SALINITY_UNIT;
const perTemperatureUnit = 1 / TEMPERATURE_UNIT;
const perPressureUnit = 1 / PRESSURE_UNIT;
const salinityOffset = SALINITY_OFFSET;

/**
 * In-situ density of seawater.
 * @param sa  Absolute Salinity, g/kg
 * @param ct  Conservative Temperature, degree C
 * @param p   sea pressure, dbar
 * @returns   density, kg/m3; NaN if an input is NaN or the salinity is negative
 * Source: the 75-term polynomial of specific volume, [RoquetEtAl2015], fitted for the water masses of the ocean.
 * @example rho(34.7118, 28.8099, 10) // 1021.8399357381084
 */
export function rho(sa: number, ct: number, p: number): number {
  return 1 / specvol(sa, ct, p);
}

/** `rho` of a whole column; `out` may be one of the inputs. Throws RangeError if the columns differ in length. */
export function rhoColumn(
  sa: Float64Array,
  ct: Float64Array,
  p: Float64Array,
  out?: Float64Array,
): Float64Array {
  const density = outputFor(out, sa, ct, p);
  const kernel = rhoKernel();
  if (kernel !== undefined) runKernel(kernel, [sa, ct, p], density);
  else for (let i = 0; i < density.length; i++) density[i] = rho(sa[i]!, ct[i]!, p[i]!);
  return density;
}

/**
 * Potential density anomaly referred to 0 dbar: the density that the parcel has there, less 1000 kg/m3.
 * @param sa  Absolute Salinity, g/kg
 * @param ct  Conservative Temperature, degree C
 * @returns   sigma0, kg/m3; NaN if an input is NaN or the salinity is negative
 * Source: [RoquetEtAl2015].
 * @example sigma0(34.7118, 28.8099) // 21.797900819337656
 */
export function sigma0(sa: number, ct: number): number {
  return 1 / surfaceVolume(rootOfSalinity(sa), ct * perTemperatureUnit) - 1000;
}

/** `sigma0` of a whole column; `out` may be one of the inputs. Throws RangeError if the columns differ in length. */
export function sigma0Column(sa: Float64Array, ct: Float64Array, out?: Float64Array): Float64Array {
  const anomaly = outputFor(out, sa, ct);
  const kernel = sigma0Kernel();
  if (kernel !== undefined) runKernel(kernel, [sa, ct], anomaly);
  else for (let i = 0; i < anomaly.length; i++) anomaly[i] = sigma0(sa[i]!, ct[i]!);
  return anomaly;
}

/**
 * Specific volume of seawater, m3/kg; arguments and source as `rho`.
 * @example specvol(34.7118, 28.8099, 10) // 9.786268e-4
 */
export function specvol(sa: number, ct: number, p: number): number {
  const x = rootOfSalinity(sa);
  const y = ct * perTemperatureUnit;
  const z = p * perPressureUnit;
  return surfaceVolume(x, y) + z * pressureVolume(x, y, z);
}

function rootOfSalinity(sa: number): number {
  return sa < 0 ? Number.NaN : Math.sqrt((sa + salinityOffset) * perSalinityUnit);
}

/** The terms without z. */
function surfaceVolume(x: number, y: number): number {
  const y0 = v000 + x * (v100 + x * (v200 + x * (v300 + x * (v400 + x * (v500 + x * v600)))));
  const y1 = v010 + x * (v110 + x * (v210 + x * (v310 + x * (v410 + x * v510))));
  const y2 = v020 + x * (v120 + x * (v220 + x * (v320 + x * v420)));
  const y3 = v030 + x * (v130 + x * (v230 + x * v330));
  const y4 = v040 + x * (v140 + x * v240);
  const y5 = v050 + x * v150;
  return y0 + y * (y1 + y * (y2 + y * (y3 + y * (y4 + y * (y5 + y * v060)))));
}

/** The terms with z, divided by it. */
function pressureVolume(x: number, y: number, z: number): number {
  const z1y0 = v001 + x * (v101 + x * (v201 + x * (v301 + x * (v401 + x * v501))));
  const z1y1 = v011 + x * (v111 + x * (v211 + x * (v311 + x * v411)));
  const z1y2 = v021 + x * (v121 + x * (v221 + x * v321));
  const z1y3 = v031 + x * (v131 + x * v231);
  const z1 = z1y0 + y * (z1y1 + y * (z1y2 + y * (z1y3 + y * (v041 + x * v141 + y * v051))));
  const z2y0 = v002 + x * (v102 + x * (v202 + x * (v302 + x * v402)));
  const z2y1 = v012 + x * (v112 + x * (v212 + x * v312));
  const z2y2 = v022 + x * (v122 + x * v222);
  const z2 = z2y0 + y * (z2y1 + y * (z2y2 + y * (v032 + x * v132 + y * v042)));
  const z3 = v003 + x * (v103 + x * v203) + y * (v013 + x * v113 + y * v023);
  const z4 = v004 + x * v104 + y * v014;
  return z1 + z * (z2 + z * (z3 + z * (z4 + z * (v005 + z * v006))));
}
