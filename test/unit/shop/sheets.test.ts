import { describe, expect, test } from 'vitest';
import { DEFERRAL } from '../../../app/messages/safety.ts';
import { buildSheets, sheetsHtml } from '../../../app/shop/sheets.ts';
import { cssString } from '../../../app/shop/style.ts';
import { textOf, type SheetChild, type SheetNode } from '../../../app/shop/tree.ts';
import { handMadeOutcome } from './outcome.ts';

const outcome = handMadeOutcome();
const { sheets } = buildSheets(outcome);
const of = (kind: string) => sheets.filter((sheet) => sheet.kind === kind);
const text = (id: string): string => textOf(sheets.find((sheet) => sheet.id === id)!.body);

function rowsOf(node: SheetChild): SheetNode[] {
  if (typeof node === 'string') return [];
  const below = node.children.flatMap(rowsOf);
  return node.tag === 'tr' ? [node, ...below] : below;
}
const rowWith = (id: string, part: string): string =>
  rowsOf(sheets.find((sheet) => sheet.id === id)!.body)
    .map(textOf)
    .find((row) => row.includes(part)) ?? '';

describe('the set of sheets', () => {
  test('a week overview for every week, a sheet for every working day, a card for every batch and cure', () => {
    expect(of('week').map((sheet) => sheet.id)).toEqual([
      'week-2027-03-25',
      'week-2027-03-29',
      'week-2027-04-05',
    ]);
    expect(of('day').map((sheet) => sheet.id)).toEqual([
      'day-2027-03-25',
      'day-2027-03-26',
      // Nobody works on the weekend; the pump runs.
      'day-2027-03-27',
      'day-2027-03-28',
      'day-2027-03-29',
      'day-2027-03-30',
      'day-2027-03-31',
    ]);
    expect(of('mix').map((sheet) => sheet.id)).toEqual(['mix-skin-1', 'mix-skin-2', 'mix-skin-3']);
    // The hand-made plan has no demould.
    expect(of('cure').map((sheet) => sheet.id)).toEqual(['cure-skin']);
    expect(of('go')).toHaveLength(1);
    expect(of('holds')).toHaveLength(1);
  });

  test('ids are unique and every sheet names the build', () => {
    expect(new Set(sheets.map((sheet) => sheet.id)).size).toBe(sheets.length);
    for (const sheet of sheets) expect(textOf(sheet.body)).toContain('Lantern cover <7>, "south"');
  });

  test('a plan in which nothing is placed prints one sheet that says why', () => {
    const message = 'Nobody is on the crew.';
    const stop = { code: 'crew-empty', severity: 'stop', stage: null, message } as const;
    const bare = handMadeOutcome({
      result: {
        stages: outcome.result.stages.map((stage) => ({ ...stage, start: null, end: null })),
        findings: [{ ...stop, numbers: {}, levers: [] }],
        fits: false,
      },
    });
    const only = buildSheets(bare).sheets;
    expect(only).toHaveLength(1);
    expect(textOf(only[0]!.body)).toContain(message);
  });
});

describe('times on paper', () => {
  test('are the wall clock of the build on both sides of the change to summer time', () => {
    expect(rowWith('day-2027-03-26', 'Lay up outer skin')).toMatch(/^08:00–11:00/);
    expect(rowWith('day-2027-03-29', 'Bag off: outer skin')).toMatch(/^07:30–08:30/);
    expect(text('week-2027-03-25')).toContain('Sun 28 Mar (clocks change: 23 h)');
  });

  test('work over two days stands on both, each with its own hours', () => {
    expect(rowWith('day-2027-03-30', 'Longboard')).toMatch(/^15:00–16:30.*day 1 of 2/);
    expect(rowWith('day-2027-03-31', 'Longboard')).toMatch(/^07:30–11:00.*day 2 of 2/);
  });

  test('a gel with nobody there is said on the day sheet and in the cure log', () => {
    expect(rowWith('day-2027-03-26', 'Gel')).toContain('nobody in the shop');
    expect(text('day-2027-03-26')).toContain(
      'Outer skin gels Fri 26 Mar 19:20 to 22:40, with nobody there at first',
    );
    expect(rowWith('cure-skin', 'Gel from here on: try the smear')).toContain('Nobody in the shop');
  });

  test('the log goes on to the latest gel', () => {
    expect(rowWith('cure-skin', 'Latest gel')).toMatch(/^(Fri 26 Mar )?22:40/);
  });

  test('the log is read while the vacuum is watched, and its nights hold no empty boxes', () => {
    expect(rowWith('cure-skin', '11:15')).toContain('Watched');
    expect(rowWith('cure-skin', '11:15')).toContain('20');
    const nights = rowsOf(sheets.find((sheet) => sheet.id === 'cure-skin')!.body).filter((row) =>
      textOf(row).includes('Nobody in the shop'),
    );
    for (const night of nights) expect(night.children).toHaveLength(2);
  });
});

