/**
 * Metric and US customary measures. Inside everything is metric; US customary stands beside it where
 * a person types or reads. Factors: 1 in = 25.4 mm and 1 lb = 0.453 592 37 kg exactly (international
 * yard and pound agreement of 1959, repeated in NIST SP 811); t_F = 1.8 t_C + 32.
 * US gallon 231 in3 and Btu(IT)/lb 2.326 J/g exactly; inHg, psi: NIST SP 811; darcy 0.986 923 3 um2:
 * from memory.
 */

import { signed } from './formats.ts';

const KG_PER_LB = 0.45359237;
const MM_PER_IN = 25.4;
const M_PER_FT = 0.3048;
const M3_PER_GAL = 231 * (MM_PER_IN / 1000) ** 3;
const J_PER_G_PER_BTU_LB = 2.326;
const KPA_PER_INHG = 3.386389;
const KPA_PER_PSI = 6.894757;
const UM2_PER_DARCY = 0.9869233;
const G_PER_OZ = (KG_PER_LB * 1000) / 16;

/** What a figure measures; each kind has one unit inside the planner. */
export type Measure =
  | 'areaM2'
  | 'lengthM'
  | 'lengthMm'
  | 'massKg'
  | 'massG'
  | 'arealGM2'
  | 'temperatureC'
  | 'rampKPerHour'
  | 'minutes'
  | 'hours'
  | 'days'
  | 'percent'
  | 'count'
  | 'parts'
  | 'densityKgM3'
  | 'heatJG'
  | 'vacuumKPa'
  | 'viscosityMPaS'
  | 'permeabilityUm2';

/** A unit that a person may write: to metric by `value * factor + offset`. */
export interface Unit {
  readonly symbol: string;
  readonly spellings: readonly string[];
  readonly factor: number;
  readonly offset?: number;
}

const unit = (symbol: string, factor: number, spellings: string[] = [], offset = 0): Unit => ({
  symbol,
  spellings: [symbol, ...spellings],
  factor,
  offset,
});

/** Standard atmosphere, from which an absolute pressure is taken: the room's own is some percent off. */
const KPA_PER_ATM = 101.325;

/** A pressure below the room's. */
const below = (name: string, factor: number, spellings: string[] = []): Unit =>
  unit(`${name} below atm.`, factor, [
    ...[name, ...spellings].flatMap((s) => [s, `${s} below atm`, `${s} below atmosphere`]),
  ]);

/** An absolute pressure, converted to what it is below a standard atmosphere. */
const absolute = (name: string, factor: number, spellings: string[] = []): Unit =>
  unit(
    `${name} abs.`,
    -factor,
    [name, ...spellings].flatMap((s) => [`${s} abs`, `${s} absolute`, `${s}a`]),
    KPA_PER_ATM,
  );

