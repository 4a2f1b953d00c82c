import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { writeRecords } from '../../../app/document/edit/records.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { byDay, lastKnownAt, unansweredSince } from '../../../app/shop/floor/gap.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const document: Build = {
  ...smallBuild(),
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
};
const at = (build: Build, now: number) => plan(build, library(), now, FIRST_ANSWER);
const then = at(document, NOW);
const stage = (id: string) => then.result.stages.find((one) => one.id === id)!;
const laid = stage('layup:skin');

describe('since somebody last looked', () => {
  const now = isoToMinute(laid.start!)! + 10;
  const asked = unansweredSince(then, then.detail.build, now);

  it('everything planned to begin before now is asked about, with its planned times', () => {
    const due = then.result.stages.filter((one) => isoToMinute(one.start!)! < now);
    const waits = due.filter(({ kind }) => kind === 'wait').map(({ id }) => id);
    expect(asked.map((one) => one.stage)).toEqual(
      due.map(({ id }) => id).filter((id) => !waits.includes(id)),
    );
    const release = asked.find((one) => one.stage === 'release')!;
    expect(release.asPlanned).toMatchObject({
      start: stage('release').start!.slice(0, 16),
      end: stage('release').end!.slice(0, 16),
    });
  });

  it('what should still be going has no end yet', () => {
    const layup = asked.find((one) => one.stage === 'layup:skin')!;
    expect(layup.asPlanned.end).toBeNull();
  });

  it('comes in days, the first first, none twice', () => {
    const days = byDay(asked);
    expect(days.length).toBeGreaterThan(3);
    expect(days.map(([day]) => day)).toEqual([...days.map(([day]) => day)].sort());
    expect(days.reduce((sum, [, list]) => sum + list.length, 0)).toBe(asked.length);
  });

  it('answered as planned by the day leaves nothing to ask, and the plan where it was', () => {
    let built = document;
    for (const [day, list] of byDay(asked)) {
      const entries = list.map(({ asPlanned }) => asPlanned);
      built = writeRecords(built, entries, day).document as Build;
    }
    const after = at(built, now);
    expect(unansweredSince(then, after.detail.build, now)).toEqual([]);
    const end = (outcome: typeof then) => outcome.result.stages.at(-1)!.end;
    expect(end(after)).toBe(end(then));
    expect(after.result.stages.some(({ state }) => state === 'implied')).toBe(false);
  });

  it('asks again for the end of what was only begun', () => {
    const begun = asked.find((one) => one.stage === 'layup:skin')!.asPlanned;
    const built = writeRecords(document, [begun], 'begun').document as Build;
    const later = isoToMinute(laid.end!)! + 60;
    const again = unansweredSince(then, at(built, later).detail.build, later);
    expect(again.find((one) => one.stage === 'layup:skin')?.asPlanned).toMatchObject({
      start: begun.start,
      end: laid.end!.slice(0, 16),
    });
  });

  it('is counted from the last record or printing for a build that was never open here', () => {
    expect(lastKnownAt(then.detail.build)).toBeNull();
    const records = [{ stage: 'mould', start: '2027-04-20T08:00', end: '2027-04-20T12:00' }];
    const built = at(
      { ...document, records, printed: { at: '2027-04-19T07:00', stages: [] } },
      NOW,
    );
    expect(lastKnownAt(built.detail.build)).toBe(isoToMinute('2027-04-20T12:00+01:00'));
  });
});
