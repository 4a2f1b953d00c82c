/** A gel after hours: one stays for it, at what it costs, and rests where the night is short. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { plan } from '../../../app/answer/plan.ts';
import {
  leverId,
  readLeverId,
  type GelWatchRef,
  type LeverRef,
} from '../../../app/document/ids.ts';
import { FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';
import { applyLever } from '../../../app/judge/levers.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { isoToMinute, localToMinute } from '../../../app/time/zone.ts';

const ONE_SKIN = { areaM2: 0.8, outer: [{ cloth: 'carbon-twill-200' }], inner: [] };

/** Slow resin, and hours that its gel outlasts. */
const late = (from: string, until: string, roomC = 22): Build => ({
  ...smallBuild(),
  resin: { system: 'orrin-18', hardener: 'slow' },
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
  room: { temperatureC: { day: roomC, night: Math.max(18.5, roomC - 2) } },
  crew: ['Mina Vale', 'Tor Aske'].map((name) => {
    const day: [string, string][] = [[from, until]];
    return { name, hours: { mon: day, tue: day, wed: day, thu: day, fri: day } };
  }),
});

const told = (document: Build) => {
  const { result } = plan(document, library(), NOW, FULL_ANSWER);
  const gels = result.findings.filter(({ code }) => code === 'gel-unattended');
  const stops = result.findings.filter(({ severity }) => severity === 'stop');
  return { result, gels, stops };
};
const watchOf = ({ gels }: ReturnType<typeof told>) =>
  gels[0]!.levers.find(({ id }) => readLeverId(id)?.lever === 'gel-watch')!;

describe.each([
  ['in the evening', '08:00', '17:00', 22, false, false],
  ['late in the evening', '08:00', '17:00', 19, false, true],
  ['in the night', '13:00', '21:00', 22, true, false],
] as const)('gels that fall %s', (_, from, ends, roomC, atNight, rests) => {
  const document = late(from, ends, roomC);
  const before = told(document);
  const lever = watchOf(before);
  const ref = readLeverId(lever.id) as Extract<LeverRef, { lever: 'gel-watch' }>;
  const changed = applyLever(document, lever.id, library(), LOOKUPS)!;

  it('are watched by one who stays for each of them', () => {
    expect(before.gels.length).toBeGreaterThan(1);
    expect(ref.watches).toHaveLength(before.gels.length);
    expect(lever.clears).toContain('gel-unattended');
    expect(lever.label).toMatch(/^Stay for \d gels: Mina Vale until /);
    for (const { mix, until } of ref.watches) {
      expect(until.slice(0, 10) > mix.slice(0, 10)).toBe(atNight);
    }
  });

  it('cost the hours stayed, at the wage with overtime on top', () => {
    const minutes = ref.watches.reduce((sum, { mix, until }) => {
      const left = localToMinute(`${mix.slice(0, 10)}T${ends}`, document.zone)!.minute;
      return sum + localToMinute(until, document.zone)!.minute - left;
    }, 0);
    // 42.00 an hour, half as much again for overtime: rows of the library.
    expect(lever.cost).toBe(Math.round((minutes * 4200 * 1.5) / 60));
  });

  it('are seen once it is applied and planned anew, with no stop more', () => {
    expect(read(changed).ok).toBe(true);
    const after = told(changed);
    expect(after.gels).toEqual([]);
    expect(after.stops).toEqual([]);
    expect(after.result.fits).toBe(before.result.fits);
    const looks = after.result.stages.filter(({ id }) => id.startsWith('gel-look:'));
    expect(looks.flatMap(({ people }) => people)).toEqual(ref.watches.map(({ person }) => person));
  });

  it('leave eleven hours of rest before the next work', () => {
    // A busy block stands where the next day would begin sooner.
    expect((changed.busy ?? []).length > 0).toBe(rests);
    const after = told(changed).result;
    for (const { person, until } of ref.watches) {
      const over = localToMinute(until, document.zone)!.minute;
      const next = after.stages
        .filter(({ people, start }) => people.includes(person) && start !== null)
        .map(({ start }) => isoToMinute(start!)!)
        .filter((start) => start >= over);
      if (next.length > 0) expect(Math.min(...next) - over).toBeGreaterThanOrEqual(11 * 60);
    }
  });
});

it('is one label and one id where one gel alone falls unseen, and no way out past twelve hours', () => {
  const one = told({ ...late('08:00', '17:00'), part: { zones: [ONE_SKIN] } });
  expect(one.gels).toHaveLength(1);
  expect(watchOf(one).label).toMatch(/^Mina Vale stays until .* for the gel of the outer skin$/);
  const [{ layup, person, mix }] = (
    readLeverId(watchOf(one).id) as Extract<LeverRef, { lever: 'gel-watch' }>
  ).watches as [GelWatchRef];
  const longer = leverId({
    lever: 'gel-watch',
    watches: [{ layup, person, mix, until: `${mix.slice(0, 8)}30T07:00` }],
  });
  expect(applyLever(late('08:00', '17:00'), longer, library(), LOOKUPS)).toBeNull();
});
