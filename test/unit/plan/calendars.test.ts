/** Public holidays and other jobs: the plan works round them, and says so where it cannot. */
import { describe, expect, it } from 'vitest';
import type { Build, PlanResult } from '../../../app/document/schema.ts';
import { plan } from '../../../app/answer/plan.ts';
import { draftRoute, planRoute } from '../../../app/plan/routePlan.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { FIRST_ANSWER, FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { routeOf } from '../../../app/route/routes.ts';
import { overtimeHours } from '../../../app/plan/overtime.ts';
import { factWords } from '../../../app/messages/facts.ts';
import { constraintsOf, without } from '../../../app/schedule/constraints.ts';
import { violations } from '../../../app/schedule/check.ts';
import { expandHours } from '../../../app/time/calendar.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { addDays, library, NOW, read, smallBuild } from '../../support/builds.ts';

const WHOLE: [string, string][] = [['00:00', '24:00']];

type Busy = NonNullable<Build['busy']>[number];
type Stage = PlanResult['stages'][number];

const JOINTS = { 'skin-core': 'apart', 'core-inner': 'apart' } as const;
const fixedRoute = (): Build => ({ ...smallBuild(), route: { joints: JOINTS } });
const planned = (build: Build, effort = FIRST_ANSWER) => plan(build, library(), NOW, effort).result;
const stageOf = (result: PlanResult, id: string): Stage =>
  result.stages.find((stage) => stage.id === id)!;
const minute = (iso: string | null) => isoToMinute(iso!)!;
/** Lisbon is one hour ahead of UTC in the months of these builds. */
const local = (wall: string) => isoToMinute(`${wall}+01:00`)!;
const meets = (stage: Stage, from: string, until: string): boolean =>
  minute(stage.start) < local(until) && minute(stage.end) > local(from);

const usual = planned(fixedRoute());
const party = { id: 'spray', name: 'Spray shop', workingDays: 3 } as const;

describe('a public holiday', () => {
  const layup = stageOf(usual, 'layup:skin');
  const day = layup.start!.slice(0, 10);
  const holiday = { date: day, name: 'Harbour Day', for: 'shop' } as const;

  it('of the shop moves hands-on work off that day, for everybody', () => {
    const result = planned({ ...fixedRoute(), holidays: [holiday] });
    const worked = result.stages.filter(({ people }) => people.length > 0);
    expect(worked.length).toBeGreaterThan(5);
    for (const stage of worked) expect([stage.id, stage.start!.slice(0, 10)]).not.toContain(day);
    expect(minute(stageOf(result, 'layup:skin').start)).toBeGreaterThan(minute(layup.start));
  });

  it('of outside parties leaves the shop where it was, and takes the day from their hours', () => {
    const build = { ...fixedRoute(), outside: [party] };
    const before = stageOf(planned(build), 'outside:spray');
    const start = before.start!.slice(0, 10);
    for (const kept of ['outside', { party: 'spray' }] as const) {
      const result = planned({
        ...build,
        holidays: [{ date: start, name: 'Fair Day', for: kept }],
      });
      const after = stageOf(result, 'outside:spray');
      expect(after.start!.slice(0, 10)).not.toBe(start);
      const days = expandHours(
        {
          mon: [['08:00', '17:00']],
          tue: [['08:00', '17:00']],
          wed: [['08:00', '17:00']],
          thu: [['08:00', '17:00']],
          fri: [['08:00', '17:00']],
        },
        [start],
        'Europe/Lisbon',
        minute(after.start),
        minute(after.end),
      );
      expect(days.reduce((sum, one) => sum + one.end - one.start, 0)).toBe(3 * 9 * 60);
    }
    const others = planned({
      ...build,
      outside: [party, { ...party, id: 'other', name: 'Other' }],
      holidays: [{ date: start, name: 'Fair Day', for: { party: 'other' } }],
    });
    expect(stageOf(others, 'outside:spray').start).toBe(before.start);
  });

  it('of suppliers is no day of an order’s lead time', () => {
    const cloth = 'order:cloth-merchant';
    const order = stageOf(usual, cloth);
    const inside = new Date((minute(order.start) + 1440) * 60_000).toISOString().slice(0, 10);
    const holidays = [{ date: inside, name: 'Fair Day', for: 'outside' }] as const;
    const later = stageOf(planned({ ...fixedRoute(), holidays: [...holidays] }), cloth);
    expect(minute(later.end) - minute(order.end)).toBe(1440);
  });

  it('keeps overtime off as well', () => {
    const always = { mon: WHOLE, tue: WHOLE, wed: WHOLE, thu: WHOLE, fri: WHOLE };
    const crew = [{ name: 'Mina Vale', overtime: always }];
    const context = contextOf({ ...fixedRoute(), crew, holidays: [holiday] }, library(), NOW);
    const hours = Object.values(overtimeHours(context)).flat();
    expect(hours.length).toBeGreaterThan(20);
    const [from, until] = [local(`${day}T00:00`), local(`${day}T23:59`)];
    expect(hours.filter((span) => span.start < until && span.end > from)).toEqual([]);
  });

  it('on a day that does not exist is a fault', () => {
    const holidays = [{ ...holiday, date: '2027-02-29' }];
    expect(read({ ...smallBuild(), holidays })).toMatchObject({
      ok: false,
      faults: [{ path: 'holidays[0].date', expected: 'a day that exists, as YYYY-MM-DD' }],
    });
  });
});

