/** What has no price or no lead time is said wherever a total stands; it is never 0.00. */
import { expect, it } from 'vitest';
import { orderCsv } from '../../../app/part/order.ts';
import { shoppingList } from '../../../app/shop/shopping.ts';
import { sheetsHtml } from '../../../app/shop/sheets.ts';
import { costOrigin } from '../../../app/shop/origins/totals.ts';
import { summaryOf } from '../../../main/command/summary.ts';
import { printedSheets } from '../../support/paper.ts';
import { LIBRARY, NOW, planFor, ROOMY, withRow } from '../judge/builds.ts';

const unpriced = { priceMinor: null, leadDays: null };
const library = withRow(
  withRow(LIBRARY, 'cloths', 'glass-twill-300', unpriced),
  ...(['cores', 'pvc-80', { priceMinor: null }] as const),
);
const outcome = planFor({ ...ROOMY, mould: { sealed: true } }, 'first', NOW, library);
const whole = planFor({ ...ROOMY, mould: { sealed: true } });
const { totals } = outcome.result;
const WORDS = '2 lines without a price, 1 line without a lead time';

it('counts them in the published totals, and the rest of the cost beside them', () => {
  expect(totals).toMatchObject({ unpricedLines: 2, linesWithoutLeadTime: 1 });
  expect(whole.result.totals).toMatchObject({ unpricedLines: 0, linesWithoutLeadTime: 0 });
  const missing = ['glass-twill-300', 'pvc-80 10'];
  const priced = whole.detail.kit.filter(({ group }) => group !== 'cloth' && group !== 'core');
  expect(priced).toHaveLength(whole.detail.kit.length - missing.length);
  expect(totals.materialCost).toBe(priced.reduce((sum, { costMinor }) => sum + costMinor!, 0));
});

it('says so in the command, in the slip of the cost, on paper and in the list as a file', () => {
  expect(summaryOf(outcome.result)).toContain(`(${WORDS})`);
  expect(summaryOf(whole.result)).not.toContain('without a price');
  expect(costOrigin(outcome).rows.at(-1)!.from).toBe(WORDS);
  const sheet = printedSheets(sheetsHtml(outcome)).find(({ id }) => id === 'shopping-list')!;
  expect(sheet.text).toContain(WORDS);
  const cloth = sheet.rows.find(([item]) => item!.includes('Glass 2/2 twill 300'))!;
  expect(cloth.slice(3, 5)).toEqual(['lead time not known', 'no price']);
  const csv = orderCsv(shoppingList(outcome), 'EUR');
  const line = csv.split('\r\n').find((row) => row.startsWith('glass-twill-300'))!;
  // Day of need, then lead time and price left empty.
  expect(line).toMatch(/,\d{4}-\d\d-\d\d,,,/);
  expect(csv).not.toMatch(/null|NaN/);
});