/** Units of each measure: the planner's own first, its US customary companion second if it has one. */
export const UNITS: Readonly<Record<Measure, readonly Unit[]>> = {
  areaM2: [
    unit('m²', 1, ['m2', 'sqm', 'sq m', 'm^2']),
    unit('ft²', M_PER_FT ** 2, ['ft2', 'sqft', 'sq ft', 'ft^2']),
    unit('cm²', 1e-4, ['cm2', 'sq cm', 'cm^2']),
    unit('in²', (MM_PER_IN / 1000) ** 2, ['in2', 'sq in', 'in^2']),
  ],
  lengthM: [
    unit('m', 1, ['metre', 'metres']),
    unit('ft', M_PER_FT, ["'", 'foot', 'feet']),
    unit('cm', 0.01),
    unit('mm', 0.001),
    unit('in', MM_PER_IN / 1000, ['"', 'inch', 'inches']),
  ],
  lengthMm: [
    unit('mm', 1),
    unit('in', MM_PER_IN, ['"', 'inch', 'inches']),
    unit('cm', 10),
    unit('m', 1000),
    unit('ft', 12 * MM_PER_IN, ["'", 'foot', 'feet']),
  ],
  massKg: [
    unit('kg', 1),
    unit('lb', KG_PER_LB, ['lbs']),
    unit('g', 0.001),
    unit('oz', G_PER_OZ / 1000),
  ],
  massG: [
    unit('g', 1),
    unit('oz', G_PER_OZ),
    unit('kg', 1000),
    unit('lb', KG_PER_LB * 1000, ['lbs']),
  ],
  arealGM2: [
    unit('g/m²', 1, ['g/m2', 'gsm']),
    unit('oz/yd²', G_PER_OZ / (3 * M_PER_FT) ** 2, ['oz/yd2', 'osy']),
    // Chopped-strand mat is sold by the square foot, woven cloth by the square yard.
    unit('oz/ft²', G_PER_OZ / M_PER_FT ** 2, ['oz/ft2']),
    unit('kg/m²', 1000, ['kg/m2']),
  ],
  temperatureC: [
    unit('°C', 1, ['C', '° C', 'deg C', 'celsius']),
    unit('°F', 1 / 1.8, ['F', '° F', 'deg F', 'fahrenheit'], -32 / 1.8),
  ],
  rampKPerHour: [
    unit('°C/h', 1, ['C/h', 'K/h', 'C per hour']),
    unit('°F/h', 1 / 1.8, ['F/h', 'F per hour']),
  ],
  minutes: [unit('min', 1, ['minutes', 'mins', 'm']), unit('h', 60, ['hours', 'hour', 'hrs'])],
  hours: [
    unit('h', 1, ['hours', 'hour', 'hrs']),
    unit('min', 1 / 60, ['minutes', 'mins']),
    unit('d', 24, ['days', 'day']),
  ],
  days: [unit('days', 1, ['d', 'day', 'working days'])],
  percent: [unit('%', 1, ['percent', 'pct'])],
  count: [unit('', 1)],
  parts: [unit('g', 1, ['pph', 'parts'])],
  densityKgM3: [
    unit('kg/m³', 1, ['kg/m3', 'g/l']),
    unit('lb/gal', KG_PER_LB / M3_PER_GAL, ['lb/USgal', 'ppg']),
    unit('g/cm³', 1000, ['g/cm3', 'g/ml', 'kg/l']),
    unit('lb/ft³', KG_PER_LB / M_PER_FT ** 3, ['lb/ft3']),
  ],
  heatJG: [
    unit('J/g', 1, ['kJ/kg']),
    unit('Btu/lb', J_PER_G_PER_BTU_LB, ['BTU/lb']),
    unit('cal/g', 4.1868),
  ],
  // Counted from the room's air downwards; `abs` counts from zero pressure upwards.
  vacuumKPa: [
    below('kPa', 1),
    below('inHg', KPA_PER_INHG, ['in Hg', '"Hg', 'in. Hg']),
    below('mbar', 0.1, ['hPa']),
    below('bar', 100),
    below('psi', KPA_PER_PSI),
    absolute('kPa', 1),
    absolute('mbar', 0.1, ['hPa']),
    absolute('bar', 100),
    absolute('inHg', KPA_PER_INHG),
    absolute('Torr', KPA_PER_ATM / 760, ['mmHg']),
  ],
  viscosityMPaS: [
    unit('mPa·s', 1, ['mPas', 'mPa s', 'mPa*s']),
    unit('cP', 1, ['cps', 'cp']),
    unit('Pa·s', 1000, ['Pas', 'Pa s', 'Pa*s']),
  ],
  permeabilityUm2: [
    unit('µm²', 1, ['um2', 'μm²', 'µm2', 'um^2']),
    unit('darcy', UM2_PER_DARCY, ['D', 'darcies']),
    unit('m²', 1e12, ['m2', 'm^2']),
  ],
};

const COMPANION: Partial<Record<Measure, true>> = {
  areaM2: true,
  lengthM: true,
  lengthMm: true,
  massKg: true,
  massG: true,
  arealGM2: true,
  temperatureC: true,
  rampKPerHour: true,
  densityKgM3: true,
  heatJG: true,
  vacuumKPa: true,
  viscosityMPaS: true,
  permeabilityUm2: true,
};

/** Decimals worth showing for a size, three figures: 0.4 -> 3, 4 -> 2, 40 -> 1, 400 -> 0. */
function decimalsFor(value: number, measure: Measure): number {
  if (measure === 'temperatureC') return Number.isInteger(value) ? 0 : 1;
  const size = Math.abs(value);
  if (size >= 100) return 0;
  if (size >= 10) return 1;
  return size >= 1 || size === 0 ? 2 : Math.min(5, 2 - Math.floor(Math.log10(size)));
}

const plain = (value: number, decimals: number): string => {
  const text = value.toFixed(decimals);
  const short = decimals > 0 ? text.replace(/\.?0+$/, '') : text;
  return signed(short.replace('-', '\u2212'));
};

const write = (value: number, symbol: string, measure: Measure): string => {
  const text = plain(value, decimalsFor(value, measure));
  return symbol ? `${text} ${symbol}` : text;
};

/** The planner's unit of a measure, as in `m²`. */
export const unitOf = (measure: Measure): string => UNITS[measure][0]!.symbol;

/** A metric figure with its unit, three figures: `2.4 m²`. */
export function formatMetric(value: number, measure: Measure): string {
  return write(value, unitOf(measure), measure);
}

/** The same figure in US customary units, `25.8 ft²`; null where the trade uses one unit only. */
export function formatCustomary(value: number, measure: Measure): string | null {
  const companion = COMPANION[measure] ? UNITS[measure][1] : undefined;
  if (!companion) return null;
  const converted = (value - (companion.offset ?? 0)) / companion.factor;
  if (measure === 'temperatureC') return `${plain(converted, 0)} °F`;
  return write(converted, companion.symbol, measure);
}

/** Both, metric first: `2.4 m² (25.8 ft²)`. */
export function formatBoth(value: number, measure: Measure): string {
  const customary = formatCustomary(value, measure);
  return customary
    ? `${formatMetric(value, measure)} (${customary})`
    : formatMetric(value, measure);
}
