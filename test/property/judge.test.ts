/** Whatever the build: an answer that parses, the same twice, that never improves as the date comes closer. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planResultSchema, type Build } from '../../app/document/schema.ts';
import { FINDINGS } from '../../app/messages/findings.ts';
import { addDays } from '../support/builds.ts';
import { contextFor, LIBRARY, NOW, planFor } from '../unit/judge/builds.ts';
import { judge } from '../../app/answer/judgement.ts';
import { oddsNow } from '../../app/answer/odds.ts';
import { violations } from '../../app/schedule/check.ts';
import { forAll, tally } from '../support/draws.ts';

/** Mostly what a shop would bring, seldom what nothing can be planned for. */
const mostly = <T>(usual: fc.Arbitrary<T>, odd: fc.Arbitrary<T>): fc.Arbitrary<T> =>
  fc.oneof({ arbitrary: usual, weight: 6 }, { arbitrary: odd, weight: 1 });

const cloth = fc.constantFrom('glass-twill-300', 'carbon-twill-200');
const plies = fc.array(fc.record({ cloth, angleDeg: fc.constantFrom(0, 45, 90) }), {
  minLength: 1,
  maxLength: 3,
});
const zone = fc.record({
  areaM2: mostly(
    fc.double({ min: 0.2, max: 0.8, noNaN: true }),
    fc.double({ min: 0.8, max: 4, noNaN: true }),
  ),
  shape: fc.constantFrom('flat', 'single', 'double'),
  vertical: fc.boolean(),
  outer: plies,
  core: fc.option(
    fc.record({ material: fc.constant('pvc-80'), thicknessMm: fc.constantFrom(5, 10) }),
  ),
  inner: plies,
  local: fc.array(
    fc.record({ cloth, place: fc.constantFrom('between', 'after'), areaM2: fc.constant(0.1) }),
    { maxLength: 1 },
  ),
  closeout: fc.option(fc.record({ plies })),
});
const build = fc.record({
  days: fc.integer({ min: -5, max: 90 }),
  finish: fc.constantFrom('clear', 'painted', 'hidden'),
  zones: mostly(fc.array(zone, { minLength: 1, maxLength: 2 }), fc.constant<never[]>([])),
  people: mostly(fc.integer({ min: 2, max: 3 }), fc.integer({ min: 0, max: 1 })),
  hardener: fc.constantFrom('fast', 'medium', 'slow'),
  day: mostly(fc.integer({ min: 19, max: 26 }), fc.integer({ min: 8, max: 28 })),
  tent: fc.boolean(),
  slotDays: fc.option(fc.integer({ min: 5, max: 60 })),
  route: fc.constantFrom('best', 'apart', 'one-bag'),
  question: fc.boolean(),
  structural: fc.boolean(),
  innerHardener: fc.option(fc.constantFrom('fast', 'medium', 'slow')),
  heated: fc.option(fc.constantFrom('skin', 'core', 'inner', 'closeout')),
  visits: fc.constantFrom('one', 'two', 'edge-between'),
});
type Drawn = typeof build extends fc.Arbitrary<infer T> ? T : never;

const NAMES = ['Ida Moss', 'Per Lunde', 'Ana Reyes'];
function documentOf(drawn: Drawn, days = drawn.days): Build {
  const slot = drawn.slotDays === null ? null : addDays('2027-04-19', drawn.slotDays);
  return {
    name: 'Drawn',
    zone: 'Europe/Lisbon',
    unveiling: `${addDays('2027-04-19', days)}T18:00`,
    part: {
      finish: drawn.finish,
      structural: drawn.structural,
      zones: drawn.zones,
      questions: drawn.question ? [{ id: 'q', text: 'Which?', before: 'layup' }] : [],
    },
    resin: {
      system: 'orrin-40',
      hardener: drawn.hardener,
      hardenerFor: drawn.innerHardener === null ? {} : { inner: drawn.innerHardener },
    },
    heat:
      drawn.heated === null
        ? []
        : [
            {
              layup: drawn.heated,
              steps: [{ temperatureC: 40, rampKPerHour: 10, holdHours: 8 }],
            },
          ],
    room: {
      temperatureC: { day: drawn.day, night: drawn.day - 3 },
      tent: drawn.tent ? { maxC: 60 } : null,
    },
    crew: NAMES.slice(0, drawn.people).map((name) => ({ name })),
    outside: [
      ...(drawn.visits === 'one' ? [] : [{ id: 'first', name: 'First visit', workingDays: 1 }]),
      { id: 'paint', name: 'Spray shop', workingDays: 3, slot },
    ],
    closeoutAfter: drawn.visits === 'edge-between' ? 'first' : null,
    ...(drawn.route === 'best'
      ? {}
      : { route: { joints: drawn.route === 'apart' ? {} : { 'skin-core': 'one-bag' } } }),
  } as Build;
}

