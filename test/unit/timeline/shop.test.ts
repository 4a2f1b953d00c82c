import { describe, expect, test } from 'vitest';
import type { RouteResult, StageResult } from '../../../app/document/schema.ts';
import { worstConsequence } from '../../../app/timeline/consequence.ts';
import { jointOptions } from '../../../app/timeline/joints.ts';
import { lanesOf, roomLane } from '../../../app/timeline/lanes.ts';
import { at, handMadeOutcome } from '../shop/outcome.ts';

const plain = handMadeOutcome();
const outcome = {
  ...plain,
  detail: {
    ...plain.detail,
    shown: { air: { 'layup:skin': 'wet' as const, 'fair:1': 'dust' as const } },
  },
};

describe('lanes of the shop', () => {
  const lanes = lanesOf(outcome);
  const lane = (name: string) => lanes.find((one) => one.name === name)!;

  test('a lane for each person by name, with hours; gear that is taken; the air', () => {
    expect(lanes.map(({ name, note }) => `${name} ${note}`)).toEqual([
      'Iva 7 h',
      'Tomé 9 h',
      'Mould free Sun 28',
      'Air dust, wet, spray',
    ]);
  });

  test('the mould is held from the first work on it, between its cures as well', () => {
    expect(lane('Mould').uses.map(({ start, end }) => [start, end])).toEqual([
      [at('2027-03-25T13:00'), at('2027-03-28T06:00')],
    ]);
  });

  test('work that pauses over night leaves the night free', () => {
    expect(lane('Tomé').uses.filter(({ words }) => words === 'Longboard P80')).toHaveLength(2);
  });

  test('the air says what is in it while hands are at work', () => {
    expect(lane('Air').uses.map(({ look, words }) => `${look}: ${words}`)).toEqual([
      'wet: open resin: Lay up outer skin',
      'dust: dust: Longboard P80',
      'dust: dust: Longboard P80',
    ]);
  });

  test('the room has its steps and the least that the hardener stands', () => {
    const room = roomLane(outcome, outcome.detail.span)!;
    expect(room.lowC).toBe(Math.min(...outcome.detail.air.map((step) => step.temperatureC)));
    expect(room.note).toMatch(/ °C$/);
  });
});

const route = (state: 'apart' | 'tack' | 'one-bag', more: Partial<RouteResult>): RouteResult => ({
  id: state,
  cures: [],
  joints: { 'skin-core': state, 'core-inner': 'apart' },
  closes: '2027-03-26T08:00+00:00',
  closesProven: true,
  closedBy: null,
  open: true,
  possible: true,
  fits: true,
  labourHours: 20,
  materialCost: 1,
  massKg: 5,
  finish: 'painted',
  onTime: null,
  findings: [],
  ...more,
});

describe('states of a joint', () => {
  const result = handMadeOutcome({
    result: {
      route: { id: 'apart', cures: [] },
      routes: [
        route('apart', {}),
        route('tack', { labourHours: 17.5, massKg: 5.25, fits: false, finish: 'hidden' }),
        route('one-bag', {
          possible: false,
          findings: [
            {
              code: 'open-time-short',
              severity: 'stop',
              stage: null,
              message: 'Open time is too short.',
              numbers: {},
              levers: [],
            },
          ],
        }),
      ],
    },
  }).result;
  const joint = {
    boundary: 'skin-core',
    before: 'Outer skin',
    after: 'Core',
    state: 'apart',
  } as const;
  const [apart, tack, oneBag] = jointOptions(result, joint);

  test('each says hours, weight, finish, date and closing time against what is taken', () => {
    expect(apart).toMatchObject({ state: 'apart', chosen: true, possible: true });
    expect(apart!.lines[0]).toBe('20.0 h');
    expect(tack!.lines).toEqual([
      '17.5 h (−2.5 h)',
      expect.stringMatching(/^5\.25 kg .*\(\+0\.25 kg\)$/),
      'only where it is hidden',
      'Misses the date or has a stop',
      'Open until Fri 26 Mar 08:00',
    ]);
    expect(tack!.joints).toEqual({ 'skin-core': 'tack', 'core-inner': 'apart' });
  });

  test('one that cannot be done says why', () => {
    expect(oneBag).toMatchObject({ possible: false, lines: ['Open time is too short.'] });
  });

  test('until the routes are worked out nothing is offered', () => {
    const alone = { ...result, routes: [route('apart', {})] };
    expect(jointOptions(alone, joint).map(({ joints }) => joints === null)).toEqual([
      false,
      true,
      true,
    ]);
  });
});

describe('the worst of a change', () => {
  const { result } = outcome;
  const spare = (elapsedMinutes: number, workDays: number) => ({
    ...{ before: null, at: result.deadline, workDays, workMinutes: 0 },
    ...{ elapsedMinutes, tightest: 'fair:1' },
  });

  test('lateness comes first, then a stop, then spare time, then what moves', () => {
    const stop = {
      code: 'gel-unattended',
      severity: 'stop' as const,
      stage: 'layup:skin',
      message: 'Gel at 01:40, nobody there. It needs a watch.',
      numbers: {},
      levers: [],
    };
    const bad = { ...result, findings: [stop] };
    expect(worstConsequence(result, { ...bad, lateMinutes: 180 })).toBe('Late by 3 h.');
    expect(worstConsequence(result, bad)).toBe('Gel at 01:40, nobody there.');
    expect(worstConsequence(bad, bad)).toBe('Nothing else moves.');
    const [roomy, tight] = [
      { ...result, spare: [spare(9000, 6)] },
      { ...result, spare: [spare(3000, 2)] },
    ];
    expect(worstConsequence(roomy, tight)).toBe(
      'Leaves 2 working days to spare instead of 6 working days.',
    );
  });

  test('a merge says how many cures are left', () => {
    const cure = { id: 'a', name: 'a', layups: [] };
    const three = { ...result, route: { id: 'x', cures: [cure, cure, cure] } };
    const two = { ...result, route: { id: 'y', cures: [cure, cure] } };
    expect(worstConsequence(three, two)).toBe('Then 2 cures are left: layups share a bag.');
  });

  test('what only moves is counted, the stage in hand left out', () => {
    const later = (stage: StageResult): StageResult =>
      stage.kind === 'layup' ? stage : { ...stage, start: '2027-04-01T08:00+01:00' };
    const moved = { ...result, stages: result.stages.map(later) };
    expect(worstConsequence(result, moved)).toBe('5 other stages move; the date holds.');
  });
});
