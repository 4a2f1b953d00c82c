import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batchesCsv, cell, stagesCsv } from '../../../app/shop/csv.ts';
import { handMadeOutcome } from './outcome.ts';
import { forAll } from '../../support/draws.ts';

/** Reads RFC 4180 text back: quotes, doubled quotes, CRLF. */
function parseCsv(text: string): string[][] {
  const rows: string[][] = [[]];
  let field = '';
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const character = text[i]!;
    if (quoted) {
      if (character !== '"') field += character;
      else if (text[i + 1] === '"') field += text[i++];
      else quoted = false;
    } else if (character === '"') quoted = true;
    else if (character === ',') {
      rows.at(-1)!.push(field);
      field = '';
    } else if (character === '\r' && text[i + 1] === '\n') {
      rows.at(-1)!.push(field);
      field = '';
      rows.push([]);
      i++;
    } else field += character;
  }
  return rows.slice(0, -1);
}

describe('stages as a table', () => {
  const rows = parseCsv(stagesCsv(handMadeOutcome()));

  test('the head names zone and units, every row has as many cells', () => {
    expect(rows[0]).toContain('start (Europe/Lisbon)');
    expect(rows[0]).toContain('float (h)');
    expect(new Set(rows.map((row) => row.length))).toEqual(new Set([rows[0]!.length]));
  });

  test('times are wall-clock times on both sides of the change to summer time', () => {
    const start = rows[0]!.indexOf('start (Europe/Lisbon)');
    const offset = rows[0]!.indexOf('UTC offset at start (min)');
    const byId = new Map(rows.map((row) => [row[0], row]));
    expect(byId.get('layup:skin')![start]).toBe('2027-03-26 08:00');
    expect(byId.get('layup:skin')![offset]).toBe('0');
    expect(byId.get('bag-off:skin')![start]).toBe('2027-03-29 07:30');
    expect(byId.get('bag-off:skin')![offset]).toBe('60');
  });

  test('a float below zero stays a number', () => {
    const float = rows[0]!.indexOf('float (h)');
    expect(rows.find((row) => row[0] === 'outside:outside-1')![float]).toBe('-2.5');
  });

  test('a stage without a place keeps its line', () => {
    const outcome = handMadeOutcome();
    const bare = { ...outcome.result.stages[0]!, start: null, end: null, floatHours: null };
    const text = stagesCsv({ ...outcome, result: { ...outcome.result, stages: [bare] } });
    expect(parseCsv(text)).toHaveLength(2);
  });
});

describe('batches as a table', () => {
  const outcome = handMadeOutcome();
  const [head, ...rows] = parseCsv(batchesCsv(outcome));
  const column = (name: string) => rows.map((row) => row[head!.indexOf(name)]);

  test('has a line for every mix with the figures of its card', () => {
    expect(rows).toHaveLength(outcome.result.mixes.length);
    expect(new Set(rows.map(({ length }) => length))).toEqual(new Set([head!.length]));
    expect(column('cure')).toEqual(['skin', 'skin', 'skin']);
    expect(column('mix at (Europe/Lisbon)')[0]).toBe('2027-03-26 08:00');
    expect(column('use by (Europe/Lisbon)')[0]).toBe('2027-03-26 09:35');
    expect(column('UTC offset at mix (min)')).toEqual(['0', '0', '0']);
    expect(column('goes on')[0]).toBe('Outer skin');
    expect(column('not to be built')).toEqual(['', '', '']);
  });

  test('resin and hardener come to what the scale reads, and lie between its limits', () => {
    for (const row of rows) {
      const gram = (name: string) => Number(row[head!.indexOf(`${name} (g)`)]);
      expect(gram('resin') + gram('hardener')).toBeCloseTo(gram('scale reads after hardener'), 6);
      expect(gram('lowest')).toBeLessThan(gram('scale reads after hardener'));
      expect(gram('highest')).toBeGreaterThan(gram('scale reads after hardener'));
    }
  });

  test('a cure that is withheld says why on every line', () => {
    const { result } = outcome;
    const stages = result.stages.map((stage) =>
      stage.kind === 'layup' ? { ...stage, withheld: ['No pump, "none" at all.'] } : stage,
    );
    const held = parseCsv(batchesCsv({ ...outcome, result: { ...result, stages } }));
    const at = held[0]!.indexOf('not to be built');
    expect(held.slice(1).map((row) => row[at])).toEqual(
      Array.from({ length: rows.length }, () => 'No pump, "none" at all.'),
    );
  });
});

describe('cells', () => {
  test.each(['=1+2', '+1', '-cmd', '@SUM(A1)', '\tx', '\rx'])(
    'text that a spreadsheet would run is made text: %j',
    (text) => {
      expect(parseCsv(`${cell(text)}\r\n`)[0]![0]).toBe(`'${text}`);
    },
  );

  test('any other text comes back as it was', () => {
    forAll(
      fc.property(fc.string(), (text) => {
        fc.pre(!/^[=+\-@\t\r\n]/.test(text));
        expect(parseCsv(`${cell(text)},\r\n`)[0]![0]).toBe(text);
      }),
      { seed: 1 },
    );
  });
});