describe('an empty shop', () => {
  const doors = 'off from Sun 28 Mar 06:00; taken off Mon 29 Mar 07:30';

  test('reads as what people can do, in the same words on every sheet', () => {
    expect(text('week-2027-03-25')).toContain(`Outer skin: ${doors}`);
    expect(text('day-2027-03-28')).toContain(`Outer skin: ${doors}`);
    for (const id of ['cure-skin', 'holds']) expect(text(id)).toContain(`O${doors.slice(1)}`);
    expect(rowWith('day-2027-03-29', 'Bag off: outer skin')).toContain('Off from Sun 28 Mar 06:00');
    expect(rowWith('holds', 'Bag off')).toContain('Mon 29 Mar 07:30');
  });

  test('has a sheet for every day on which the pump runs, with who looks', () => {
    const until = 'Outer skin: until the bag is taken off';
    for (const date of ['26', '27', '28']) {
      expect(text(`day-2027-03-${date}`)).toContain(`The pump runs ${until} Mon 29 Mar 07:30`);
    }
    expect(text('day-2027-03-29')).toContain(`${until} 07:30 today`);
    expect(text('day-2027-03-26')).toContain('Iva, Tomé look at pump, gauge and bag.');
    for (const date of ['27', '28']) {
      expect(text(`day-2027-03-${date}`)).toContain('Nobody is in the shop today');
    }
    expect(text('day-2027-03-30')).not.toContain('The pump runs');
  });
});

describe('the cure card', () => {
  test('says what to do when the pump fails, a leak stays open, the bag is late', () => {
    const card = text('cure-skin');
    expect(card).toMatch(/The pump fails: clamp the hose.*spare pump/);
    expect(card).toMatch(/A leak will not close: listen.*zone by zone.*second bag over/);
    expect(card).toContain('If the bag is not down by 11:40');
  });

  test('plans the sum of what its mix cards weigh out', () => {
    expect(text('cure-skin')).toContain('planned 1260.3 g');
    expect(rowWith('go-skin', 'Together')).toMatch(/1000.2 g 1260.3 g/);
  });
});

describe('cards', () => {
  test('the mix card carries the cumulative reading, its bounds and the two times', () => {
    expect(text('mix-skin-2')).toContain(
      'Scale reads after hardener 420.1 g between 418.4 and 421.8',
    );
    expect(text('mix-skin-2')).toContain('09:03');
    expect(text('mix-skin-2')).toContain('10:38');
    expect(text('mix-skin-2')).toContain('Hardener lot');
  });

  test('only the last card carries the way out', () => {
    const wayOut = 'If the bag is not down by 11:40 (Fri 26 Mar):';
    expect(of('mix').map((sheet) => textOf(sheet.body).includes(wayOut))).toEqual([
      false,
      false,
      true,
    ]);
    expect(text('cure-skin')).toContain(wayOut);
  });

  test('the ply list counts the plies of the layups that are cured', () => {
    expect(rowWith('go-skin', '45°')).toContain('Glass 2/2 twill 300 g/m2');
    expect(text('go-skin')).toContain('Plies counted: 2 pieces');
  });

  test('sheets that stand where work can hurt defer to data sheets and trained people', () => {
    for (const sheet of [...of('day'), ...of('mix'), ...of('cure'), ...of('go')]) {
      expect(textOf(sheet.body)).toContain(DEFERRAL);
    }
  });
});

describe('the printable document', () => {
  const html = sheetsHtml(outcome);

  test('is whole by itself: no script, nothing loaded from elsewhere', () => {
    expect(html).not.toMatch(/<script|<link|<img|url\(|@import|https?:/i);
  });

  test('escapes what people typed, in the page and in the page foot', () => {
    expect(html).toContain('Lantern cover &lt;7&gt;, &quot;south&quot;');
    expect(html).not.toContain('<7>');
    expect(cssString('a"b</style>\n\\')).toBe('"a\\22 b\\3c /style\\3e \\a \\5c "');
  });

  test('is the same to the byte when made again', () => {
    expect(sheetsHtml(handMadeOutcome())).toBe(html);
  });
});
