/** Temperature profiles drawn at random. */
import fc from 'fast-check';
import type { TemperatureProfile } from '../../app/cure/types.ts';

type Range = readonly [min: number, max: number];

/** Contiguous segments from minute 0, whole minutes and whole degrees. */
export const drawnProfile = (
  minutes: Range,
  temperatureC: Range,
  segments: Range,
): fc.Arbitrary<TemperatureProfile> =>
  fc
    .array(
      fc.record({
        minutes: fc.integer({ min: minutes[0], max: minutes[1] }),
        temperatureC: fc.integer({ min: temperatureC[0], max: temperatureC[1] }),
      }),
      { minLength: segments[0], maxLength: segments[1] },
    )
    .map((list): TemperatureProfile => {
      let start = 0;
      return list.map((drawn) => {
        const segment = { start, end: start + drawn.minutes, temperatureC: drawn.temperatureC };
        start += drawn.minutes;
        return segment;
      });
    });
