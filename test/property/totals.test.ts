/**
 * Every total is the sum of the rows shown under it, in JSON, on the screen and on paper, and every
 * figure is the same wherever it stands: in every sample and in drawn builds.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plan } from '../../app/answer/plan.ts';
import type { Build } from '../../app/document/schema.ts';
import { roundedWeightRows } from '../../app/part/weight.ts';
import { hoursByRow } from '../../app/plan/hoursByRow.ts';
import { FIRST_ANSWER, FULL_ANSWER, type PlanOutcome } from '../../app/plan/outcome.ts';
import { sheetsHtml } from '../../app/shop/sheets.ts';
import { costLines, hourLines, weightLines } from '../../app/shop/origins/lines.ts';
import type { Origin } from '../../app/shop/origins/origin.ts';
import { costOrigin, labourOrigin, massOrigin, TOGETHER } from '../../app/shop/origins/totals.ts';
import { stateOrigin } from '../../app/shop/origins/part.ts';
import { massWords, roundedToSum, workHoursWords } from '../../app/units/summed.ts';
import { money } from '../../app/units/words.ts';
import { projectRoot } from '../../main/root.ts';
import { library, NOW, read } from '../support/builds.ts';
import { drawnBuilds } from '../support/drawn-builds.ts';
import { printedSheets, type PrintedSheet } from '../support/paper.ts';
import { forAll } from '../support/draws.ts';

const SAMPLES = join(projectRoot(), 'samples');
const samples = readdirSync(SAMPLES)
  .filter((name) => name.endsWith('.build.json'))
  .map((name): [string, Build] => {
    const answer = read(JSON.parse(readFileSync(join(SAMPLES, name), 'utf8')));
    if (!answer.ok) throw new Error(`${name} cannot be read`);
    return [name, answer.document];
  });

const counted = {
  plans: 0,
  filler: 0,
  price: 0,
  weights: 0,
  batches: 0,
  shopping: 0,
  overs: 0,
  otherRoutes: 0,
  lines: 0,
};

const number = (text: string): number =>
  Number(/-?[\d,]*\.?\d+/.exec(text)![0].replaceAll(',', ''));
const sum = (values: readonly number[]): number => values.reduce((total, one) => total + one, 0);
/** Equal to the last decimal shown; sums of decimals are not exact in binary. */
const same = (a: number, b: number, decimals: number) =>
  expect(Math.round(a * 10 ** decimals) + 0).toBe(Math.round(b * 10 ** decimals) + 0);

function jsonHolds({ result }: PlanOutcome): void {
  const { totals, breakdown } = result;
  const { labourHours, materialCost, massKg } = breakdown!;
  same(sum(labourHours.map(({ value }) => value)), totals.labourHours, 1);
  expect(sum(materialCost.map(({ value }) => value ?? 0))).toBe(totals.materialCost);
  expect(materialCost.filter(({ value }) => value === null)).toHaveLength(totals.unpricedLines!);
  same(sum(massKg.map(({ value }) => value)), totals.massKg, 2);
  const taken = result.routes.find(({ id }) => id === result.route.id);
  if (taken) {
    const { labourHours: hours, materialCost: cost, massKg: mass } = taken;
    expect({ hours, cost, mass }).toEqual({
      hours: totals.labourHours,
      cost: totals.materialCost,
      mass: totals.massKg,
    });
  }
  if (massKg.some(({ id }) => id === 'routeFiller')) counted.filler += 1;
  if (labourHours.some(({ id }) => id.startsWith('price'))) counted.price += 1;
}

function screenHolds(outcome: PlanOutcome): void {
  const { result } = outcome;
  const { totals, build } = result;
  const rows = hoursByRow(outcome).map(({ personMinutes }) => personMinutes / 60);
  same(sum(roundedToSum(rows, 10)), totals.labourHours, 1);
  const slip = (rows: readonly { name: string; value: string; from?: string }[]) => {
    const at = rows.findIndex(({ name }) => name === 'Together');
    return { rows: rows.slice(0, at).map(({ value }) => value), total: rows[at]!.value };
  };
  const labour = slip(labourOrigin(outcome).rows);
  expect(labour.total).toBe(`= ${workHoursWords(totals.labourHours)}`);
  same(sum(labour.rows.map(number)), number(labour.total), 1);
  const cost = slip(costOrigin(outcome).rows);
  expect(cost.total).toBe(`= ${money(totals.materialCost, build.currency)}`);
  same(sum(cost.rows.map((text) => number(text.split(' = ')[1]!))), number(cost.total), 2);
  const mass = slip(massOrigin(outcome).rows);
  expect(mass.total).toBe(`= ${massWords(totals.massKg)}`);
  for (const state of ['shell', 'faired', 'painted'] as const) {
    const { rows: own, total } = slip(stateOrigin(outcome, state).rows);
    same(sum(own.map(number)), number(total), 2);
    const pounds = (text: string) => number(text.split('(')[1]!);
    same(sum(own.map(pounds)), pounds(total), 2);
  }
}

