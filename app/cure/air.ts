/** The room's air against a cold surface: dew, and the blush of amines. */
import type { PracticeLookup } from './practice.ts';

/** Magnus formula over water, constants of Alduchov & Eskridge (1996): valid -40 to 50 C. */
const MAGNUS = { a: 17.625, bC: 243.04 };

/**
 * Dew point, C, of air at a temperature, C, and a relative humidity, %; -Infinity for dry air.
 * ln(RH/100) + a T / (b + T), inverted (Magnus).
 */
export function dewPointC(airC: number, humidityPct: number): number {
  const gamma = Math.log(Math.min(100, humidityPct) / 100) + (MAGNUS.a * airC) / (MAGNUS.bC + airC);
  return humidityPct <= 0 ? -Infinity : (MAGNUS.bC * gamma) / (MAGNUS.a - gamma);
}

/**
 * Relative humidity, %, of the same air at another temperature; the water in it stays.
 * @param airC temperature at which the humidity was measured, C
 * @param humidityPct relative humidity there, %
 * @param otherC the other temperature, C
 */
export function humidityAtPct(airC: number, humidityPct: number, otherC: number): number {
  const pressure = (t: number): number => Math.exp((MAGNUS.a * t) / (MAGNUS.bC + t));
  return Math.min(100, (humidityPct * pressure(airC)) / pressure(otherC));
}

export interface SurfaceAir {
  readonly dewPointC: number;
  /** Surface over the dew point, K. */
  readonly overDewK: number;
  /** Nearer to the dew point than practice allows. */
  readonly nearDew: boolean;
  /** Why an amine surface is likely to blush; empty when it is not. */
  readonly blush: readonly ('cold' | 'humid')[];
  /** Humidity at the surface's own temperature, %. */
  readonly humidityAtSurfacePct: number;
}

/**
 * Dew and blush on a surface in the room's air. Over a night the water in the air stays: give the air as it
 * was measured and the surface at its coldest.
 * @param air temperature, C, and relative humidity, %
 * @param surfaceC temperature of the surface, C
 * @throws MissingRow when the library lacks a practice row
 */
export function surfaceAir(
  air: { readonly temperatureC: number; readonly humidityPct: number },
  surfaceC: number,
  practice: PracticeLookup,
): SurfaceAir {
  const dew = dewPointC(air.temperatureC, air.humidityPct);
  const humidityAtSurfacePct = humidityAtPct(air.temperatureC, air.humidityPct, surfaceC);
  const blush: ('cold' | 'humid')[] = [];
  if (surfaceC < practice('blush-below-c')) blush.push('cold');
  if (humidityAtSurfacePct > practice('blush-above-rh-pct')) blush.push('humid');
  return {
    dewPointC: dew,
    overDewK: surfaceC - dew,
    nearDew: surfaceC - dew < practice('dew-margin-c'),
    blush,
    humidityAtSurfacePct,
  };
}
