/** Each lever does to the document what its label says, and buys what it claims. */
import { describe, expect, it } from 'vitest';
import { buildSchema, type Build, type FullBuild } from '../../../app/document/schema.ts';
import { applyLever, leverEdits } from '../../../app/judge/levers.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { LIBRARY, NOW, planFor, ROOMY, withRow, withZone } from './builds.ts';

const SMALL: Build = withZone({ ...ROOMY, crew: [{ name: 'Ida Moss' }] }, { areaM2: 0.8 });

function pulled(document: Build, id: string): FullBuild {
  const after = applyLever(document, id, LIBRARY, LOOKUPS);
  if (!after) throw new Error(`${id} is not open`);
  return buildSchema.parse(after);
}
const ids = (document: Build) => leverEdits(document, LIBRARY, LOOKUPS).map((edit) => edit.id);

describe('levers', () => {
  it('change what they say', () => {
    expect(pulled(SMALL, 'hardener-fast').resin).toMatchObject({ hardener: 'fast' });
    expect(pulled(SMALL, 'warm-nights').room.temperatureC).toEqual({ day: 21, night: 21 });
    expect(pulled(SMALL, 'warmer-room').room.temperatureC).toEqual({ day: 26, night: 24 });
    expect(pulled(SMALL, 'heated-tent').room.tent).toEqual({ maxC: 60 });
    expect(pulled(SMALL, 'heated-tent').gear.tents).toBe(1);
    expect(pulled(SMALL, 'saturday').crew[0]!.hours.sat).toEqual([['08:00', '13:00']]);
    expect(pulled(SMALL, 'saturday').crew[0]!.hours.sun).toBeUndefined();
    expect(pulled(SMALL, 'weekend').crew[0]!.hours.sun).toEqual([['08:00', '13:00']]);
    expect(pulled(SMALL, 'longer-day').crew[0]!.hours.mon!.at(-1)![1]).toBe('18:30');
    expect(pulled(SMALL, 'another-hand').crew).toHaveLength(2);
    expect(pulled(SMALL, 'release-film-slick').mould.release).toBe('film-slick');
    expect(pulled(SMALL, 'route:skin+core/inner').route).toEqual({
      joints: { 'skin-core': 'one-bag', 'core-inner': 'apart' },
    });
  });

  it('change one cure alone', () => {
    const fast = pulled(SMALL, 'hardener:inner:fast');
    expect(fast.resin).toMatchObject({ hardener: 'medium', hardenerFor: { inner: 'fast' } });
    const back = { ...SMALL, resin: { ...SMALL.resin, hardenerFor: { inner: 'fast' } } };
    expect(pulled(back, 'hardener:inner:medium').resin.hardenerFor).toEqual({});
    const warm = pulled(SMALL, 'tent:core:40');
    expect(warm.heat).toEqual([
      { layup: 'core', steps: [{ temperatureC: 40, rampKPerHour: 10, holdHours: 8 }] },
    ]);
    expect([warm.room.tent, warm.gear.tents]).toEqual([{ maxC: 60 }, 1]);
    const hotter = applyLever(
      applyLever(SMALL, 'tent:core:40', LIBRARY, LOOKUPS)!,
      'tent:core:50',
      LIBRARY,
      LOOKUPS,
    );
    expect(buildSchema.parse(hotter).heat.map((one) => one.steps[0]!.temperatureC)).toEqual([50]);
  });

  it('heat no cure beyond what tent, mould and core stand', () => {
    const tents = (document: Build, library = LIBRARY) =>
      leverEdits(document, library, LOOKUPS)
        .map((edit) => edit.id)
        .filter((id) => id.startsWith('tent:core:'));
    const own = (maxC: number): Build => ({ ...SMALL, room: { ...SMALL.room, tent: { maxC } } });
    expect(tents(own(80))).toEqual(['tent:core:40', 'tent:core:50']);
    expect(tents(own(45))).toEqual(['tent:core:40', 'tent:core:45']);
    expect(tents({ ...own(80), mould: { maxC: 38 } })).toEqual(['tent:core:38']);
    expect(tents(own(80), withRow(LIBRARY, 'cores', 'pvc-80', { maxC: 42 }))).toEqual([
      'tent:core:40',
      'tent:core:42',
    ]);
    // Hardly warmer than the room: not worth a tent.
    expect(tents(own(30))).toEqual([]);
  });

  it('of one cure shorten that cure and no other', () => {
    const hours = (document: Build, layup: string) => {
      const { cures } = planFor({ ...document, route: { joints: {} } }).result;
      const cure = cures.find((one) => one.id === layup)!;
      return (Date.parse(cure.debagFrom!) - Date.parse(cure.firstMix!)) / 3_600_000;
    };
    const warm = applyLever(SMALL, 'tent:core:50', LIBRARY, LOOKUPS)!;
    expect(hours(warm, 'core')).toBeLessThan(hours(SMALL, 'core') - 1);
    expect(hours(warm, 'skin')).toBe(hours(SMALL, 'skin'));
    const fast = applyLever(SMALL, 'hardener:inner:fast', LIBRARY, LOOKUPS)!;
    expect(hours(fast, 'inner')).toBeLessThan(hours(SMALL, 'inner') - 1);
    expect(hours(fast, 'core')).toBe(hours(SMALL, 'core'));
  });

  it('are noted in the document', () => {
    expect(pulled(SMALL, 'saturday').levers).toEqual([
      { id: 'saturday', label: 'Work Saturdays 08:00 to 13:00' },
    ]);
  });

  it('are not offered where they change nothing', () => {
    const warm = { ...SMALL, room: { temperatureC: { day: 26, night: 26 }, tent: { maxC: 80 } } };
    expect(ids(warm)).not.toContain('warm-nights');
    expect(ids(warm)).not.toContain('warmer-room');
    expect(ids(warm)).not.toContain('heated-tent');
    expect(ids(ROOMY)).not.toContain('another-hand');
    expect(ids(SMALL)).not.toContain('local-between');
    expect(ids(withZone(SMALL, { shape: 'double' }))).not.toContain('release-film-slick');
    expect(applyLever(SMALL, 'no-such-lever', LIBRARY, LOOKUPS)).toBeNull();
    expect(applyLever(SMALL, 'slot:nobody:2027-05-04', LIBRARY, LOOKUPS)).toBeNull();
  });

  it('move local plies from the demoulded part to between the skins', () => {
    const local = [{ cloth: 'glass-twill-300', place: 'after' as const, areaM2: 0.2 }];
    const document = withZone(SMALL, { local });
    expect(pulled(document, 'local-between').part.zones[0]!.local[0]!.place).toBe('between');
  });

  it('cost wages and heat for as long as they run', () => {
    const cost = (id: string, days: number) =>
      leverEdits(SMALL, LIBRARY, LOOKUPS, days).find((edit) => edit.id === id)!.addedMinor;
    for (const id of ['saturday', 'longer-day', 'warmer-room', 'another-hand']) {
      expect(cost(id, 28)).toBeGreaterThan(cost(id, 14));
      expect(cost(id, 14)).toBeGreaterThan(0);
    }
  });
});