/** The slips of a route's figures add up to the figure that they open from, whichever route it is. */
function routesHold(outcome: PlanOutcome): void {
  const { result } = outcome;
  const whole = (origin: Origin) => origin.rows.find(({ name }) => name === TOGETHER)!.value;
  for (const route of result.routes) {
    expect(whole(labourOrigin(outcome, route.id))).toBe(`= ${workHoursWords(route.labourHours)}`);
    expect(whole(costOrigin(outcome, route.id))).toBe(
      `= ${money(route.materialCost, result.build.currency)}`,
    );
    expect(whole(massOrigin(outcome, route.id))).toBe(`= ${massWords(route.massKg)}`);
    if (route.id !== result.route.id) counted.otherRoutes += 1;
  }
}

/** Every line of the totals opens to rows that come to it. */
function linesHold(outcome: PlanOutcome): void {
  const { totals } = outcome.result;
  const hours = hourLines(outcome);
  same(sum(hours.map(({ value }) => number(value))), totals.labourHours, 1);
  const weights = weightLines(outcome);
  const onPart = weights.filter(({ note }) => note === '');
  same(sum(onPart.map(({ value }) => number(value))), totals.massKg, 2);
  for (const line of weights) {
    const results = line.origin().rows.filter(({ value }) => value.startsWith('= '));
    // Strips and coats are told by their rates; an insert lies beside the zones.
    if (!['core', 'coreResin', 'fairing', 'routeFiller'].includes(line.id)) continue;
    const apart = results.length * 0.005 + 0.011;
    expect(
      Math.abs(sum(results.map(({ value }) => number(value))) - number(line.value)),
    ).toBeLessThan(apart);
    counted.lines += 1;
  }
  for (const line of [...hours, ...weights, ...costLines(outcome)]) {
    expect(line.origin().formula, line.name).not.toBe('');
  }
}

/** Each state says what it is made up of, the state before it by name, and what that comes to. */
function weightHolds(sheet: PrintedSheet, { result, detail }: PlanOutcome): void {
  const rows = sheet.rows.filter(([, ...cells]) => cells.some((cell) => / kg$/.test(cell)));
  const states = new Map<string, number>();
  for (const [name, madeOf, whole] of rows.filter((cells) => cells.length === 5)) {
    if (name === 'State') continue;
    const parts = madeOf!.split(', ').map((part) => states.get(part) ?? number(part));
    same(sum(parts), number(whole!), 2);
    states.set(name!, number(whole!));
  }
  const words = { shell: 'Bare shell', faired: 'Faired', painted: 'Painted' };
  const state = states.get(words[detail.build.part.targetIncludes]);
  if (state !== undefined) same(state, result.totals.massKg, 2);
  counted.weights += states.size;
  // The hold point of a weighing says the same.
  for (const [, , what, test] of sheet.rows) {
    const expected = /^Expected ([\d.]+) kg, (bare shell|faired|painted)/.exec(test ?? '');
    if (!expected || !what!.startsWith('Weigh after')) continue;
    const [, kg, name] = expected;
    same(Number(kg), states.get(name![0]!.toUpperCase() + name!.slice(1))!, 2);
  }
}

function shoppingHolds(sheet: PrintedSheet, { result }: PlanOutcome, sheets: PrintedSheet[]): void {
  const lines = sheet.rows.filter((cells) => cells.length === 7 && cells[0] !== 'Item');
  const prices = lines.flatMap((cells) => (/\d/.test(cells[4]!) ? [number(cells[4]!)] : []));
  const [, toOrder, whole] = /To order: (\S+) ?, of (\S+) in all/.exec(sheet.text)!;
  same(sum(prices), number(toOrder!), 2);
  same(number(whole!), number(money(result.totals.materialCost, result.build.currency)), 2);
  counted.shopping += prices.length;
  const cards = sheets.filter(({ id }) => id.startsWith('mix-'));
  for (const [item, needed] of lines.map(([name, ...cells]) => [name!, cells[0]!] as const)) {
    const said = /([\d.]+) kg on the mix cards(?:, ([\d.]+) kg (over|short))?/.exec(item);
    if (!said) continue;
    const over = said[2] === undefined ? 0 : Number(said[2]) * (said[3] === 'over' ? 1 : -1);
    same(Number(said[1]) + over, number(needed), 3);
    if (over !== 0) counted.overs += 1;
  }
  // Resin of all cards, as they are printed, is what the list says of them.
  const resin = lines.find(([item]) => /on the mix cards/.test(item!));
  if (!resin || cards.some(({ text }) => text.includes('NOT TO BE BUILT'))) return;
  const onCards = cards.map(({ text, rows }) => (/strings no/.test(text) ? 0 : sum(resinOf(rows))));
  same(sum(onCards) / 1000, number(/([\d.]+) kg on the mix cards/.exec(resin[0]!)![1]!), 3);
}

