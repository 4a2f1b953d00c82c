/**
 * What a number of practice may be, by its unit: nothing outside reaches arithmetic. A share or a time
 * that is divided by is never zero; a chance, a loss or a price may be.
 */

type Range = readonly [least: number, most: number];
interface PracticeKey {
  readonly id: string;
  readonly unit: string;
}

const SHARE: Range = [0.01, 1];
const CHANCE: Range = [0, 1];

/** Every unit of the shipped rows; a row in a unit that is not here keeps the widest range. */
const RANGES: Readonly<Record<string, Range>> = {
  '': [0.0001, 10],
  '%': [1, 100],
  C: [-80, 250],
  '°C': [-80, 250],
  K: [0.1, 150],
  'K/h': [0.5, 600],
  'J/(g K)': [0.1, 20],
  'J/(kg K)': [100, 20_000],
  'J/g': [10, 1500],
  N: [1, 10_000],
  'Pa s': [0.01, 1000],
  'mPa s': [10, 1_000_000],
  'Shore D': [1, 100],
  'W/(m K)': [0.001, 500],
  'W/(m2 K)': [0.1, 1000],
  builds: [1, 1000],
  d: [0, 365],
  degrees: [0, 90],
  'working days': [0, 250],
  each: CHANCE,
  /** No or yes. */
  '0 or 1': CHANCE,
  faces: [0, 2],
  g: [1, 100_000],
  'g/m2': [0, 5000],
  kg: [0, 1000],
  'kg/m': [0, 100],
  'kg/m2': [0, 100],
  'kg/m3': [1, 25_000],
  h: [0.01, 2000],
  min: [0.1, 10_000],
  'min/m': [0, 1000],
  'min/m2': [0, 1000],
  'kJ/mol': [1, 400],
  kPa: [0.1, 1000],
  mbar: [0.1, 1000],
  m: [0.01, 100],
  m2: [0.01, 1000],
  mm: [0.01, 20_000],
  um2: [0.1, 1_000_000],
  minor: [0, 1_000_000],
  'minor units': [0, 1_000_000],
  /** Weight of one against another: a hundred warnings outweigh all that a plan has. */
  warnings: [0, 100],
  times: [0.01, 1000],
  'of the first': CHANCE,
  'of core area': CHANCE,
  'of fairing mass': CHANCE,
  'of mould work': CHANCE,
  'of resin mass': CHANCE,
  'of the bags': CHANCE,
  'of the days': CHANCE,
  'of the hours': CHANCE,
  'of the jobs': CHANCE,
  'of the mix': [0, 0.9],
  'of the fraction under a bag': [0.3, 1.2],
  'of the orders': CHANCE,
  'of the wage': [0, 10],
  'of film open time': SHARE,
  'of hardener': SHARE,
  'of its mass': SHARE,
  'of pot life': SHARE,
  'of the row': SHARE,
  'of the side': SHARE,
  'of the volume': SHARE,
};

/** A degree of cure lies between fresh and full, though it has no unit to say so. */
const DEGREE: Range = [0.02, 0.95];
const DEGREES: ReadonlySet<string> = new Set(['cure-gel-degree', 'cure-ester-gel-degree']);

/** Widest that any number of practice may be. */
export const WIDEST: Range = [-1e6, 1e6];

/** Least and most of a row of practice. */
export const practiceRange = ({ id, unit }: PracticeKey): Range =>
  DEGREES.has(id) ? DEGREE : (RANGES[unit] ?? WIDEST);
