/** Closing times as the date and the clock move, and the words for them. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { closingWords } from '../../../app/messages/closing.ts';
import { whyImpossible } from '../../../app/judge/possible.ts';
import { wetFaultsOf } from '../../../app/plan/wetWindows.ts';
import { draftRoute, planRoute } from '../../../app/plan/routePlan.ts';
import { enumerateRoutes } from '../../../app/route/routes.ts';
import type { Closing } from '../../../app/schedule/closing.ts';
import { closingTime } from '../../support/closing.ts';
import { isoToMinute, minuteToIso } from '../../../app/time/zone.ts';
import { addDays } from '../../support/builds.ts';
import { codesOf, contextFor, NOW, planFor, ROOMY } from './builds.ts';

/** Hours without a break, so that no test depends on where lunch falls. */
const LONG: [string, string][] = [['07:00', '19:00']];
const HOURS = { mon: LONG, tue: LONG, wed: LONG, thu: LONG, fri: LONG };
const BUILD: Build = {
  ...ROOMY,
  crew: [
    { name: 'Ida Moss', hours: HOURS },
    { name: 'Per Lunde', hours: HOURS },
  ],
  outside: [{ id: 'paint', name: 'Spray shop', workingDays: 4 }],
  unveiling: '2027-05-24T18:00',
};

/** Closing times of every route that can be done. */
function closings(document: Build): Map<string, Closing> {
  const context = contextFor(document);
  return new Map(
    enumerateRoutes(context.part.layups).flatMap((route) => {
      const draft = draftRoute(context, route);
      if (whyImpossible(context, draft, wetFaultsOf(context, draft)).length > 0) return [];
      const { problem } = planRoute(context, draft, 0).network;
      return [[route.id, closingTime({ ...problem, from: context.first })]];
    }),
  );
}

/** Whether the route with this id fits when nothing is begun before `now`. */
function fitsAt(document: Build, id: string, now: number): boolean {
  const context = contextFor(document, now);
  const route = enumerateRoutes(context.part.layups).find((one) => one.id === id)!;
  return planRoute(context, draftRoute(context, route), 1).schedule.fits;
}

const onDay = (days: number): Build => ({
  ...BUILD,
  unveiling: `${addDays('2027-05-24', -days)}T18:00`,
});

