import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER, FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const EVENINGS = {
  mon: [['16:30', '20:00']],
  tue: [['16:30', '20:00']],
  wed: [['16:30', '20:00']],
  thu: [['16:30', '20:00']],
  fri: [['16:30', '20:00']],
} as const;
const mayStay = (build: Build): Build => ({
  ...build,
  crew: build.crew.map((person) => ({ ...person, overtime: EVENINGS as never })),
});
const planned = (build: Build, effort = FIRST_ANSWER) => plan(build, library(), NOW, effort).result;

/** A minute sooner than the usual hours can make it. */
const usual = planned(smallBuild());
const end = isoToMinute(usual.stages.reduce((a, b) => (b.end! > a.end! ? b : a)).end!)!;
const tight = {
  unveiling: new Date((end + 60 - 90) * 60_000).toISOString().slice(0, 16),
  route: { joints: usual.routes.find((r) => r.id === usual.route.id)!.joints },
};

describe('overtime by permission', () => {
  it('changes nothing where the date is met without it', () => {
    expect(planned(mayStay(smallBuild()))).toEqual(usual);
  });

  it('makes a date that the usual hours miss, and says who stays how long and what it costs', () => {
    expect(planned({ ...smallBuild(), ...tight }).fits).toBe(false);
    for (const effort of [FIRST_ANSWER, FULL_ANSWER]) {
      const result = planned(mayStay({ ...smallBuild(), ...tight }), effort);
      expect(result.fits).toBe(true);
      const note = result.findings.find((finding) => finding.code === 'overtime-used')!;
      expect(Number(note.numbers['overtimeHours'])).toBeGreaterThan(0);
      expect(note.message).toMatch(/(Mina Vale|Tor Aske).*€/);
    }
  });

  it('thinks longer to stay no longer than it must', () => {
    const hours = (effort: typeof FIRST_ANSWER) =>
      Number(
        planned(mayStay({ ...smallBuild(), ...tight }), effort).findings.find(
          (finding) => finding.code === 'overtime-used',
        )!.numbers['overtimeHours'],
      );
    expect(hours(FULL_ANSWER)).toBeLessThanOrEqual(hours(FIRST_ANSWER));
  });
});
