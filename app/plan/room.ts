/** The room that a build cures in: its air, and the coldest spot of part and mould in it. */
import { mouldOf } from '../document/library.ts';
import { memoByAll } from '../document/memo.ts';
import type { FullBuild, Library } from '../document/schema.ts';
import { laggedProfile, measuredProfile, roomProfile, withMeasured } from '../cure/profile.ts';
import type { TemperatureProfile } from '../cure/types.ts';
import type { Minute } from '../time/instant.ts';

export interface Room {
  readonly air: TemperatureProfile;
  /** Coldest spot of part and mould while it is in the mould: what the chemistry runs on. */
  readonly mould: TemperatureProfile;
}

/**
 * Day and night where nothing was measured, the steps of a logger where something was. The mould lags
 * behind the air; where the logger lay on the coldest spot itself, its readings are taken as they are.
 * @param offK the expected room is so many kelvin off; what was measured is not
 */
export function roomOf(
  build: FullBuild,
  library: Library,
  from: Minute,
  to: Minute,
  offK = 0,
): Room {
  const { room, mould, zone } = build;
  return known([room, mould, library], `${zone} ${from} ${to} ${offK}`, () =>
    workOut(build, library, from, to, offK),
  );
}

const known = memoByAll<Room>();

function workOut(build: FullBuild, library: Library, from: Minute, to: Minute, offK: number): Room {
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
  if (!measured) return { air: expected, mould: laggedProfile(expected, lagHours) };
  const log = measuredProfile(measured);
  if (measured.place === 'part') {
    return { air: expected, mould: withMeasured(laggedProfile(expected, lagHours), log) };
  }
  const air = withMeasured(expected, log);
  return { air, mould: laggedProfile(air, lagHours) };
}
