/**
 * Weights of cloth and foam as they are sold in US customary units. Factors follow from 1 lb =
 * 0.453 592 37 kg and 1 yd = 0.9144 m exactly (international yard and pound agreement of 1959).
 */

const G_PER_OZ = 453.59237 / 16;
const M_PER_FT = 0.3048;

/** Ounces per square yard, as woven cloth is sold, to g/m2. */
export const fromOzYd2 = (ozYd2: number): number => (ozYd2 * G_PER_OZ) / (3 * M_PER_FT) ** 2;

/** g/m2 to ounces per square yard. */
export const toOzYd2 = (gM2: number): number => (gM2 * (3 * M_PER_FT) ** 2) / G_PER_OZ;

/** Ounces per square foot, as chopped-strand mat is sold, to g/m2: nine times the same word for cloth. */
export const fromOzFt2 = (ozFt2: number): number => (ozFt2 * G_PER_OZ) / M_PER_FT ** 2;

/** Pounds per cubic foot, as foam is sold, to kg/m3. */
export const fromLbFt3 = (lbFt3: number): number => (lbFt3 * G_PER_OZ * 16) / 1000 / M_PER_FT ** 3;

/** kg/m3 to pounds per cubic foot. */
export const toLbFt3 = (kgM3: number): number => kgM3 / fromLbFt3(1);
