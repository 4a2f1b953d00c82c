import { describe, expect, it } from 'vitest';
import type { PlanResult } from '../../../app/document/schema.ts';
import { applyLever } from '../../../app/judge/levers.ts';
import { afterWords, belowWords } from '../../../app/messages/levers.ts';
import { FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { plan } from '../../../app/answer/plan.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { glanceAt } from '../../../app/shop/glance.ts';
import { summaryOf } from '../../../main/command/summary.ts';
import { library, sampleOf } from '../../support/builds.ts';
import { tally } from '../../support/draws.ts';

/** As many stops and warnings of each code as there are. */
const graveOf = ({ findings }: PlanResult, code: string) =>
  findings.filter((one) => one.code === code && one.severity !== 'note').length;
const codesOf = ({ findings }: PlanResult) => new Set(findings.map(({ code }) => code));
const stopsOf = ({ findings }: PlanResult) =>
  new Set(findings.filter(({ severity }) => severity === 'stop').map(({ code }) => code));

/** What the header names is listed below it, does there what the header says, and the command prints the list. */
function expectNoContradiction(result: PlanResult) {
  const { headline, detail } = glanceAt(result).force;
  const own = result.findings.filter(({ code }) => code !== 'merge-forced');
  const levers = own.flatMap((finding) => finding.levers);
  const named = levers.find(({ label }) => label === headline);
  const fitting = levers.filter(({ after }) => after!.fits);
  if (!result.fits && fitting.length > 0) expect(named?.after?.fits).toBe(true);
  if (named?.after?.fits) {
    expect(named.cost).toBe(Math.min(...fitting.map(({ cost }) => cost)));
    expect(detail).not.toContain('another stop stays');
  }
  if (headline === 'Nothing known helps') expect(levers).toEqual([]);
  const printed = summaryOf(result).split('\n');
  for (const lever of levers) {
    const line = printed.find((one) => one.startsWith(`  Way out: ${lever.label}: gains`));
    expect([lever.label, line]).toEqual([lever.label, expect.stringMatching(/ Now: .* Then: /)]);
  }
  for (const one of own.filter((finding) => belowWords(finding) !== '')) {
    expect(printed).toContain(`  ${belowWords(one)}`);
  }
}

describe('a way out that is offered', () => {
  const seen = tally('clears something', 'makes it fit', 'only buys time', 'named at a glance');

  it.each([
    ['harbour-gate-sign', '2027-02-01T08:00Z'],
    ['wren-sound-shell', '2027-04-29T08:00Z'],
  ])(
    'of %s at %s clears what it claims and adds no stop when all is planned again',
    { timeout: 300_000 },
    (name, now) => {
      const document = sampleOf(name);
      const minute = isoToMinute(now)!;
      const before = plan(document, library(), minute, FULL_ANSWER).result;
      const levers = before.findings.flatMap((finding) => finding.levers);
      expectNoContradiction(before);
      if (!before.fits) seen.saw('named at a glance');
      const distinct = new Map(levers.map((lever) => [`${lever.id} ${lever.clears}`, lever]));
      const planned = new Map<string, PlanResult>();
      for (const lever of distinct.values()) {
        const changed = applyLever(document, lever.id, library(), LOOKUPS)!;
        const after = planned.get(lever.id) ?? plan(changed, library(), minute, FULL_ANSWER).result;
        planned.set(lever.id, after);
        const left = lever.clears.filter((code) => {
          const [had, has] = [graveOf(before, code), graveOf(after, code)];
          return had === 0 ? codesOf(after).has(code) : has >= had;
        });
        expect([lever.id, left]).toEqual([lever.id, []]);
        const added = [...stopsOf(after)].filter((code) => !stopsOf(before).has(code));
        expect([lever.id, added]).toEqual([lever.id, []]);
        if (lever.clears[0] !== 'merge-forced') {
          const cures = before.route.cures.map((cure) => cure.name);
          expect(lever.before).toMatchObject({ fits: before.fits, route: cures });
          expect(lever.after!.cost! - lever.before!.cost!).toBe(lever.cost);
        }
        if (lever.after!.fits) expect([lever.id, after.fits]).toEqual([lever.id, true]);
        if (lever.after!.fits) seen.saw('makes it fit');
        seen.saw(lever.clears.length > 0 ? 'clears something' : 'only buys time');
      }
    },
  );

  it('was each of the kinds that there are', () => seen.expectEach(1));
});

describe('what a way out leads to', () => {
  it('is told as the header tells it', () => {
    expect(afterWords({ fits: true, lateMinutes: -200, stops: 0 })).toBe(
      'Then it fits, 3.3 h to spare.',
    );
    // A booked slot that is met as booked has nothing to spare, and nothing is wrong with it.
    expect(afterWords({ fits: true, lateMinutes: 0, stops: 0 })).toBe('Then it fits.');
    expect(afterWords({ fits: false, lateMinutes: 600, stops: 1 })).toBe(
      'Then it is still 10 h late.',
    );
    expect(afterWords({ fits: false, lateMinutes: 0, stops: 1 })).toBe(
      'Then it does not fit yet: one stop is left.',
    );
    expect(afterWords({ fits: false, lateMinutes: null, stops: 2 })).toBe(
      'Then it still has no plan.',
    );
  });
});