/** Lines of a mix card: `333.4 g Outer skin` in the fourth column. */
const batchesOf = (rows: PrintedSheet['rows']) =>
  rows.filter((cells) => cells.length >= 6 && /^[\d.]+ g/.test(cells[3] ?? ''));
const resinOf = (rows: PrintedSheet['rows']) => batchesOf(rows).map((cells) => number(cells[3]!));

/** Lines of a mix card: resin, and what the scale reads once the hardener is in, to their sums and the cure card. */
function batchesHold(sheet: PrintedSheet, sheets: readonly PrintedSheet[]): void {
  const rows = batchesOf(sheet.rows);
  const together = sheet.rows.find(([name]) => name === 'Together');
  if (rows.length === 0) return;
  const [resin, all] = [3, 4].map((column) => sum(rows.map((cells) => number(cells[column]!))));
  if (together) {
    same(resin!, number(together[1]!), 2);
    same(all!, number(together[2]!), 2);
    counted.batches += rows.length;
  }
  const card = sheets.find(({ id }) => id === sheet.id.replace(/^mix-/, 'cure-'))!;
  same(all!, number(/Mixed: planned ([\d.]+) g/.exec(card.text)![1]!), 2);
}

function holds(outcome: PlanOutcome): void {
  counted.plans += 1;
  jsonHolds(outcome);
  screenHolds(outcome);
  linesHold(outcome);
  routesHold(outcome);
  const sheets = printedSheets(sheetsHtml(outcome));
  for (const sheet of sheets) {
    if (sheet.id === 'holds') weightHolds(sheet, outcome);
    if (sheet.id === 'shopping-list') shoppingHolds(sheet, outcome, sheets);
    if (sheet.id.startsWith('mix-')) batchesHold(sheet, sheets);
  }
}

describe('totals and their rows', () => {
  it.each(samples)('%s', (_, build) => {
    holds(plan(build, library(), NOW, FIRST_ANSWER));
  });

  it('in drawn builds', () => {
    forAll(
      fc.property(drawnBuilds, (build) => holds(plan(build, library(), NOW, FIRST_ANSWER))),
      { numRuns: 25, seed: 20_270_419 },
    );
  });

  it('of every route of a full answer', () => {
    const [, build] = samples.find(([name]) => name.startsWith('harbour-gate-sign'))!;
    routesHold(plan(build, library(), NOW, { ...FULL_ANSWER, schedules: 50 }));
  });

  it('of every sort were met', () => {
    for (const [what, count] of Object.entries(counted)) expect(count, what).toBeGreaterThan(0);
  });
});

describe('rounding to a sum', () => {
  const values = fc.array(fc.double({ min: -1000, max: 1000, noNaN: true }), { maxLength: 40 });

  it('adds up to the rounded sum, moves no value by a step and keeps whole ones', () => {
    forAll(
      fc.property(values, fc.constantFrom(1, 10, 100), (list, steps) => {
        const rounded = roundedToSum(list, steps);
        same(sum(rounded) * steps, Math.round(sum(list) * steps), 6);
        rounded.forEach((value, i) =>
          expect(Math.abs(value - list[i]!) * steps).toBeLessThan(1.001),
        );
        const whole = list.map((value) => Math.round(value) + 0);
        expect(roundedToSum(whole, steps)).toEqual(whole);
      }),
      { seed: 1, numRuns: 200 },
    );
  });

  it('gives the left steps to the largest remainders', () => {
    // Thirds of ten: 3.4, 3.3, 3.3 by the first of equals.
    expect(roundedToSum([10 / 3, 10 / 3, 10 / 3], 10)).toEqual([3.4, 3.3, 3.3]);
    expect(roundedToSum([0.06, 0.14, 0.3], 10)).toEqual([0.1, 0.1, 0.3]);
  });

  it('keeps the rows of every state to the state’s own mass', () => {
    const mass = fc.double({ min: 0, max: 20, noNaN: true });
    const rows = ['shell', 'shell', 'faired', 'faired', 'painted'] as const;
    forAll(
      fc.property(fc.array(mass, { minLength: 5, maxLength: 5 }), (masses) => {
        const exact = masses.map((massKg, i) => ({
          ...{ id: 'fibre' as const, name: 'x', massKg },
          from: rows[i]!,
        }));
        const rounded = roundedWeightRows(exact);
        for (const count of [2, 4, 5]) {
          const [a, b] = [rounded, exact].map((list) =>
            sum(list.slice(0, count).map((r) => r.massKg)),
          );
          same(a!, Math.round(b! * 100) / 100, 2);
        }
      }),
      { seed: 2 },
    );
  });
});
