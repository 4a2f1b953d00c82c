import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { actualsOf } from '../../../app/shop/floor/actuals.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const document: Build = {
  ...smallBuild(),
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
};
const at = (build: Build, now = NOW) => plan(build, library(), now, FIRST_ANSWER);
const before = at(document);
const skin = before.result.stages.find(({ id }) => id === 'layup:skin')!;
const mixes = before.result.mixes.filter(({ cure }) => cure === 'skin');

describe('what was written down beside what was planned', () => {
  const record = {
    stage: 'layup:skin',
    start: skin.start!.slice(0, 16),
    end: skin.end!.slice(0, 16),
    people: ['person-1'],
    workedMinutes: 200,
    massKg: 3.2,
    mixes: mixes.map(({ batch, mixAt, totalG }) => ({
      batch,
      at: mixAt!.slice(0, 16),
      massG: totalG + 10,
    })),
  };
  const outcome = at({ ...document, records: [record] }, isoToMinute(skin.end!)! + 60);
  const seen = actualsOf(outcome);

  it('holds hours as worked, not as the clock ran, against the hours of the rates', () => {
    const layup = outcome.detail.part.layups.find(({ id }) => id === 'skin')!;
    expect(seen.minutes).toEqual({ planned: layup.personMinutes, worked: 200 });
    const clocked = actualsOf(
      at({ ...document, records: [{ ...record, workedMinutes: null }] }, NOW + 60 * 1440),
    );
    expect(clocked.minutes.worked).not.toBe(200);
    expect(clocked.minutes.worked).toBeLessThanOrEqual(
      isoToMinute(skin.end!)! - isoToMinute(skin.start!)!,
    );
  });

  it('holds grams batch by batch and the last weighing', () => {
    const [one] = seen.stages;
    expect(one!.grams!.batches).toBe(mixes.length);
    expect(one!.grams!.mixed - one!.grams!.planned).toBeCloseTo(10 * mixes.length, 6);
    expect(seen.massKg).toEqual({ planned: outcome.result.totals.massKg, weighed: 3.2 });
  });

  it('says nothing where nothing was written down', () => {
    expect(actualsOf(before)).toMatchObject({ stages: [], massKg: { weighed: null } });
  });
});
