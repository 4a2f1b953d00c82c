import { describe, expect, test } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { START_STEP_MINUTES, type StartHour } from '../../../app/plan/startHours.ts';
import { minuteOf } from '../../../app/shop/sheetData.ts';
import { startRuns, startWords } from '../../../app/timeline/startWords.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';

const build = read(smallBuild());
if (!build.ok) throw new Error('the build is not read');
const { result, detail } = plan(build.document, library(), NOW, FIRST_ANSWER);
const ZONE = 'Europe/Lisbon';
const stage = (id: string) => result.stages.find((one) => one.id === id)!;

describe('start hours of a layup', () => {
  const starts = detail.shown!.starts!['layup:skin']!;

  test('agree with the plan: its own start lies in an hour that is good', () => {
    const planned = minuteOf(stage('layup:skin').start!);
    const own = starts.find(({ at }) => at <= planned && planned < at + START_STEP_MINUTES)!;
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
});

const hour = (at: string, state: StartHour['state'], marginMinutes: number): StartHour => ({
  ...{ at: minuteOf(at), state, marginMinutes },
  ...{ gel: minuteOf(at) + 300, off: minuteOf(at) + 1440 },
});

describe('in words', () => {
  const hours = [
    hour('2027-04-28T07:30+01:00', 'good', 45),
    hour('2027-04-28T08:00+01:00', 'good', 40),
    hour('2027-04-28T08:30+01:00', 'gel-unseen', 35),
    hour('2027-04-29T07:30+01:00', 'bag-late', -20),
  ];

  test('an hour says its margin, its gel and when the bag can come off', () => {
    expect(startWords(hours[0]!, ZONE)).toBe(
      'Wed 28 Apr 07:30: good to mix, 45 min before the bag is due, gel from Wed 28 12:30, ' +
        'bag off from Thu 29 07:30.',
    );
    expect(startWords(hours[3]!, ZONE)).toContain('20 min after the bag was due');
  });

  test('hours that are alike are said together, day by day', () => {
    expect(startRuns(hours, ZONE)).toEqual([
      'Wed 28 Apr 07:30 to 08:30: good to mix.',
      'Wed 28 Apr 08:30 to 09:00: nobody would see the gel.',
      'Thu 29 Apr 07:30 to 08:00: the bag would be down too late.',
    ]);
  });
});