describe('closing times', () => {
  it('move no later as the date is stepped back a day at a time', () => {
    let before = closings(onDay(0));
    for (let days = 1; days <= 14; days++) {
      const now = closings(onDay(days));
      for (const [id, closing] of now) {
        const was = before.get(id)!.minute;
        if (closing.minute === null) continue;
        expect([id, days, was !== null && closing.minute <= was]).toEqual([id, days, true]);
      }
      before = now;
    }
  });

  it('a route once closed stays closed', () => {
    const closed = new Set<string>();
    for (let days = 0; days <= 30; days += 2) {
      for (const [id, { minute }] of closings(onDay(days))) {
        const open = minute !== null && minute >= NOW;
        expect([id, days, open && closed.has(id)]).toEqual([id, days, false]);
        if (!open) closed.add(id);
      }
    }
    expect(closed.size).toBeGreaterThan(1);
  });

  it('are the last minute that fits: at it the route fits, a minute later not where proven', () => {
    for (const [id, { minute, proven }] of closings(BUILD)) {
      if (minute === null) continue;
      expect([id, fitsAt(BUILD, id, minute)]).toEqual([id, true]);
      if (proven) expect([id, fitsAt(BUILD, id, minute + 1)]).toEqual([id, false]);
    }
  });

  it('hold for the whole answer: a chosen route fits at its closing time and is closed after it', () => {
    const pinned = { ...BUILD, route: { joints: {} } };
    const { minute } = closings(BUILD).get('skin/core/inner')!;
    expect(planFor(pinned, 'full', minute!).result.fits).toBe(true);
    const after = planFor(pinned, 'full', minute! + 3 * 1440).result;
    expect(after.fits).toBe(false);
    expect(after.routes.find((route) => route.id === 'skin/core/inner')!.open).toBe(false);
    expect([...codesOf(after.findings)]).toContain('route-closed');
  });

  it('are sharp where they are proven: the sample shell a minute later', () => {
    const url = new URL('../../../samples/shell-6kg.build.json', import.meta.url);
    const sample = JSON.parse(readFileSync(url, 'utf8')) as Build;
    const route = planFor(sample, 'full').result.routes[0]!;
    expect([route.possible, route.closesProven]).toEqual([true, true]);
    const closes = isoToMinute(route.closes!)!;
    const pinned = { ...sample, route: { joints: route.joints } };
    expect(planFor(pinned, 'first', closes).result.fits).toBe(true);
    expect(planFor(pinned, 'first', closes + 1).result.fits).toBe(false);
  });

  it('never name a moment before work may begin: such a route has no time at all', () => {
    const { minute } = closings(BUILD).get('skin/core/inner')!;
    const { result } = planFor(
      { ...BUILD, earliestStart: minuteToIso(minute! + 1440, BUILD.zone).slice(0, 16) },
      'full',
    );
    const route = result.routes.find((one) => one.id === 'skin/core/inner')!;
    expect(route).toMatchObject({ closes: null, open: false, fits: false });
    expect(route.closingWords!.closes).toMatch(/would have to begin by .*; work begins /);
  });

  it('come with a plan: at a proven one the whole answer fits however little it searches', () => {
    const { routes } = planFor(BUILD, 'full').result;
    const proven = routes.filter((route) => route.possible && route.closesProven && route.closes);
    expect(proven.length).toBeGreaterThan(1);
    for (const { id, joints, closes } of proven) {
      const { result } = planFor({ ...BUILD, route: { joints } }, 'full', isoToMinute(closes!)!);
      expect([id, result.fits]).toEqual([id, true]);
    }
  });

  it('are at least now where the plan that is taken fits', () => {
    for (const document of [BUILD, onDay(3), onDay(6)]) {
      const { result } = planFor(document, 'full');
      const taken = result.routes.find((route) => route.id === result.route.id)!;
      if (!result.fits) continue;
      expect(taken.open).toBe(true);
      expect(isoToMinute(taken.closes!)!).toBeGreaterThanOrEqual(NOW);
    }
  });

  it('merging never closes earlier than the separate cures it replaces', () => {
    const all = closings(BUILD);
    const apart = all.get('skin/core/inner')!.minute!;
    for (const [id, { minute }] of all) {
      if (!id.includes('+') || id.includes('~') || minute === null) continue;
      expect([id, minute >= apart]).toEqual([id, true]);
    }
  });
});