describe('a busy block', () => {
  const cure = stageOf(usual, 'cure:skin');
  const layup = stageOf(usual, 'layup:skin');
  const day = layup.start!.slice(0, 10);
  const block = (who: Busy['who'], from = `${day}T00:00`, until = `${day}T23:59`): Build => ({
    ...fixedRoute(),
    busy: [{ what: 'Hull repair', who, from, until }],
  });

  it('takes a person’s hours away and leaves the others theirs', () => {
    const person = layup.people[0]!;
    const result = planned(block({ kind: 'person', id: person }));
    const mine = result.stages.filter(({ people }) => people.includes(person));
    expect(mine.length).toBeGreaterThan(2);
    for (const stage of mine) {
      // Work that pauses may lie round the block; it neither begins nor ends in it.
      expect([stage.id, stage.start!.slice(0, 10), stage.end!.slice(0, 10)]).not.toContain(day);
    }
  });

  it.each(['mould', 'pump'] as const)('keeps cures off the %s while another job has it', (kind) => {
    const amount = kind === 'pump' ? 2 : 1;
    const [from, until] = [cure.start!.slice(0, 16), cure.end!.slice(0, 16)];
    for (const effort of [FIRST_ANSWER, FULL_ANSWER]) {
      const result = planned(block({ kind, amount }, from, until), effort);
      const cures = result.stages.filter((stage) => stage.kind === 'cure');
      expect(cures).toHaveLength(3);
      for (const stage of cures)
        expect([stage.id, meets(stage, from, until)]).toEqual([stage.id, false]);
      expect(minute(stageOf(result, 'cure:skin').start)).toBeGreaterThanOrEqual(local(until));
      expect(result.stages.map(({ name }) => name)).not.toContain('Hull repair');
      expect(result.stages.map(({ id }) => id).sort()).toEqual(
        usual.stages.map(({ id }) => id).sort(),
      );
    }
  });

  it('of one port leaves the other to the cure', () => {
    const [from, until] = [cure.start!.slice(0, 16), cure.end!.slice(0, 16)];
    const timesOf = ({ stages }: PlanResult) =>
      stages.map(({ id, start, end }) => [id, start, end]);
    const other = planned(block({ kind: 'pump', amount: 1 }, from, until));
    expect(timesOf(other)).toEqual(timesOf(usual));
  });

  it('of the mould keeps layups and release off it too', () => {
    const result = planned(block({ kind: 'mould', amount: 1 }));
    const onMould = result.stages.filter(({ kind }) => kind === 'layup' || kind === 'release');
    expect(onMould.length).toBeGreaterThan(3);
    for (const stage of onMould) {
      expect([stage.id, meets(stage, `${day}T00:00`, `${day}T23:59`)]).toEqual([stage.id, false]);
    }
  });

  it('of the mould does not come between two stages of the part that lies in it', () => {
    // A night between bag-off of the skin and the next layup, in which no stage has the mould.
    const off = stageOf(usual, 'bag-off:skin').end!.slice(0, 10);
    const [from, until] = [`${off}T20:00`, `${off}T23:00`];
    for (const effort of [FIRST_ANSWER, FULL_ANSWER]) {
      const result = planned(block({ kind: 'mould', amount: 1 }, from, until), effort);
      const [release, demould] = [stageOf(result, 'release'), stageOf(result, 'demould')];
      const before = minute(demould.end) <= local(from);
      expect([before, minute(release.start) >= local(until)]).toEqual([false, true]);
    }
  });

  it('takes an outside party’s hours', () => {
    const build = { ...fixedRoute(), outside: [party] };
    const before = stageOf(planned(build), 'outside:spray');
    const from = before.start!.slice(0, 16);
    const until = `${from.slice(0, 10)}T17:00`;
    const busy = [
      { what: 'Bus fleet', who: { kind: 'outside', id: 'spray' }, from, until },
    ] as const;
    const after = stageOf(planned({ ...build, busy: [...busy] }), 'outside:spray');
    expect(minute(after.start)).toBeGreaterThan(local(until));
  });

  it('leaves a plan that the independent checker accepts, and none that it does not', () => {
    const [from, until] = [cure.start!.slice(0, 16), cure.end!.slice(0, 16)];
    const context = contextOf(block({ kind: 'mould', amount: 1 }, from, until), library(), NOW);
    const route = planRoute(contextOf(fixedRoute(), library(), NOW), draftOf(context), 1);
    const busy = planRoute(context, draftOf(context), 60);
    const { problem } = busy.network;
    expect(problem.busy).toHaveLength(1);
    expect(violations(problem, busy.schedule.placed)).toEqual([]);
    expect(violations(problem, route.schedule.placed).join()).toContain('mould is used');
  });

  it('that ends after the date makes nothing late, and is no end of the plan', () => {
    const far = planned(
      block({ kind: 'bench', amount: 1 }, '2027-07-01T08:00', '2027-08-20T08:00'),
    );
    expect(far.fits).toBe(true);
    expect(far.lateMinutes).toBe(usual.lateMinutes);
    expect(far.stages.map(({ id, floatHours }) => [id, floatHours === null])).toEqual(
      usual.stages.map(({ id }) => [id, false]),
    );
  });

  it('bounds how long what comes before it can wait', () => {
    // The same work with the mould gone from the day after the part has left it.
    const demould = stageOf(usual, 'demould');
    const from = demould.end!.slice(0, 16);
    const result = planned(block({ kind: 'mould', amount: 1 }, from, '2027-07-30T08:00'));
    const limited = stageOf(result, 'demould');
    expect(minute(limited.latestEnd)).toBeLessThanOrEqual(local(from));
    expect(minute(demould.latestEnd)).toBeGreaterThan(local(from));
  });
});

