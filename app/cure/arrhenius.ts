/**
 * Temperature into rate: the equivalent-age form of the maturity method (ASTM C1074),
 * rate(T) / rate(Tref) = exp(-Ea/R (1/T - 1/Tref)) with T in kelvin.
 */

/** Molar gas constant, J/(mol K), exact since the SI of 2019. */
export const GAS_CONSTANT = 8.314462618;
/** 0 C in kelvin. */
export const ZERO_C_IN_K = 273.15;

/** Rate at `temperatureC` as a multiple of the rate at `referenceC`; Ea in J/mol. */
export function rateFactor(
  activationEnergyJMol: number,
  temperatureC: number,
  referenceC: number,
): number {
  return Math.exp(
    (activationEnergyJMol / GAS_CONSTANT) *
      (1 / (referenceC + ZERO_C_IN_K) - 1 / (temperatureC + ZERO_C_IN_K)),
  );
}

/**
 * The activation energy, J/mol, at which the rate grows by `factor` over the 10 C above
 * `temperatureC`: Ea = R ln(factor) T (T + 10) / 10.
 */
export function energyForFactorPer10C(factor: number, temperatureC: number): number {
  const kelvin = temperatureC + ZERO_C_IN_K;
  return (GAS_CONSTANT * Math.log(factor) * kelvin * (kelvin + 10)) / 10;
}
