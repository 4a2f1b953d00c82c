/** Wet work that outlasts its resin or its cups: a helper by the hour, who mixes and hands over. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { plan } from '../../../app/answer/plan.ts';
import { readLeverId, type LeverRef } from '../../../app/document/ids.ts';
import { applyLever } from '../../../app/judge/levers.ts';
import { FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { crewMinutes } from '../../../app/part/labour.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';

/** Two lay less than twice as fast as one: a row of practice. */
const TWO_HANDS = crewMinutes(1, 1, library()) / crewMinutes(1, 2, library()) / 2;

const build = (areaM2: number, names = ['Mina Vale'], hardener = 'slow'): Build => ({
  ...smallBuild(),
  part: {
    zones: [
      { areaM2, outer: [{ cloth: 'carbon-twill-200' }, { cloth: 'carbon-twill-200' }], inner: [] },
    ],
  },
  resin: { system: 'orrin-40', hardener },
  crew: names.map((name) => ({ name })),
  unveiling: '2027-12-01T10:00',
});

const told = (document: Build) => {
  const { result } = plan(document, library(), NOW, FULL_ANSWER);
  const of = (code: string) => result.findings.filter((one) => one.code === code);
  return { result, of };
};

describe('wet work that outlasts its open time by a little', () => {
  const document = build(1.5, ['Mina Vale', 'Tor Aske'], 'fast');
  const before = told(document);
  const lever = before
    .of('open-time-short')[0]!
    .levers.find(({ id }) => readLeverId(id)?.lever === 'wet-helper')!;
  const { helps } = readLeverId(lever.id) as Extract<LeverRef, { lever: 'wet-helper' }>;
  const changed = applyLever(document, lever.id, library(), LOOKUPS)!;
  const after = told(changed);

  it('is held by a helper at the shop’s wage for the hours that the wet work takes', () => {
    expect(helps).toEqual([{ layup: 'skin', hours: 1 }]);
    expect(lever.label).toBe('A helper mixes and hands over at the outer skin, 1 hour in all');
    expect(lever.clears).toEqual(['open-time-short']);
    expect(lever.cost).toBe(4200);
    // Another hand for the whole build stands beside it, and is dearer.
    const hand = before.of('open-time-short')[0]!.levers.find(({ id }) => id === 'another-hand')!;
    expect(hand.cost).toBeGreaterThan(10 * lever.cost);
  });

  it('fits once it is applied and planned anew, with no stop more, and says when they are to be there', () => {
    expect(read(changed).ok).toBe(true);
    expect(before.result.fits).toBe(false);
    expect(after.result.fits).toBe(true);
    expect(after.result.findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
    const [call] = after.of('helper-called');
    const wet = after.result.stages.find(({ id }) => id === 'layup:skin')!;
    expect(call!.message).toMatch(
      /^A helper mixes and hands over at the outer skin, \w+ \d+ \w+, \d\d:\d\d to \d\d:\d\d\. /,
    );
    expect(call!.message).toContain('By the hour that is €42.');
    expect(call!.stage).toBe(wet.id);
  });

  it('takes the mixing of all batches but the first and a share of the laying, and no more', () => {
    const minutesOf = ({ result }: typeof before) => {
      const { start, end } = result.stages.find(({ id }) => id === 'layup:skin')!;
      return isoToMinute(end!)! - isoToMinute(start!)!;
    };
    const batches = before.result.mixes.length;
    const laying = (minutes: number, mixed: number) => minutes * 2 * TWO_HANDS - mixed * 5;
    const alone = laying(minutesOf(before), batches);
    expect(laying(minutesOf(after), 1) / alone).toBeCloseTo(0.85, 1);
    // The helper is nobody of the crew, and no more people lay.
    const people = after.result.stages.find(({ id }) => id === 'layup:skin')!.people;
    expect(people).toHaveLength(2);
  });

  it('cannot be had twice, nor at a layup that has one', () => {
    expect(applyLever(changed, lever.id, library(), LOOKUPS)).toBeNull();
    const offered = after.result.findings.flatMap(({ levers }) => levers.map(({ id }) => id));
    expect(offered.filter((id) => id.startsWith('wet-helper'))).toEqual([]);
  });
});

it('stands beside one who would lay alone, and is no second laminator', () => {
  const rows = library();
  const wanting = {
    ...rows,
    labour: rows.labour.map((row) => (row.stage === 'layup' ? { ...row, peopleMin: 2 } : row)),
  };
  const severityIn = (document: Build) =>
    plan(document, wanting, NOW, FULL_ANSWER)
      .result.findings.filter(({ code }) => code === 'works-alone')
      .map(({ severity }) => severity);
  const alone = build(0.5);
  expect(severityIn(alone)).toEqual(['warn']);
  expect(severityIn({ ...alone, helperFor: ['skin'] })).toEqual(['note']);
});
