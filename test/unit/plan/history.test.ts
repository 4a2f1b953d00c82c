import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const apart = { route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } } } as const;
const planned = (build: Build, now = NOW) => plan(build, library(), now, FIRST_ANSWER).result;
const before = planned({ ...smallBuild(), ...apart });

/** All that ends by the end of a stage recorded as it was planned, and the minute of that end. */
function recordedUpTo(id: string): { records: Build['records']; end: number } {
  const last = before.stages.find((stage) => stage.id === id)!;
  const done = before.stages.filter((stage) => stage.end !== null && stage.end <= last.end!);
  const records = done.map(({ id: stage, start, end }) => ({
    stage,
    start: start!.slice(0, 16),
    end: end!.slice(0, 16),
  }));
  return { records, end: isoToMinute(last.end!)! };
}

describe('what the floor has recorded', () => {
  it('lets the cure run on from the sealed bag without a record of its own', () => {
    const { records, end } = recordedUpTo('layup:skin');
    for (const minutes of [1, 300]) {
      const result = planned({ ...smallBuild(), ...apart, records }, end + minutes);
      const cure = result.stages.find((stage) => stage.id === 'cure:skin')!;
      expect(isoToMinute(cure.start!)).toBe(end);
      expect(result.fits).toBe(true);
    }
  });

  it('is planned on from when a window was let pass, and the miss is said', () => {
    const { records, end } = recordedUpTo('release');
    // A fortnight on, the coats have long stopped keeping.
    const result = planned({ ...smallBuild(), ...apart, records }, end + 14 * 1440);
    expect(result.stages.every((stage) => stage.start !== null)).toBe(true);
    const missed = result.findings.filter((finding) => finding.code === 'window-passed');
    expect(missed.map((finding) => finding.stage)).toContain('layup:skin');
    expect(Number(missed[0]!.numbers['hoursLate'])).toBeGreaterThan(24);
    expect(result.fits).toBe(true);
  });

  it('has no miss to tell while the window is open', () => {
    const { records, end } = recordedUpTo('release');
    const result = planned({ ...smallBuild(), ...apart, records }, end + 30);
    expect(result.findings.some((finding) => finding.code === 'window-passed')).toBe(false);
  });
});

describe('a pin that cannot hold', () => {
  it('is a finding with the hours it comes too late', () => {
    const pins = [{ stage: 'trim', start: '2027-04-20T09:00' }];
    const result = planned({ ...smallBuild(), ...apart, pins });
    const [missed] = result.findings.filter((finding) => finding.code === 'pin-missed');
    expect(missed?.stage).toBe('trim');
    expect(missed?.severity).toBe('stop');
    expect(result.fits).toBe(false);
  });
});
