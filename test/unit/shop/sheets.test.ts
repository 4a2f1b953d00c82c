import { describe, expect, test } from 'vitest';
import { DEFERRAL } from '../../../app/messages/safety.ts';
import { paperwork, sheetsHtml, sideNodes } from '../../../app/shop/sheets.ts';
import { sideHead } from '../../../app/shop/sideHead.ts';
import { buildSheets } from '../../support/sheets.ts';
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
  test('a week overview for every week, a sheet for every working day, cards for the mixes and the cure of every cure', () => {
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
    expect(of('mix').map((sheet) => sheet.id)).toEqual(['mix-skin']);
    // The hand-made plan has no demould.
    expect(of('cure').map((sheet) => sheet.id)).toEqual(['cure-skin']);
    expect(of('go')).toHaveLength(1);
    expect(of('holds')).toHaveLength(1);
  });

  test('ids are unique; every side names build, what is on it, pack, number and plan', () => {
    expect(new Set(sheets.map((sheet) => sheet.id)).size).toBe(sheets.length);
    const work = paperwork(outcome);
    const heads = sideNodes(work).map((side) => textOf(side.children[0]!));
    expect(heads).toHaveLength(work.sides);
    for (const head of heads) {
      expect(head).toMatch(
        /^Lantern cover <7>, "south": .+ (Wall|Bench|Painter), side \d+ of \d+\. Plan of Wed 24 Mar 2027 09:00, times in Europe\/Lisbon$/,
      );
    }
    expect(heads[0]).toContain('Week 1');
    const bench = work.packs.find(({ pack }) => pack === 'bench')!.sides.length;
    expect(heads.filter((head) => head.includes(`Bench, side ${bench} of ${bench}`))).toHaveLength(
      1,
    );
  });

  test('the head of a side holds whole names, and says how many more there are', () => {
    const work = paperwork(outcome);
    const bench = work.packs.find(({ pack }) => pack === 'bench')!;
    const mix = bench.sheets.find(({ kind }) => kind === 'mix')!;
    const names = ['Outer skin', 'Inner skin', 'Closeout strips', 'Local plies'];
    const crowded = names.map((name) => ({ ...mix, short: `Mixes: ${name}` }));
    const side = { ...bench.sides[0]!, landscape: false, sheets: crowded };
    const left = (buildName: string): string =>
      textOf(sideHead({ ...work, buildName }, side, 'Bench, side 1 of 9').children[0]!);
    // On two smaller lines where one does not hold them all, and fewer where two do not.
    expect(left('Gate')).toBe('Gate: Mixes: Outer skin, Inner skin, Closeout strips, Local plies');
    const long = 'Gate of the old town '.repeat(5).trim();
    expect(left(long)).toMatch(new RegExp(`^${long}: Mixes: Outer skin.* and [123] more$`));
    expect(left('Gate '.repeat(40))).toMatch(/^(Gate )+Ga?t?e?…: Mixes: Outer skin and 3 more$/);
    const level = { ...side, landscape: true };
    expect(textOf(sideHead({ ...work, buildName: 'Gate' }, level, 'Bench, side 1 of 9'))).toContain(
      'Gate: Mixes: Outer skin, Inner skin, Closeout strips, Local plies',
    );
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

test('who has no work in a week has no empty row there, and is named below the days', () => {
  expect(text('week-2027-03-25')).not.toContain('No work this week');
  const away = text('week-2027-04-05');
  expect(away).toContain('No work this week: all.');
  for (const name of ['Iva', 'Tomé']) expect(away).not.toContain(name);
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
    expect(text('week-2027-03-25')).toContain(`; ${doors}`);
    // On its own day, and on the line of the one who does it, its date is not said again.
    expect(text('day-2027-03-28')).toContain(
      'Outer skin: off from 06:00; taken off Mon 29 Mar 07:30',
    );
    expect(text('cure-skin')).toContain(`O${doors.slice(1)}`);
    expect(rowWith('holds', 'Bag off')).toContain('Off from Sun 28 Mar 06:00. Smear snaps');
    expect(rowWith('day-2027-03-29', 'Bag off: outer skin')).toContain('Off from Sun 28 Mar 06:00');
    expect(rowWith('holds', 'Bag off')).toContain('Mon 29 Mar 07:30');
  });

  test('has a sheet for every day on which the pump runs, with who looks', () => {
    const until = 'Outer skin: until the bag is taken off';
    for (const date of ['26', '27', '28']) {
      expect(text(`day-2027-03-${date}`)).toContain(`The pump runs. ${until} Mon 29 Mar 07:30`);
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
  test('says what to do when the pump fails or a leak stays open', () => {
    const card = text('cure-skin');
    expect(card).toMatch(/The pump fails: clamp the hose.*spare pump/);
    expect(card).toMatch(/A leak will not close: listen.*zone by zone.*second bag over/);
  });

  test('plans the sum of what its mix cards weigh out', () => {
    expect(text('cure-skin')).toContain('planned 1260.3 g');
    expect(rowWith('mix-skin', 'Together')).toMatch(/1000.2 g 1260.3 g/);
  });
});

describe('cards', () => {
  test('the mix card carries the cumulative reading, its bounds and the two times', () => {
    const lines = rowsOf(sheets.find(({ id }) => id === 'mix-skin')!.body);
    const second = textOf(lines.find(({ attrs }) => attrs.id === 'mix-skin-2')!);
    expect(second).toBe('2 09:03 10:38 333.4 g Outer skin 420.1 418.4 and 421.8\u00a0g');
    expect(text('mix-skin')).toContain('Hardener lot');
  });

  test('small cards hang one at every cup, with the same figures', () => {
    const { packs } = paperwork(outcome, { kind: 'mix', mixes: 'small' });
    const said = textOf(packs[0]!.sheets[0]!.body);
    expect(said.match(/Mix \d of 3/g)).toEqual(['Mix 1 of 3', 'Mix 2 of 3', 'Mix 3 of 3']);
    expect(said).toContain('Then to 420.1 g with hardener, 418.4 to 421.8.');
  });

  test('the way out when the bag is late stands where the mixing is', () => {
    expect(text('mix-skin')).toContain('If the bag is not down by 11:40 (Fri 26 Mar):');
  });

  test('the ply list counts the plies of the layups that are cured', () => {
    expect(text('go-skin')).toContain('Plies counted: 2 pieces, numbers 1, 2 of the ply book');
    expect(rowWith('ply-book', '45°')).toContain('Glass 2/2 twill 300 g/m2');
  });

  test('every side defers to data sheets and trained people', () => {
    for (const side of sideNodes(paperwork(outcome))) expect(textOf(side)).toContain(DEFERRAL);
  });

  test('a caution is said once, on the day on which its step is first met', () => {
    const dust = 'Dust: extraction at the tool';
    const days = of('day').filter((sheet) => textOf(sheet.body).includes(dust));
    expect(days.map(({ id }) => id)).toEqual(['day-2027-03-30']);
  });
});

describe('the printable document', () => {
  const html = sheetsHtml(outcome);

  test('is whole by itself: no script, nothing loaded from elsewhere', () => {
    expect(html).not.toMatch(/<script|<link|<img|url\(|@import|https?:/i);
  });

  test('escapes what people typed', () => {
    expect(html).toContain('Lantern cover &lt;7&gt;, &quot;south&quot;');
    expect(html).not.toContain('<7>');
  });

  test('is the same to the byte when made again', () => {
    expect(sheetsHtml(handMadeOutcome())).toBe(html);
  });
});