describe('what the date forces', () => {
  const dates = Array.from({ length: 24 }, (_, i) => onDay(i));
  const fits = (document: Build) => planFor(document, 'first').result;
  const merged = dates.find((document) => {
    const result = fits(document);
    return result.fits && result.route.cures.length < 3;
  });

  it('is told with cures, moment, price and levers', () => {
    expect(merged).toBeDefined();
    const { result } = planFor(merged!, 'full');
    const told = result.findings.find((finding) => finding.code === 'merge-forced')!;
    // Forced are the separate cures alone, where another way of joining them makes the date as well.
    expect(told.message).toMatch(
      /^The date (forces the .* (into one bag with|onto the tacky) |leaves no time for separate cures; planned is the .*makes the date as well\.)/,
    );
    expect(told.message).toMatch(/Separate cures closed \w+day \d+ \w+, \d\d:\d\d/);
    expect(told.message).not.toMatch(/\b0 kg|about -|\b0 min\b/);
    expect(told.levers.length).toBeGreaterThan(0);
    expect(told.levers.some((lever) => lever.clears.includes('merge-forced'))).toBe(true);
    for (const lever of told.levers.filter((one) => one.clears.length > 0)) {
      expect([lever.id, lever.hoursGained > 0]).toEqual([lever.id, true]);
    }
  });

  it('is not told while there is room', () => {
    expect([...codesOf(planFor(BUILD, 'full').result.findings)]).not.toContain('merge-forced');
  });

  it('a chosen route that closed long ago says so and offers merges that fit', () => {
    const chosen = { ...merged!, route: { joints: {} } };
    const { result } = planFor(chosen, 'full');
    expect(result.fits).toBe(false);
    expect([...codesOf(result.findings)]).toContain('route-closed');
    const late = result.findings.find((finding) => finding.code === 'date-missed')!;
    const merges = late.levers.filter((lever) => lever.id.startsWith('route:'));
    expect(merges.length).toBeGreaterThan(0);
    for (const lever of merges) expect(lever.clears).toContain('date-missed');
  });

  it('a route about to close is told ahead, and not long before', () => {
    const { minute } = closings(BUILD).get('skin/core/inner')!;
    const day = 24 * 60;
    expect([...codesOf(planFor(BUILD, 'full', minute! - day).result.findings)]).toContain(
      'route-closing',
    );
    expect([...codesOf(planFor(BUILD, 'full', minute! - 4 * day).result.findings)]).not.toContain(
      'route-closing',
    );
  });
});

describe('words for a closing', () => {
  const boundaries = [
    {
      id: 'skin-core',
      before: { id: 'skin', name: 'Outer skin' },
      after: { id: 'core', name: 'Core bond' },
    },
    {
      id: 'core-inner',
      before: { id: 'core', name: 'Core bond' },
      after: { id: 'inner', name: 'Inner skin' },
    },
  ];
  const APART = { 'skin-core': 'apart', 'core-inner': 'apart' } as const;
  const thursday = 30139980; // Thursday 22 April 2027, 14:00 in Lisbon
  const routes = [
    { id: 'a', joints: APART, possible: true, closes: thursday },
    {
      id: 'b',
      joints: { ...APART, 'core-inner': 'tack' },
      possible: false,
      closes: thursday + 900,
    },
    {
      id: 'c',
      joints: { ...APART, 'skin-core': 'one-bag' },
      possible: true,
      closes: thursday + 600,
    },
  ] as const;
  const say = (id: string, now = thursday - 60) =>
    closingWords(routes, id, boundaries, 'Europe/Lisbon', now);

  it('name the moment and what has to happen after it', () => {
    expect(say('a')).toEqual({
      closes: 'Separate cures close Thursday 22 April, 14:00.',
      after: 'After that the core has to be bonded in the same cure as the outer skin.',
    });
  });

  it('speak of the past once it has passed', () => {
    expect(say('a', thursday + 1)!.closes).toBe('Separate cures closed Thursday 22 April, 14:00.');
  });

  it('say when nothing is left', () => {
    expect(say('c')!.after).toBe('After that nothing fits without more time, heat or people.');
    expect(say('b')!.closes).toBe(
      'The route with the inner skin on the tacky core bond closes Friday 23 April, 05:00.',
    );
  });

  it('speak of plies as many and of the way back to a cured skin', () => {
    const local = { id: 'local', name: 'Local plies between the skins' };
    const skin = { id: 'skin', name: 'Outer skin' };
    const one = [{ id: 'skin-local', before: skin, after: local }];
    const said = closingWords(
      [
        { id: 'tack', joints: { 'skin-local': 'tack' }, possible: true, closes: thursday },
        { id: 'bag', joints: { 'skin-local': 'one-bag' }, possible: true, closes: thursday + 60 },
      ],
      'tack',
      one,
      'Europe/Lisbon',
      thursday + 1,
    );
    expect(said!.after).toBe(
      'Since then the local plies between the skins have had to be laid in the same cure as the outer skin.',
    );
  });

  it('are silent while no closing time is known', () => {
    expect(closingWords([{ ...routes[0], closes: null }], 'a', boundaries, 'UTC', 0)).toBeNull();
  });
});
