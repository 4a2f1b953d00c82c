import { describe, expect, it } from 'vitest';
import { entriesOf } from '../../../app/shop/agenda.ts';
import { orderLine } from '../../../app/shop/orderWords.ts';
import { daysOf, sheetDataOf } from '../../../app/shop/sheetData.ts';
import { h, textOf } from '../../../app/shop/tree.ts';
import { handMadeOutcome } from './outcome.ts';

const said = (names: readonly string[]) => textOf(h('p', {}, orderLine(names)));

describe('what is ordered on a day', () => {
  it('says working days once for several suppliers', () => {
    expect(
      said([
        'Order from board merchant, 1 working day',
        'Order from core merchant, 4 working days',
      ]),
    ).toBe('Order , each with its working days: board merchant 1; core merchant 4');
  });

  it('keeps the words of a supplier alone, and of a name of its own', () => {
    expect(said(['Order from board merchant, 4 working days'])).toBe(
      'Order: board merchant, 4 working days',
    );
    expect(said(['Buy tape', 'Order from core merchant, 4 working days'])).toBe(
      'Order: Buy tape; core merchant, 4 working days',
    );
  });
});

describe('a moment in an empty shop', () => {
  it('is marked at the latest gel as at the earliest', () => {
    const outcome = handMadeOutcome();
    const row = {
      ...outcome.result.cures[0]!,
      gel: '2027-03-27T02:00+00:00',
      gelLatest: '2027-03-27T03:00+00:00',
    };
    const facts = sheetDataOf({ ...outcome, result: { ...outcome.result, cures: [row] } });
    const day = daysOf(facts).find(({ date }) => date === '2027-03-27')!;
    const marks = entriesOf(facts, day).filter(({ text }) => text.startsWith('Gel'));
    expect(marks.map(({ from, alone }) => [from, alone])).toEqual([
      ['02:00', true],
      ['03:00', true],
    ]);
  });
});
