import { describe, expect, it } from 'vitest';
import type { SheetRow } from '../../../app/document/schema.ts';
import { fitRows } from '../../../app/cure/fit.ts';
import { reviewSheet } from '../../../app/cure/review.ts';
import { hardenerWith, practice, shippedHardeners } from './practice-rows.ts';

const row = (what: SheetRow['what'], temperatureC: number, minutes: number): SheetRow => ({
  what,
  temperatureC,
  minutes,
});
const good = [
  row('film-gel', 20, 240),
  row('film-gel', 30, 118),
  row('debag', 20, 840),
  row('demould', 20, 1150),
  row('sand', 20, 1270),
];
const review = (sheet: SheetRow[]) => reviewSheet(hardenerWith(sheet), practice);

describe('a sheet judged', () => {
  it('has nothing to say of rows that go together', () => {
    const found = review(good);
    expect(found.misses).toEqual([]);
    expect(found.contradictions).toEqual([]);
    expect(found.faults).toEqual([]);
  });

  it('names the row that contradicts the rest, with what the rest gives for it', () => {
    const odd = row('demould', 20, 4000);
    const found = review(good.map((r) => (r.what === 'demould' ? odd : r)));
    expect(found.contradictions.map((c) => c.row)).toEqual([odd]);
    expect(found.contradictions[0]!.othersMinutes).toBeGreaterThan(800);
    expect(found.contradictions[0]!.othersMinutes).toBeLessThan(1600);
  });

  it('gives for it nearly what a fit without it gives', () => {
    const odd = row('demould', 20, 4000);
    const sheet = good.map((r) => (r.what === 'demould' ? odd : r));
    const without = fitRows(
      hardenerWith(sheet),
      sheet.filter((r) => r !== odd),
      practice,
      'epoxy',
    ).model.minutesOf(odd);
    const { othersMinutes } = review(sheet).contradictions[0]!;
    expect(Math.abs(othersMinutes / without - 1)).toBeLessThan(0.15);
  });

  it('says which row is missed by more than a quarter where two cannot both be met', () => {
    const found = review([row('film-gel', 20, 100), row('film-gel', 30, 240)]);
    expect(found.misses.length).toBeGreaterThan(0);
    expect(found.faults.map((f) => f.fault)).toEqual(['hotter-slower']);
  });

  it('asks after one pot life for the row that narrows the plan most, and is right that it does', () => {
    const pot: SheetRow = { what: 'pot-life', temperatureC: 25, minutes: 25, massG: 100 };
    const before = review([pot]);
    const best = before.advice[0]!;
    const spreadWith = (asked: Omit<SheetRow, 'minutes'>): number => {
      const minutes = fitRows(hardenerWith([pot]), [pot], practice, 'epoxy').model.minutesOf({
        ...asked,
        minutes: 1,
      });
      const { gel, debag, demould } = review([pot, { ...asked, minutes }]).spread;
      return gel ** 2 + debag ** 2 + demould ** 2;
    };
    const spreads = before.advice.map(({ row: asked }) => spreadWith(asked));
    expect(spreads[0]!).toBeLessThan(Math.min(...spreads) * 1.1);
    expect(spreads[0]!).toBeLessThan(Math.max(...spreads) * 0.9);
    expect(best.narrows).toBeGreaterThan(0.2);
  });

  it('asks for little once the sheet is full', () => {
    for (const [, hardener, chemistry] of shippedHardeners) {
      const { advice } = reviewSheet(hardener, practice, chemistry);
      expect(Math.max(0, ...advice.map((a) => a.narrows))).toBeLessThan(0.2);
    }
  });

  it.each(shippedHardeners)(
    'finds no contradiction in the shipped %s',
    (_id, hardener, chemistry) => {
      expect(reviewSheet(hardener, practice, chemistry).contradictions).toEqual([]);
    },
  );
});
