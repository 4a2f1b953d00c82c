import { describe, expect, it } from 'vitest';
import type {
  Finding,
  PlanResult,
  RouteResult,
  StageResult,
} from '../../../app/document/schema.ts';
import { elapsed } from '../../../app/messages/words.ts';
import { glanceAt } from '../../../app/shop/glance.ts';

const stage = (id: string, more: Partial<StageResult>): StageResult => ({
  id,
  name: `Name of ${id}`,
  kind: 'trim',
  cure: null,
  start: '2027-05-03T08:00+01:00',
  end: '2027-05-03T12:00+01:00',
  earliestStart: null,
  latestStart: '2027-05-04T08:00+01:00',
  latestEnd: null,
  floatHours: 8,
  critical: false,
  people: [],
  gear: [],
  attended: [],
  ...more,
});
const finding = (code: string, more: Partial<Finding> = {}): Finding => ({
  code,
  severity: 'stop',
  stage: null,
  message: 'It is so. And more.',
  numbers: {},
  levers: [],
  ...more,
});
const result = (more: Partial<PlanResult>): PlanResult => ({
  formatVersion: 1,
  build: { id: 'b', name: 'B', zone: 'Europe/Lisbon', currency: 'EUR' },
  now: '2027-05-01T08:00+01:00',
  deadline: '2027-05-07T18:00+01:00',
  fits: true,
  route: { id: 'skin', cures: [] },
  stages: [stage('trim', {})],
  cures: [],
  mixes: [],
  routes: [],
  findings: [],
  totals: { labourHours: 0, materialCost: 0, massKg: 0, targetMassKg: null },
  ...more,
});

describe('does it fit', () => {
  it('says of a plan that is in time and unsafe what is wrong, and promises a way out only where there is one', () => {
    const said = (levers: Finding['levers']) =>
      glanceAt(result({ fits: false, lateMinutes: -60, findings: [finding('x', { levers })] })).fit;
    expect(said([])).toMatchObject({
      headline: 'In time, but not to be built so',
      detail: 'It is so. Findings say why.',
    });
    const lever = { id: 'a', label: 'A', hoursGained: 0, cost: 0, sideEffects: [], clears: ['x'] };
    expect(said([lever]).detail).toBe('It is so. Findings say why, and what would mend it.');
  });

  it('names the least that is to spare, before which date, and the stage that leaves it', () => {
    const booked = stage('outside:paint', { kind: 'outside', name: 'Paint shop, 3 working days' });
    const stages = [stage('fair', {}), stage('trim', {}), booked];
    const at = '2027-05-05T08:00+01:00';
    const toPaint = { before: 'outside:paint', at, workDays: 1, workMinutes: 150 };
    const toEnd = { before: null, at: '2027-05-07T18:00+01:00', workDays: 2, workMinutes: 0 };
    const spare = [
      { ...toEnd, elapsedMinutes: 2880, tightest: 'fair' },
      { ...toPaint, elapsedMinutes: 3000, tightest: 'trim' },
    ];
    const { fit } = glanceAt(result({ stages, spare }));
    expect(fit.headline).toBe('Fits, 1 working day 2 h 30 min to spare');
    expect(fit.tone).toBe('good');
    expect(fit.stage).toBe('trim');
    expect(fit.detail).toBe(
      'Ready Mon 3 May 12:00, shown Fri 7 May 18:00. Tightest before Paint shop, Wed 5 May 08:00: Name of trim.',
    );
    const least = [{ ...spare[1]!, workDays: 5, workMinutes: 2 }];
    expect(glanceAt(result({ stages, spare: least })).fit.headline).toBe(
      'Fits, 5 working days to spare',
    );
    const none = [{ ...spare[0]!, workDays: 0, workMinutes: 0 }];
    expect(glanceAt(result({ stages, spare: none })).fit.headline).toBe('Fits, nothing to spare');
    expect(glanceAt(result({ stages, spare: none })).fit.tone).toBe('warn');
  });

  it('says by how much it is late', () => {
    const late = stage('hand-over', { end: '2027-05-10T09:30+01:00', floatHours: -20 });
    // 63.5 h, as the finding and every choice of the search say it.
    const lateMinutes = 63.5 * 60;
    const { fit } = glanceAt(result({ fits: false, lateMinutes, stages: [late] }));
    expect(fit.headline).toBe(`Late by ${elapsed(lateMinutes)}`);
    expect(fit.headline).toBe('Late by 2 days 16 h');
    expect(fit.tone).toBe('stop');
  });

  it('gives the reason when nothing could be placed', () => {
    const nothing = stage('trim', { start: null, end: null, latestStart: null, floatHours: null });
    const findings = [finding('stage-impossible', { message: 'Nobody is there.', stage: 'trim' })];
    const { fit, next } = glanceAt(result({ fits: false, stages: [nothing], findings }));
    expect([fit.headline, fit.detail, fit.stage]).toEqual(['No plan', 'Nobody is there.', 'trim']);
    expect(next.headline).toContain('Fri 7 May');
  });
});

