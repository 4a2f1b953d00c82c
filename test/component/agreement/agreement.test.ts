/**
 * One answer: what the screen shows of a build is what the headless command says of it, in JSON and
 * on paper. Figures are worded here anew, so that a slip of the screen's own words shows.
 */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CureResult, PlanResult, RouteResult } from '../../../app/document/schema.ts';
import { sheetsHtml } from '../../../app/shop/sheets.ts';
import { jsonOf, V1, type Indexed } from '../../fixtures/read.ts';
import { inFolder, runPlan, sample } from '../../unit/command/command.ts';
import { openScreen, type Screen } from './screen.ts';

const NOW = '2027-04-19T08:00+01:00';
const SAMPLES = [
  'harbour-gate-sign',
  'low-water-canopy',
  'marl-quay-hatch',
  'shell-6kg',
  'wren-sound-shell',
];
/** Begun and recorded; heat over a cure; a date that cannot be met. */
const FIXTURES = ['half-done', 'heated', 'drawn-too-late'];
const indexed = jsonOf<Indexed[]>('index.json');

const CASES = [
  ...SAMPLES.map((name) => ({ name, file: sample(name), now: NOW })),
  ...FIXTURES.map((name) => {
    const file = `documents/${name}.build.json`;
    const { now } = indexed.find(({ document }) => document === file)!;
    return { name, file: join(V1, file), now };
  }),
];

const MONTHS = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');
const DAYS = 'Sun Mon Tue Wed Thu Fri Sat'.split(' ');
/** `Mon 3 May 12:00` of the wall clock that an instant carries. */
function wall(iso: string): string {
  const [year, month, day] = iso.slice(0, 10).split('-').map(Number) as [number, number, number];
  const weekday = DAYS[new Date(Date.UTC(year, month - 1, day)).getUTCDay()];
  return `${weekday} ${day} ${MONTHS[month - 1]} ${iso.slice(11, 16)}`;
}
/** A word of each finish as the screen tells it. */
const FINISH = { clear: 'clear finish', painted: 'paint', hidden: 'hidden' } as const;
/** In steps of five percent, never certain and never impossible. */
function chanceOf(chance: number): RegExp {
  const percent = Math.round(chance * 20) * 5;
  if (percent >= 100) return /better than 95/;
  return percent <= 0 ? /less than 5/ : new RegExp(`about ${percent} `);
}
const textOf = (element: Element | null | undefined): string =>
  (element?.textContent ?? '').replace(/\s+/g, ' ').trim();
/** Every figure before a unit, as numbers: `3.03 kg (6.68 lb)` has 3.03 before kg. */
const figures = (text: string, unit: string): number[] =>
  [...text.matchAll(new RegExp(`(-?[\\d.]+) ${unit}`, 'g'))].map((match) => Number(match[1]));
/** Hours of work are shown to the tenth, weights to ten grams, all the way through. */
const hoursIn = (text: string): number => figures(text, 'h')[0]!;
const kgIn = (text: string): number => figures(text, 'kg')[0]!;
/** Whole and minor digits of `A$1,694.73` or `€ 1,240`. */
const moneyIn = (text: string): number =>
  Number(/[\d,]+(\.\d+)?/.exec(text)![0].replaceAll(',', ''));

