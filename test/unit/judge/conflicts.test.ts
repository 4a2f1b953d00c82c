import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/build/schema.ts';
import { FULL_ANSWER } from '../../../app/outcome.ts';
import { plan } from '../../../app/plan.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const conflictsOf = (edit: Partial<Build>) =>
  plan({ ...smallBuild(), ...edit } as Build, library(), NOW, FULL_ANSWER).result.findings.filter(
    (finding) => finding.code === 'facts-conflict',
  );

describe('why a build does not fit', () => {
  it('names the painter, the order and the date that leave no room for one another', () => {
    const outside = [{ name: 'Brackwater sprayers', workingDays: 4, slot: '2027-04-28' }];
    const [conflict] = conflictsOf({ outside, unveiling: '2027-05-04T10:00' });
    const facts = Object.values(conflict!.numbers).join('; ');
    expect(facts).toContain('Brackwater sprayers');
    expect(facts).toContain('Order and wait for material');
    expect(facts).toContain('Tuesday 4 May, 10:00');
    expect(conflict!.message).toContain('Drop any one of them and the rest fits.');
  });

  it('says nothing of a build that fits, nor of a date that is past', () => {
    expect(conflictsOf({})).toEqual([]);
    expect(conflictsOf({ unveiling: '2026-01-05T10:00' })).toEqual([]);
  });
});