const draftOf = (context: ReturnType<typeof contextOf>) => draftRoute(context, routesOf(context));
const routesOf = (context: ReturnType<typeof contextOf>) => routeOf(context.part.layups, JOINTS);

describe('what is refused', () => {
  const busy = (more: object): unknown => ({
    ...smallBuild(),
    crew: [{ id: 'mina', name: 'Mina Vale' }],
    busy: [
      {
        what: 'Fair',
        who: { kind: 'person', id: 'mina' },
        from: '2027-05-03T08:00',
        until: '2027-05-03T12:00',
        ...more,
      },
    ],
  });

  it('nothing of a block in order', () => {
    expect(read(busy({}))).toMatchObject({ ok: true });
  });

  it.each([
    [{ until: '2027-05-03T08:00' }, 'busy[0].until', 'a time after the one it begins at'],
    [{ from: '2027-05-03' }, 'busy[0].from', 'a day and time that exist, as YYYY-MM-DDTHH:MM'],
    // Lisbon puts its clocks forward over this hour.
    [
      { from: '2027-03-28T01:30' },
      'busy[0].from',
      'a time that exists in Europe/Lisbon (the clocks skip this one)',
    ],
    [
      { who: { kind: 'person', id: 'nobody' } },
      'busy[0].who.id',
      'the id of a person of the crew (mina)',
    ],
    [
      { who: { kind: 'outside', id: 'spray' } },
      'busy[0].who.id',
      'the id of an outside party (there is none)',
    ],
    [{ who: { kind: 'mould', amount: 0 } }, 'busy[0].who.amount', 'at least 1'],
  ])('%j', (more, path, expected) => {
    expect(read(busy(more))).toMatchObject({ ok: false, faults: [{ path, expected }] });
  });

  it('a holiday of a party that is not there', () => {
    const holidays = [{ date: '2027-05-03', name: 'Fair Day', for: { party: 'spray' } }];
    expect(read({ ...smallBuild(), holidays })).toMatchObject({
      ok: false,
      faults: [{ path: 'holidays[0].for.party' }],
    });
  });
});

