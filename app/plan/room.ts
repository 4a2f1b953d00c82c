/** The room that a build cures in: its air, and the coldest spot of part and mould in it. */
import { mouldOf } from '../document/library.ts';
import type { FullBuild, Library } from '../document/schema.ts';
import { lagging, measuredProfile, roomProfile, withMeasured } from '../cure/profile.ts';
import type { TemperatureProfile } from '../cure/types.ts';
import type { Minute } from '../time/instant.ts';

export interface Room {
  readonly air: TemperatureProfile;
  /** Coldest spot of part and mould while it is in the mould: what the chemistry runs on. */
  readonly mould: TemperatureProfile;
}

/**
 * Day and night as far as nothing was measured, a logger's steps where it was. The mould lags behind
 * the air; a logger on the coldest spot itself says what it is.
 * @param offK the expected room is so many kelvin off; what was measured is not
 */
export function roomOf(
  build: FullBuild,
  library: Library,
  from: Minute,
  to: Minute,
  offK = 0,
): Room {
  const { room, zone } = build;
  const { day, night } = room.temperatureC;
  const expected = roomProfile(
    { ...room, temperatureC: { day: day + offK, night: night + offK } },
    zone,
    from,
    to,
  );
  const { lagHours } = mouldOf(library, build.mould.material);
  const { measured } = room;
  if (!measured) return { air: expected, mould: lagging(expected, lagHours) };
  const log = measuredProfile(measured);
  if (measured.place === 'part') {
    return { air: expected, mould: withMeasured(lagging(expected, lagHours), log) };
  }
  const air = withMeasured(expected, log);
  return { air, mould: lagging(air, lagHours) };
}
