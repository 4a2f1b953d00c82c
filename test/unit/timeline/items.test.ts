import { describe, expect, test } from 'vitest';
import type { RouteResult } from '../../../app/document/schema.ts';
import { lanesOf, spansOf } from '../../../app/timeline/items.ts';
import { at, handMadeOutcome } from '../shop/outcome.ts';

const route = (id: string, closes: string | null, possible = true): RouteResult => ({
  id,
  cures: id.split('/'),
  joints: {},
  closes,
  closesProven: true,
  closedBy: null,
  open: true,
  possible,
  fits: true,
  labourHours: 1,
  materialCost: 1,
  massKg: 1,
  finish: 'painted',
  onTime: null,
  findings: [],
});

const outcome = handMadeOutcome({
  result: {
    routes: [
      route('skin/core/inner', '2027-03-25T10:00+00:00'),
      route('skin', '2027-03-26T08:00+00:00'),
      route('skin+core', '2027-03-26T08:00+00:00'),
      route('skin~core', null),
      route('core', '2027-03-27T08:00+00:00', false),
    ],
  },
});
const lanes = lanesOf(outcome);
const item = (id: string) => lanes.flatMap((lane) => lane.items).find((one) => one.id === id)!;

describe('what the timeline shows', () => {
  test('every placed stage stands in one lane', () => {
    const shown = lanes.flatMap((lane) => lane.items).filter(({ type }) => type !== 'route');
    expect(shown.map(({ id }) => id).sort()).toEqual(
      outcome.result.stages.map(({ id }) => id).sort(),
    );
  });

  test('work over two days has its pauses', () => {
    expect(item('fair:1').stretches).toEqual([
      { start: at('2027-03-30T15:00'), end: at('2027-03-30T16:30') },
      { start: at('2027-03-31T07:30'), end: at('2027-03-31T11:00') },
    ]);
  });

  test('the label prints the float, the spoken name everything else', () => {
    expect(item('layup:skin').label).toBe('▲ Lay up outer skin · no float');
    expect(item('outside:outside-1').label).toContain('2 h 30 min late');
    expect(item('layup:skin').spoken).toBe(
      'Lay up outer skin. Fri 26 Mar 08:00 to Fri 26 Mar 11:00. By Iva, Tomé. No float. ' +
        'Latest start Fri 26 Mar 08:00. Critical.',
    );
    expect(item('cure:skin').spoken).toContain(
      'Gel from Fri 26 Mar 19:20. Gel by Fri 26 Mar 22:40.',
    );
    expect(item('cure:skin').spoken).toContain('Full cure from: not reached.');
  });

  test('routes that close in the same minute share a flag; impossible ones have none', () => {
    const flags = lanes.find((lane) => lane.id === 'routes')!.items;
    expect(flags.map(({ label }) => label)).toEqual(['3 cures', 'one cure and 1 more, chosen']);
    expect(flags[1]!.spoken).toContain('outer skin + core');
  });

  test('now, the deadline and every item lie inside what is drawn', () => {
    const spans = spansOf(outcome, lanes);
    const start = Math.min(...spans.map((span) => span.start));
    const end = Math.max(...spans.map((span) => span.end));
    expect(start).toBe(outcome.detail.now);
    expect(end).toBe(outcome.detail.deadline);
  });
});