describe('levers hung on a missed date', () => {
  const late: Build = { ...SMALL, unveiling: '2027-04-30T18:00' };
  const { result } = planFor(late, 'full');
  const missed = result.findings.find((finding) => finding.code === 'date-missed')!;

  it('gain what planning the pulled build shows', () => {
    expect(missed.levers.length).toBeGreaterThanOrEqual(2);
    const hoursLate = Number(missed.numbers['hoursLate']);
    for (const lever of missed.levers) {
      const after = planFor(applyLever(late, lever.id, LIBRARY, LOOKUPS)!, 'first').result;
      const now = after.findings.find((finding) => finding.code === 'date-missed');
      expect([lever.id, now === undefined]).toEqual([
        lever.id,
        lever.clears.includes('date-missed'),
      ]);
      if (now) {
        const gained = hoursLate - Number(now.numbers['hoursLate']);
        expect([lever.id, Math.abs(gained - lever.hoursGained) < 0.11]).toEqual([lever.id, true]);
      }
    }
  });
});

describe('a slot for which the finished part waits', () => {
  // Three days from Monday 28 June and two to dry end after the unveiling on Wednesday 30 June.
  const slot = '2027-06-28';
  const waiting: Build = {
    ...SMALL,
    outside: [{ id: 'paint', name: 'Spray shop', workingDays: 3, slot }],
  };
  const { result } = planFor(waiting, 'full', NOW);

  it('is offered earlier, on the first day on which the part is there', () => {
    expect(result.fits).toBe(false);
    const late = result.findings.find(({ code }) => code === 'date-missed')!;
    const lever = late.levers.find(({ id }) => id.startsWith('slot:paint:'))!;
    expect(lever.id < `slot:paint:${slot}`).toBe(true);
    expect(lever.clears).toContain('date-missed');
    expect(planFor(applyLever(waiting, lever.id, LIBRARY, LOOKUPS)!).result.fits).toBe(true);
  });
});

describe('a missed slot', () => {
  const late: Build = {
    ...SMALL,
    outside: [{ id: 'paint', name: 'Spray shop', workingDays: 3, slot: '2027-05-05' }],
  };
  const { result } = planFor(late, 'full', NOW);
  const missed = result.findings.find((finding) => finding.code === 'slot-missed')!;

  it('offers the first later day that works', () => {
    const lever = missed.levers.find((one) => one.id.startsWith('slot:paint:'))!;
    expect(lever.clears).toContain('slot-missed');
    expect(lever.hoursGained).toBeGreaterThan(0);
    const day = lever.id.slice(-10);
    expect(planFor(applyLever(late, lever.id, LIBRARY, LOOKUPS)!).result.fits).toBe(true);
    const before = new Date(`${day}T00:00Z`);
    do before.setUTCDate(before.getUTCDate() - 1);
    while ([0, 6].includes(before.getUTCDay()));
    const sooner = `slot:paint:${before.toISOString().slice(0, 10)}`;
    expect(planFor(applyLever(late, sooner, LIBRARY, LOOKUPS)!).result.fits).toBe(false);
  });

  it('reads hours gained for every lever that makes the slot', () => {
    for (const lever of missed.levers.filter((one) => one.clears.includes('slot-missed'))) {
      expect([lever.id, lever.hoursGained > 0]).toEqual([lever.id, true]);
    }
  });
});
