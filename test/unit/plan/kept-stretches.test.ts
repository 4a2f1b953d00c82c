/** Wet work that is asked again by a changed build: the same answer, worked out once. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { settleCures } from '../../../app/plan/cures.ts';
import { wetHours } from '../../../app/plan/wetWindows.ts';
import { enumerateRoutes } from '../../../app/route/routes.ts';
import { crewOf } from '../../../app/schedule/network/crew.ts';
import { wetStretches } from '../../../app/schedule/network/wetStretches.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

function firstStretches(build: Build) {
  const context = contextOf(build, library(), NOW);
  const [route] = enumerateRoutes(context.part.layups);
  const [cure] = settleCures(context, route!);
  const hours = wetHours(context);
  const crew = crewOf(hours.personHours, context.library, hours.personOvertime);
  return wetStretches(crew, hours, cure!);
}

describe('the wet work of a cure', () => {
  const base = smallBuild();

  it('is not worked out again for a build that changes nothing of it', () => {
    expect(firstStretches({ ...base, name: 'The same work' })).toBe(firstStretches(base));
  });

  it('is worked out anew where the work takes longer', () => {
    const zones = base.part.zones.map((zone) => ({ ...zone, areaM2: 2 * (zone.areaM2 ?? 1) }));
    const larger = firstStretches({ ...base, part: { ...base.part, zones } });
    const lengths = ({ modes }: typeof larger) => modes[0]!.map(({ length }) => length);
    expect(lengths(larger)).not.toEqual(lengths(firstStretches(base)));
  });

  it('is worked out anew where the resin runs through a warmer room', () => {
    const room = { ...base.room, temperatureC: { day: 26, night: 22 } };
    const warmer = firstStretches({ ...base, room });
    expect(warmer.laid[0]!.modes[0]!.starts).not.toEqual(
      firstStretches(base).laid[0]!.modes[0]!.starts,
    );
  });
});
