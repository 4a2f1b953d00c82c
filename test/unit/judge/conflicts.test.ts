import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { conflictFindings } from '../../../app/judge/conflicts.ts';
import { plan } from '../../../app/answer/plan.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const conflictsOf = (edit: Partial<Build>) =>
  plan({ ...smallBuild(), ...edit } as Build, library(), NOW, FULL_ANSWER).result.findings.filter(
    (finding) => finding.code === 'facts-conflict',
  );

describe('why a build does not fit', () => {
  it('names the painter, the slot, the drying of the paint and the date that leave no room for one another', () => {
    const outside = [{ name: 'Brackwater sprayers', workingDays: 4, slot: '2027-04-28' }];
    const [conflict] = conflictsOf({ outside, unveiling: '2027-05-04T10:00' });
    const facts = Object.values(conflict!.numbers).join('; ');
    expect(facts).toBe(
      'Brackwater sprayers, 4 working days takes 36 h; ' +
        'Paint dries until it takes tape takes 48 h; ' +
        'Brackwater sprayers, 4 working days not before Wednesday 28 April, 08:00; ' +
        'the hours in which the work is open; all is done by Tuesday 4 May, 10:00',
    );
    expect(conflict!.message).toBe(
      `These do not go together: ${facts}. Drop any one of them and the rest fits. ` +
        'That they do not fit together is proven.',
    );
  });

  it('says nothing of a build that fits, nor of a date that is past', () => {
    expect(conflictsOf({})).toEqual([]);
    expect(conflictsOf({ unveiling: '2026-01-05T10:00' })).toEqual([]);
  });

  it('says what each lever would buy, in hours', () => {
    const outside = [{ name: 'Brackwater sprayers', workingDays: 4, slot: '2027-04-28' }];
    const [conflict] = conflictsOf({ outside, unveiling: '2027-05-04T10:00' });
    const gains = new Map(conflict!.levers.map(({ label, hoursGained }) => [label, hoursGained]));
    expect(gains.get('Work Saturdays and Sundays 08:00 to 13:00')).toBe(120.6);
    // It buys a day of many, and the cup that was a note boils before it is spread: no way out.
    expect(gains.get('Use Orrin 40 hardener, fast')).toBeUndefined();
    for (const gain of gains.values()) expect(gain).toBeGreaterThan(0);
  });

  it('lists conflicts that share nothing apart, and says of each whether it is proven', () => {
    const told = conflictFindings(
      [
        {
          facts: [
            { what: 'capacity', resource: 'Pump port', amount: 1 },
            { what: 'length', stage: 'Cure: skin', minutes: 840 },
          ],
          proven: true,
        },
        {
          facts: [{ what: 'air' }, { what: 'hours', of: ['Ann', 'Bo'], away: [] }],
          proven: false,
        },
      ],
      'UTC',
    ).map((finding) => finding.message);
    expect(told).toEqual([
      'These do not go together: Pump port: 1; Cure: skin takes 14 h. ' +
        'Drop any one of them and the rest fits. That they do not fit together is proven.',
      'These do not go together either, whatever is done about those above: dust, wet layup, release and spraying take turns ' +
        'in one room; the hours of Ann and Bo. Drop any one of them and the rest fits. ' +
        'No plan was found that keeps them all; that there is none is not proven.',
    ]);
  });
});
