import { describe, expect, test } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { draftRoute, planRoute } from '../../../app/plan/routePlan.ts';
import { startHoursOf, type StartHour } from '../../../app/plan/startHours.ts';
import { apartRoute } from '../../../app/route/routes.ts';
import { startsOfAny } from '../../../app/schedule/network/wetStarts.ts';
import { minuteOf } from '../../../app/shop/sheetData.ts';
import { mixWords, startRuns, startWords } from '../../../app/timeline/startWords.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';

const build = read(smallBuild());
if (!build.ok) throw new Error('the build is not read');
const { result, detail } = plan(build.document, library(), NOW, FIRST_ANSWER);
const context = contextOf(build.document, library(), NOW);
const planned = planRoute(context, draftRoute(context, apartRoute(context.part.layups)), 20);
const ZONE = 'Europe/Lisbon';
const stage = (id: string) => result.stages.find((one) => one.id === id)!;

describe('start hours of a layup', () => {
  const starts = detail.shown!.starts!['layup:skin']!;

  test('agree with the plan: its own start lies in an hour that is good', () => {
    const planned = minuteOf(stage('layup:skin').start!);
    const own = starts.find(({ at, until }) => at <= planned && planned < until)!;
    expect(own.state).toBe('good');
    const cure = result.cures.find(({ id }) => id === stage('layup:skin').cure)!;
    if (own.at === planned) {
      const sealed = minuteOf(stage('layup:skin').end!);
      expect(own.marginMinutes).toBe(minuteOf(cure.bagBy!) - sealed);
      expect(own.gel).toBe(minuteOf(cure.gel!));
    }
  });

  test('lie in the hours of the shop, and the last of a day leave no time for the work', () => {
    for (const { at } of starts) {
      expect(detail.shopHours.some((span) => span.start <= at && at < span.end)).toBe(true);
    }
    expect(starts.filter(({ state }) => state === 'off-hours').length).toBeGreaterThan(0);
    expect(starts.filter(({ state }) => state === 'good').length).toBeGreaterThan(0);
  });

  test('are what the windows of the plan allow, minute by minute', () => {
    const { placed, network } = planned;
    const spec = network.problem.stages.find(({ id }) => id === 'layup:skin')!;
    const mode = spec.modes.find(({ id }) => id === placed.get('layup:skin')!.mode)!;
    const open = startsOfAny([mode]);
    let [good, other] = [0, 0];
    for (const { at, until, state } of startHoursOf(context, planned)['layup:skin']!) {
      for (let minute = at; minute < until; minute++) {
        const isOpen = open.some(({ start, end }) => start <= minute && minute < end);
        expect(`${minute} ${state === 'good'}`).toBe(`${minute} ${isOpen}`);
        if (isOpen) good++;
        else other++;
      }
    }
    expect(good).toBeGreaterThan(100);
    expect(other).toBeGreaterThan(100);
  });
});

const hour = (
  at: string,
  until: string,
  state: StartHour['state'],
  marginMinutes: number,
): StartHour => ({
  ...{ at: minuteOf(at), until: minuteOf(until), state, marginMinutes },
  ...{ gel: minuteOf(at) + 300, off: minuteOf(at) + 1440 },
});

describe('in words', () => {
  const hours = [
    hour('2027-04-28T07:30+01:00', '2027-04-28T08:30+01:00', 'good', 45),
    hour('2027-04-28T08:30+01:00', '2027-04-28T08:47+01:00', 'gel-unseen', 35),
    hour('2027-04-29T07:30+01:00', '2027-04-29T08:00+01:00', 'bag-late', -20),
  ];

  test('an hour says its margin, its gel and when the bag can come off', () => {
    expect(startWords(hours[0]!, ZONE)).toBe(
      'Wed 28 Apr 07:30 to 08:30: good to mix. Mixed 07:30: 45 min before the bag is due, ' +
        'gel from Wed 28 12:30, ' +
        'bag off from Thu 29 07:30.',
    );
    expect(startWords(hours[2]!, ZONE)).toContain('20 min after the bag was due');
  });

  test('when to mix: what is good from the planned start on, and the reason where nothing is', () => {
    const next = hour('2027-04-29T09:00+01:00', '2027-04-29T09:40+01:00', 'good', 10);
    const planned = minuteOf('2027-04-29T09:00+01:00');
    expect(mixWords([...hours, next], planned, ZONE)).toBe(
      'Good to mix: Thu 29 Apr 09:00 to 09:40.',
    );
    expect(mixWords(hours, planned, ZONE)).toBe('Good to mix: Wed 28 Apr 07:30 to 08:30.');
    expect(mixWords(hours.slice(1), planned, ZONE)).toBe(
      'No start is good here: nobody would see the gel.',
    );
    const many = [0, 1, 2, 3, 4].map((day) => ({
      ...next,
      at: next.at + day * 1440,
      until: next.until + day * 1440,
    }));
    expect(mixWords(many, planned, ZONE)).toMatch(/; Sat 1 May 09:00 to 09:40; 2 more\.$/);
  });

  test('each stretch says from when to when, exact to the minute', () => {
    expect(startRuns(hours, ZONE)).toEqual([
      'Wed 28 Apr 07:30 to 08:30: good to mix.',
      'Wed 28 Apr 08:30 to 08:47: nobody would see the gel.',
      'Thu 29 Apr 07:30 to 08:00: the bag would be down too late.',
    ]);
  });
});
