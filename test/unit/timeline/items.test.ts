import { describe, expect, test } from 'vitest';
import type { RouteResult } from '../../../app/document/schema.ts';
import { spansOf, timelineRows } from '../../../app/timeline/items.ts';
import { limitsOf } from '../../../app/timeline/limits.ts';
import { at, handMadeOutcome } from '../shop/outcome.ts';

const route = (
  id: string,
  closes: string | null,
  more: Partial<RouteResult> = {},
): RouteResult => ({
  id,
  cures: id.split('/'),
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
  ...more,
});

const outcome = handMadeOutcome();
const rows = timelineRows(outcome);
const item = (id: string) => rows.flatMap((row) => row.items).find((one) => one.id === id)!;

describe('rows of the part', () => {
  test('stand in the order in which the part is built, layups of the part among them', () => {
    expect(rows.map(({ row }) => row.title)).toEqual([
      'Mould',
      'Outer skin',
      'Core',
      'Inner skin',
      'Fill and fair',
      'Outside',
    ]);
    expect(rows.map(({ row }) => row.material)).toEqual([
      null,
      'glass',
      'foam',
      'glass',
      null,
      null,
    ]);
  });

  test('every placed stage stands in one row', () => {
    expect(
      rows
        .flatMap(({ items }) => items)
        .map(({ id }) => id)
        .sort(),
    ).toEqual(outcome.result.stages.map(({ id }) => id).sort());
    expect(rows[1]!.items.map(({ id }) => id)).toEqual([
      'layup:skin',
      'watch:skin',
      'cure:skin',
      'bag-off:skin',
    ]);
  });

  test('the joint to the layup above says how the taken route has it', () => {
    const joined = handMadeOutcome({
      result: { routes: [route('skin', null, { joints: { 'skin-core': 'tack' } })] },
    });
    const joints = timelineRows(joined).map(({ row }) => row.joint?.state ?? null);
    expect(joints).toEqual([null, null, 'tack', 'apart', null, null]);
  });
});

describe('what stands in a row', () => {
  test('work over two days has its pauses', () => {
    expect(item('fair:1').stretches).toEqual([
      { start: at('2027-03-30T15:00'), end: at('2027-03-30T16:30') },
      { start: at('2027-03-31T07:30'), end: at('2027-03-31T11:00') },
    ]);
  });

  test('a cure runs from its first mix, gels, and ends when somebody takes the bag off', () => {
    const shape = item('cure:skin').shape!;
    expect(shape.open).toEqual({ start: at('2027-03-26T08:00'), end: at('2027-03-26T19:20') });
    expect(shape.gelled).toEqual({ start: at('2027-03-26T19:20'), end: at('2027-03-29T07:30') });
    expect(shape.off).toBe(at('2027-03-29T07:30'));
    // It can be sanded before the bag is off: nothing is left to wait for.
    expect(shape.untilSandable).toBeNull();
    expect(shape.batches.map(({ words }) => words[0])).toEqual([
      'cup 1: mix 08:00, use by 09:35',
      'cup 2: mix 09:03, use by 10:38',
      'cup 3: mix 10:06, use by 11:40',
    ]);
  });

  test('a cure says mix at, bag by and off from at every grain', () => {
    const { captions } = item('cure:skin');
    expect(captions.whole.texts[0]).toBe('mix 08:00, bag by 11:40, off Mon 29 07:30');
    expect(captions.day).toEqual(captions.whole);
  });

  test('of the whole build a row says what it delivers, nearer every stage its people', () => {
    expect(item('fair:1').captions.whole.texts).toEqual(['surface ready Wed 31 11:00']);
    expect(item('layup:skin').captions.whole.texts).toEqual([]);
    expect(item('outside:outside-1').captions.whole.texts).toEqual(['Saltmarsh Paint']);
    expect(item('layup:skin').captions.week.texts[0]).toBe('08:00 Lay up outer skin, Iva, Tomé');
    expect(item('layup:skin').captions.day.texts[0]).toBe(
      '08:00–11:00 Lay up outer skin, Iva, Tomé',
    );
  });

  test('the spoken name says everything', () => {
    expect(item('layup:skin').spoken).toBe(
      'Lay up outer skin. Fri 26 Mar 08:00 to Fri 26 Mar 11:00. By Iva, Tomé. Nothing to spare. ' +
        'Latest start Fri 26 Mar 08:00. A delay here delays the end.',
    );
    expect(item('fair:1').spoken).toContain('12 h to spare.');
    expect(item('outside:outside-1').spoken).toContain('2 h 30 min late.');
    expect(item('cure:skin').spoken).toContain(
      'Gel from Fri 26 Mar 19:20. Gel by Fri 26 Mar 22:40.',
    );
    expect(item('cure:skin').spoken).toContain('Full cure from: not reached.');
  });

  test('now, the deadline and every item lie inside what is drawn', () => {
    const spans = spansOf(outcome, rows);
    expect(Math.min(...spans.map((span) => span.start))).toBe(outcome.detail.now);
    expect(Math.max(...spans.map((span) => span.end))).toBe(outcome.detail.deadline);
  });
});

describe('closing times', () => {
  const words = { closes: 'Separate cures close then.', after: 'After that nothing fits.' };
  const limits = limitsOf(
    handMadeOutcome({
      result: {
        routes: [
          route('skin', '2027-03-26T08:00+00:00', { closingWords: words }),
          route('skin+core', '2027-03-26T08:00+00:00'),
          route('skin/core/inner', '2027-03-25T10:03+00:00'),
          route('skin~core', null),
          route('core', '2027-03-27T08:00+00:00', { possible: false }),
          route('inner', '2027-03-20T08:00+00:00', { open: false }),
        ],
      },
    }),
  );

  test('ways that close in the same minute share a line; closed and impossible ones have none', () => {
    expect(limits.map(({ at: minute }) => minute)).toEqual([
      at('2027-03-25T10:03'),
      at('2027-03-26T08:00'),
    ]);
  });

  test('the taken way says in one sentence what is over from then on', () => {
    expect(limits.map(({ taken }) => taken)).toEqual([false, true]);
    expect(limits[1]!.words).toBe('After Fri 26 Mar 08:00 nothing fits.');
    expect(limits[1]!.spoken).toContain('Separate cures close then. After that nothing fits.');
    expect(limits[0]!.words).toBe('3 cures close Thu 25 Mar 10:03');
  });
});