/** The same build without what forbids it: no slot, no open question, no odd room, months to go. */
const unhurried = (drawn: Drawn): Drawn => ({
  ...drawn,
  days: 90,
  slotDays: null,
  question: false,
  structural: false,
  heated: null,
  route: 'best',
  finish: 'hidden',
  visits: 'one',
  people: 3,
  day: 22,
});

describe('any build', () => {
  it('gets a plan that keeps every rule of its own problem, or none', () => {
    const seen = tally('placed');
    forAll(
      fc.property(build, (drawn) => {
        const document = documentOf(drawn);
        const first = { scope: 'first', schedules: 1 } as const;
        const { taken } = judge(contextFor(document), document, LIBRARY, first);
        if (taken.schedule.placed.length === 0) return;
        seen.saw('placed');
        expect(violations(taken.network.problem, taken.schedule.placed)).toEqual([]);
      }),
      { seed: 1, seen, least: 20, numRuns: 60 },
    );
  });

  it('gets a first answer that parses, with known codes, the same twice', () => {
    const seen = tally('fits', 'does not fit');
    forAll(
      fc.property(build, (drawn) => {
        const document = documentOf(drawn);
        const { result } = planFor(document);
        planResultSchema.parse(result);
        seen.saw(result.fits ? 'fits' : 'does not fit');
        expect(JSON.stringify(planFor(document).result)).toBe(JSON.stringify(result));
        for (const finding of result.findings) {
          expect(Object.keys(FINDINGS)).toContain(finding.code);
          expect(finding.message).not.toMatch(/undefined|NaN|Infinity|null/);
        }
      }),
      { seed: 2, seen, numRuns: 60 },
    );
  });

  it('gets a full answer whose parts agree', () => {
    const seen = tally('fits', 'impossible route', 'finding with a lever');
    forAll(
      fc.property(fc.oneof(build, build.map(unhurried)), (drawn) => {
        const { result } = planFor(documentOf(drawn), 'full');
        planResultSchema.parse(result);
        const taken = result.routes.find((route) => route.id === result.route.id);
        if (result.fits) {
          seen.saw('fits');
          expect(taken?.possible).toBe(true);
          expect(result.findings.filter((finding) => finding.severity === 'stop')).toEqual([]);
        }
        for (const route of result.routes) {
          if (route.possible) continue;
          seen.saw('impossible route');
          expect([route.fits, route.findings.length > 0]).toEqual([false, true]);
        }
        for (const finding of result.findings) {
          if (finding.levers.length > 0) seen.saw('finding with a lever');
          for (const lever of finding.levers) {
            expect(Number.isFinite(lever.hoursGained)).toBe(true);
            if (lever.clears.includes('date-missed')) expect(lever.hoursGained).toBeGreaterThan(0);
          }
        }
      }),
      { seed: 3, seen, numRuns: 8 },
    );
  });

  it('is no less late with a day less', () => {
    const seen = tally('late', 'in time');
    forAll(
      fc.property(build, (drawn) => {
        const late = (days: number) => {
          const context = contextFor(
            documentOf({ ...drawn, slotDays: null, route: 'apart' }, days),
          );
          const document = documentOf({ ...drawn, slotDays: null, route: 'apart' }, days);
          return judge(context, document, LIBRARY, { scope: 'first', schedules: 1 }).taken
            .lateMinutes;
        };
        const [more, less] = [late(40), late(39)];
        if (more === null || less === null) return;
        seen.saw(less > 0 ? 'late' : 'in time');
        expect(less).toBeGreaterThanOrEqual(more);
      }),
      { seed: 4, seen, numRuns: 30 },
    );
  });

  it('has odds between never and always, of whatever can be placed', () => {
    const seen = tally('odds', 'nothing placed');
    forAll(
      fc.property(build, (drawn) => {
        const document = documentOf(drawn);
        const context = contextFor(document, NOW);
        const { taken } = judge(context, document, LIBRARY, { scope: 'first', schedules: 1 });
        const odds = oddsNow(context, taken, { replays: 60 });
        expect(odds === null).toBe(taken.schedule.placed.length === 0);
        seen.saw(odds ? 'odds' : 'nothing placed');
        if (!odds) return;
        expect(odds.onTimeCounted).toBeGreaterThanOrEqual(0);
        expect(odds.onTimeCounted).toBeLessThanOrEqual(1);
        expect(odds.sentences.join(' ')).not.toMatch(/undefined|NaN|Infinity/);
      }),
      { seed: 5, seen, numRuns: 40 },
    );
  });
});