it('a block over the night in which clocks go back is an hour longer', () => {
  // Lisbon, 31 October 2027: 02:00 becomes 01:00.
  const build: Build = {
    ...fixedRoute(),
    unveiling: '2027-11-30T18:00',
    crew: [{ id: 'mina', name: 'Mina Vale', hours: { sun: [['00:00', '08:00']] } }],
    busy: [
      {
        what: 'Watch',
        who: { kind: 'person', id: 'mina' },
        from: '2027-10-31T00:30',
        until: '2027-10-31T07:00',
      },
    ],
  };
  const now = isoToMinute('2027-10-25T08:00+00:00')!;
  const open = contextOf(build, library(), now).personHours['mina']!;
  const night = open.filter(
    (span) =>
      span.start < isoToMinute('2027-11-01T00:00+00:00')! &&
      span.start >= isoToMinute('2027-10-30T12:00+00:00')!,
  );
  expect(night).toEqual([
    { start: isoToMinute('2027-10-31T00:00+01:00'), end: isoToMinute('2027-10-31T00:30+01:00') },
    { start: isoToMinute('2027-10-31T07:00+00:00'), end: isoToMinute('2027-10-31T08:00+00:00') },
  ]);
});

describe('why nothing fits', () => {
  it('names the job that has the mould, and the feast that takes the hours', () => {
    const day = stageOf(usual, 'layup:skin').start!.slice(0, 10);
    const last = usual.stages.reduce((a, b) => (minute(b.end) > minute(a.end) ? b : a));
    const build: Build = {
      ...fixedRoute(),
      unveiling: new Date((minute(last.end) + 60) * 60_000).toISOString().slice(0, 16),
      busy: [
        {
          what: 'Hull repair',
          who: { kind: 'mould', amount: 1 },
          from: `${day}T00:00`,
          until: `${addDays(day, 8)}T00:00`,
        },
      ],
      holidays: [{ date: addDays(day, 1), name: 'Harbour Day', for: 'shop' }],
    };
    const context = contextOf(build, library(), NOW);
    const { problem } = planRoute(context, draftOf(context), 1).network;
    const facts = constraintsOf(problem);
    const job = facts.find(({ kind }) => kind === 'busy')!;
    expect(factWords(job.fact, build.zone)).toMatch(
      /^Hull repair has the mould from \w+day \d+ \w+, 00:00 until /,
    );
    expect(without(problem, job).busy).toEqual([]);
    const hours = facts
      .filter(({ kind }) => kind === 'hours')
      .map(({ fact }) => factWords(fact, build.zone));
    expect(hours.join()).toMatch(/the hours of .*\(without Harbour Day on \w+day \d+ \w+\)/);
  });
});