describe('the next that cannot move', () => {
  const next = (at: string, now: string, more: Partial<StageResult> = {}) =>
    glanceAt(
      result({
        now,
        stages: [stage('order', more)],
        nextDeadline: { at, stage: 'order', by: 'closing', proven: true },
      }),
    ).next;
  const at = '2027-05-02T08:00+01:00';

  it('is the moment by which the stage has to begin', () => {
    const { headline, detail, tone, stage: shown } = next(at, '2027-04-29T08:00+01:00');
    expect(headline).toBe('Name of order by Sun 2 May 08:00');
    expect(detail).toBe('In 3 days. Later than that, this way of building does not make the date.');
    expect([tone, shown]).toEqual(['plain', 'order']);
    expect(next(at, '2027-05-01T10:00+01:00').tone).toBe('warn');
  });

  it('leaves out of the name how long others take', () => {
    const order = { kind: 'order', name: 'Order from board merchant, 4 working days' } as const;
    expect(next(at, '2027-04-29T08:00+01:00', order).headline).toBe(
      'Order from board merchant by Sun 2 May 08:00',
    );
  });

  it('says when it lies before the work can begin', () => {
    const late = next(at, '2027-05-01T08:00+01:00', { earliestStart: '2027-05-06T08:00+01:00' });
    expect(late.tone).toBe('stop');
    expect(late.detail).toContain('can begin Thu 6 May 08:00 at the earliest');
  });

  it('says when it has gone by', () => {
    const gone = next(at, '2027-05-03T08:00+01:00');
    expect(gone.headline).toBe('Name of order: too late');
    expect(gone.detail).toContain('had to begin Sun 2 May 08:00');
    expect(gone.detail).toContain('24 h ago');
  });
});

describe('merge or buy', () => {
  it('says a forced merge first, in its first sentence', () => {
    const findings = [finding('merge-forced', { severity: 'warn' })];
    expect(glanceAt(result({ findings })).force.detail).toBe('It is so.');
  });

  it('where a stop is no matter of the date, is the cheapest way out of it', () => {
    const lever = { hoursGained: 0, sideEffects: [], clears: ['paint-over-tg'] };
    const levers = [
      { ...lever, id: 'a', label: 'Hire the heat', cost: 900 },
      { ...lever, id: 'b', label: 'Ask for an air-dry finish', cost: 0 },
    ];
    const stopped = result({ fits: false, findings: [finding('paint-over-tg', { levers })] });
    expect(glanceAt(stopped).force.headline).toBe('Ask for an air-dry finish');
    const alone = result({ fits: false, findings: [finding('paint-over-tg')] });
    expect(glanceAt(alone).force.headline).toBe('A stop stands');
  });

  it('offers the cheapest lever that makes the date', () => {
    const lever = (id: string, cost: number, clears: string[]) => ({
      ...{ id, label: id, hoursGained: 5, cost, sideEffects: [], clears },
    });
    const levers = [
      lever('free but short', 0, []),
      lever('dear', 900, ['date-missed']),
      lever('fair', 300, ['date-missed']),
    ];
    const findings = [finding('date-missed', { levers })];
    expect(glanceAt(result({ fits: false, findings })).force.headline).toBe('fair');
  });

  it('makes the date by what clears all that is late, a slot as well, and says where a stop stays', () => {
    const way = (id: string, cost: number, clears: string[], fits: boolean) => ({
      ...{ id, label: id, hoursGained: 5, cost, sideEffects: [], clears },
      after: { fits, lateMinutes: -60, stops: fits ? 0 : 1 },
    });
    const slot = (levers: ReturnType<typeof way>[]) =>
      glanceAt(
        result({
          fits: false,
          findings: [finding('slot-missed', { levers }), finding('paint-over-tg')],
        }),
      ).force;
    const later = way('Ask for a later slot', 0, ['slot-missed'], false);
    expect(slot([later])).toMatchObject({
      headline: 'Ask for a later slot',
      detail: 'Makes the date: gains 5 h, and another stop stays. See Findings.',
    });
    const both = way('Slot and heat', 90, ['slot-missed', 'paint-over-tg'], true);
    expect(slot([later, both])).toMatchObject({
      headline: 'Slot and heat',
      detail: 'Makes the date: gains 5 h. See Findings.',
    });
  });

  it('names nothing of another route, and does not say that nothing helps above a list of ways out', () => {
    const way = { id: 'a', label: 'A', hoursGained: 9, cost: 0, sideEffects: [], clears: [] };
    const late = finding('date-missed');
    const merged = finding('merge-forced', { levers: [way] });
    const only = glanceAt(result({ fits: false, findings: [late, merged] }));
    expect(only.force.headline).toBe('Nothing known helps');
    const cured = finding('cure-stalls', {
      levers: [{ ...way, hoursGained: 0, clears: ['cure-stalls'] }],
    });
    const beside = glanceAt(result({ fits: false, findings: [late, cured] }));
    expect(beside.force.headline).toBe('A stop stands');
  });

  it('says so when no one way out is enough, and which gains most', () => {
    const levers = [
      { id: 'a', label: 'Warm nights', hoursGained: 5, cost: 0, sideEffects: [], clears: [] },
      { id: 'b', label: 'Weekends', hoursGained: 40, cost: 9, sideEffects: [], clears: [] },
    ];
    const findings = [finding('date-missed', { levers }), finding('merge-forced')];
    const { force } = glanceAt(result({ fits: false, findings }));
    expect(force.headline).toBe('No one way out is enough');
    expect(force.detail).toContain('Weekends');
  });

  it('with nothing forced, names the first route to close', () => {
    const route = (id: string, closes: string): RouteResult => ({
      id,
      cures: [id],
      joints: {},
      closes,
      closesProven: true,
      closedBy: null,
      open: true,
      possible: true,
      fits: true,
      labourHours: 1,
      materialCost: 1,
      massKg: 1,
      finish: 'painted',
      onTime: null,
      findings: [],
    });
    const routes = [
      route('late', '2027-05-05T08:00+01:00'),
      route('soon', '2027-05-02T10:00+01:00'),
      route('past', '2027-04-02T10:00+01:00'),
    ];
    const { force } = glanceAt(result({ routes }));
    expect(force.headline).toBe('Nothing forced');
    expect(force.detail).toContain('Sun 2 May 10:00');
  });
});