describe.each(CASES)('$name', ({ file, now }) => {
  let said: PlanResult;
  let html: string;
  let paper: Document;
  let screen: Screen;

  beforeAll(async () => {
    const { value } = await inFolder(async (folder) => {
      const out = join(folder, 'plan.html');
      const command = runPlan([file, '--now', now, '--json', '--html', out]);
      screen = await openScreen(JSON.parse(await readFile(file, 'utf8')) as object, now);
      const { status, stdout, stderr } = await command;
      if (status > 1) throw new Error(stderr);
      return { stdout, html: await readFile(out, 'utf8') };
    });
    said = JSON.parse(value.stdout) as PlanResult;
    html = value.html;
    paper = new DOMParser().parseFromString(html, 'text/html');
  }, 120_000);
  afterAll(() => screen.close());

  const onPaper = (id: string): Element => {
    const sheet = [...paper.querySelectorAll('.sheet')].find((one) => one.id === id);
    if (!sheet) throw new Error(`no sheet ${id}`);
    return sheet;
  };
  const placed = (): CureResult[] => said.cures.filter(({ firstMix }) => firstMix !== null);

  it('is the same answer, and the same paper', () => {
    const shown = JSON.parse(JSON.stringify(screen.planner.result)) as PlanResult;
    expect(shown).toEqual(said);
    expect(sheetsHtml(screen.planner.outcome!)).toBe(html);
  });

  it('fits or not, and says the next moment that cannot move', () => {
    const fit = textOf(screen.find('[data-answer="fit"]'));
    expect(/\bFits\b/.test(fit)).toBe(said.fits);
    if (said.fits || (said.lateMinutes ?? 0) > 0) {
      expect(fit).toContain(`shown ${wall(said.deadline)}`);
      const ends = said.stages.flatMap(({ end }) => end ?? []);
      const last = ends.reduce((a, b) => (Date.parse(b) > Date.parse(a) ? b : a));
      expect(fit).toContain(`Ready ${wall(last)}`);
    }
    // The closing time of the taken route, wherever it is told; a route that never fits has none.
    const taken = said.routes.find(({ id }) => id === said.route.id)!;
    expect(said.nextDeadline!.by).toBe(taken.closes === null ? 'plan' : 'closing');
    if (taken.closes !== null) expect(said.nextDeadline!.at).toBe(taken.closes);
    expect(textOf(screen.find('[data-answer="next"]'))).toContain(wall(said.nextDeadline!.at));
  });

  it('has the hours, cost and weight of the totals, each the sum of its lines', async () => {
    const { labourHours, materialCost, massKg } = said.totals;
    const totals = textOf(screen.find('.band .totals'));
    expect(hoursIn(/Hands on (.*?)Material/.exec(totals)![1]!)).toBe(labourHours);
    const shownMoney = moneyIn(/Material (.*?)Weight/.exec(totals)![1]!);
    expect(shownMoney).toBe(Math.round(materialCost / 100));
    // Its label names the target first, if there is one.
    expect(kgIn(/Weight(?:, target [\d.]+ kg)? (.*)/.exec(totals)![1]!)).toBe(massKg);
    const tray = await screen.tray('totals');
    const sections = [...tray.querySelectorAll('section')].map((section) =>
      [...section.querySelectorAll('tr')].map((row) => [...row.children].map(textOf)),
    );
    const [masses, costs, hours] = sections as [string[][], string[][], string[][]];
    const lists = [
      [masses, kgIn, massKg],
      [costs, (text: string) => moneyIn(text.split('= ')[1]!), materialCost / 100],
      [hours, hoursIn, labourHours],
    ] as const;
    for (const [rows, read, total] of lists) {
      const end = rows.findIndex(([name]) => name === 'Together');
      const lines = rows.slice(0, end).map(([, value]) => read(value!));
      expect(lines.length).toBeGreaterThan(1);
      expect(lines.reduce((all, one) => all + one, 0)).toBeCloseTo(total, 6);
      expect(read(rows[end]![1]!)).toBeCloseTo(total, 6);
    }
  });

  it('has the same findings in the same words, on the screen and on paper', async () => {
    const tray = await screen.tray('findings');
    const shown = [...tray.querySelectorAll('[data-finding]')].map((one) => [
      one.getAttribute('data-finding'),
      textOf(one.querySelector('.body > p')),
    ]);
    const order = ['stop', 'warn', 'note'].flatMap((severity) =>
      said.findings.filter((finding) => finding.severity === severity),
    );
    const squeezed = (text: string): string => text.replace(/\s+/g, ' ').trim();
    expect(shown).toEqual(order.map(({ code, message }) => [code, squeezed(message)]));
    const stops = order.filter(({ severity }) => severity === 'stop');
    for (const { message } of stops) expect(textOf(paper.body)).toContain(squeezed(message));
  });

  it('lists every route with its verdict, closing time, hours, cost, weight and odds', async () => {
    const tray = await screen.tray('routes');
    const heads = [...tray.querySelectorAll('th[data-route]')];
    expect(heads.map((head) => head.getAttribute('data-route')).sort()).toEqual(
      said.routes.map(({ id }) => id).sort(),
    );
    const cellsOf = ({ id }: RouteResult): Readonly<Record<string, string>> =>
      Object.fromEntries(
        [...tray.querySelectorAll<HTMLElement>('td[data-row]')]
          .filter((cell) => cell.dataset['of'] === id)
          .map((cell) => [cell.dataset['row']!, textOf(cell)]),
      );
    for (const route of said.routes) {
      const cells = cellsOf(route);
      const verdict = !route.possible ? 'Cannot be done' : route.fits ? '✓ Fits' : 'Does not fit';
      expect(cells['fits']).toContain(verdict);
      expect(hoursIn(cells['hours']!)).toBe(route.labourHours);
      expect(moneyIn(cells['cost']!)).toBe(Math.round(route.materialCost / 100));
      expect(kgIn(cells['mass']!)).toBe(route.massKg);
      expect(cells['finish']).toContain(FINISH[route.finish]);
      expect(cells['ready']).toBe(route.ready ? wall(route.ready) : '–');
      if (route.onTime === null) expect(cells['onTime']).toBe('–');
      else expect(cells['onTime']).toMatch(chanceOf(route.onTime));
      if (route.possible && route.closes !== null) {
        const moment = wall(route.closes);
        expect(cells['closes']).toBe(route.closesProven ? moment : `not before ${moment}`);
      }
    }
  });

  it('gives every cure the same moments and the same Tg, at the bench, as a stage and on its card', async () => {
    const roomC = screen.planner.outcome!.detail.build.room.temperatureC.day;
    for (const cure of placed()) {
      const { id, tgC, tgAtDemouldC } = cure;
      const card = onPaper(`cure-${id}`);
      const stage = said.stages.find((one) => one.cure === id && one.kind === 'cure')!;
      screen.planner.selected = stage.id;
      const asStage = textOf(await screen.tray('stage'));
      const bench = await screen.tray('chemistry', { chemistryTab: 'cure' });
      expect(bench.querySelector('[data-cure]')?.getAttribute('data-cure')).toBe(id);
      const story = (key: string): string =>
        textOf(bench.querySelector(`[data-moment="${key}"] td`));
      const moments = [
        ['First mix', null, cure.firstMix],
        ['Bag down by', null, cure.bagBy],
        ['Gel from', 'gel', cure.gel],
        ['Gel by', null, cure.gelLatest],
        ['Bag off from', 'debag', cure.debagFrom],
        ['Demould from', 'demould', cure.demouldFrom],
        ['Sand from', 'sand', cure.sandFrom],
      ] as const;
      for (const [label, key, at] of moments) {
        if (at === null) {
          if (key) expect(story(key)).toContain('never in this room');
          continue;
        }
        expect(asStage).toContain(`${label} ${wall(at)}`);
        if (key) expect(story(key)).toContain(wall(at));
        // The card of a cure after which the part stays in its mould says nothing of demoulding.
        const isOnCard = /emould|Sand/.test(label) ? /[Dd]emould/.test(textOf(card)) : true;
        if (isOnCard) expect(textOf(card)).toContain(at.slice(11, 16));
      }
      if (cure.openUntil !== null) expect(story('open')).toContain(wall(cure.openUntil));
      if (cure.fullFrom !== null) {
        expect(story('full')).toContain(wall(cure.fullFrom));
        // A post-cure makes it sooner than the room does.
        expect(textOf(card)).toMatch(
          new RegExp(`(Full cure|in the room alone) from ${wall(cure.fullFrom)}\\.`),
        );
      }
      const inWords = (glassC: number): string =>
        glassC <= roomC ? 'not cured enough to tell' : `about ${glassC.toFixed(0)} °C`;
      if (tgAtDemouldC !== null) {
        expect(asStage).toContain(`Tg at demould ${inWords(tgAtDemouldC)}`);
        expect(textOf(bench)).toContain(`At demould Tg is ${inWords(tgAtDemouldC)}`);
      }
      if (tgC === null) continue;
      expect(asStage).toContain(`Tg at the end ${inWords(tgC)}`);
      expect(textOf(bench.querySelector('[data-tg]'))).toContain(`it is ${inWords(tgC)}`);
      expect(textOf(card.querySelector('.head-sub'))).toContain(inWords(tgC));
    }
  });

  it('prints a line for every mix, with its grams and its two times', () => {
    for (const { cure, batch, totalG, resinG, mixAt, useBy } of said.mixes) {
      const line = paper.querySelector(`[id="mix-${cure}-${batch}"]`)!;
      const [from, until, weighed] = [...line.querySelectorAll('.weigh')].map(textOf);
      const resin = Number.parseFloat(weighed!);
      const sum = Number(textOf(line.querySelector('.reading')));
      // A scale shows a tenth of a gram, or half of one where the batch allows it.
      expect(Math.abs(resin - resinG)).toBeLessThanOrEqual(0.5 + 1e-9);
      expect(Math.abs(sum - totalG)).toBeLessThanOrEqual(1 + 1e-9);
      const times = [mixAt, useBy].map((at) => at?.slice(11, 16) ?? '–');
      expect([from, until]).toEqual(times);
    }
    expect(paper.querySelectorAll('tr[id^="mix-"]').length).toBe(
      said.stages.some(({ start }) => start !== null) ? said.mixes.length : 0,
    );
  });

  it('weighs the counted state as the totals do, and orders the kit that the paper lists', async () => {
    const { targetIncludes } = screen.planner.outcome!.detail.build.part;
    const laminate = await screen.tray('part', { partTab: 'laminate' });
    const state = textOf(laminate.querySelector(`[data-figure="weight-${targetIncludes}"]`));
    expect(kgIn(state)).toBe(said.totals.massKg);
    const kit = await screen.tray('part', { partTab: 'kit' });
    // The last row is what all come to.
    const list = [...paper.querySelectorAll('.sheet-shopping tbody tr:not(.group)')]
      .slice(0, -1)
      .map((row) => [...row.children].map(textOf));
    const shown = [...kit.querySelectorAll('tr[data-kit]')].map((row) =>
      [...row.children].map(textOf),
    );
    const ordered = (order = '', by = '') => [order, by.replace(/ ?\d+ days? to arrive/, '')];
    expect(shown.map(([, , , order, by]) => ordered(order, by))).toEqual(
      list.map(([, , order, by]) => ordered(order, by)),
    );
    // A line that stands alone in its group has the group's name before it; a comma parts its detail.
    const plain = (name = '') => name.replaceAll(', ', ' ');
    for (const [i, [name]] of shown.entries()) {
      expect(plain(list[i]![0]).endsWith(plain(name)), `${list[i]![0]} is ${name}`).toBe(true);
    }
  });
});
