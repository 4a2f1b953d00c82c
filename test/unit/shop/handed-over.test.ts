/** Sheets that others work by: the painter's by its party, the heat that it may see, the way out of the mould. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { sheetsHtml } from '../../../app/shop/sheets.ts';
import { dayClock } from '../../../app/shop/words.ts';
import { plan } from '../../../app/answer/plan.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { shippedSamples } from '../../../main/samples.ts';
import { library, NOW, read } from '../../support/builds.ts';
import { printedSheets } from '../../support/paper.ts';
import { planFor, ROOMY } from '../judge/builds.ts';

const painter = { kind: 'paint' as const, workingDays: 2 };
const PAINTED: Build = {
  ...ROOMY,
  outside: [
    { id: 'paint-east', name: 'Eastern sprayers', ...painter },
    { id: 'paint', name: 'Sprayers', ...painter },
  ],
};
const outcome = planFor(PAINTED);
const sheets = printedSheets(sheetsHtml(outcome));
const textOf = (id: string) => sheets.find((sheet) => sheet.id === id)!.text;

describe('a painter’s sheet', () => {
  it.each(['paint', 'paint-east'])('has the times of its own party: %s', (id) => {
    const stage = outcome.result.stages.find((one) => one.id === `outside:${id}`)!;
    const text = textOf(`painter-${id}`);
    expect(text).toContain(`In ${dayClock(stage.start!)}, back ${dayClock(stage.end!)}.`);
    const [other] = outcome.result.stages.filter(
      (one) => one.kind === 'outside' && one.id !== stage.id,
    );
    expect(text).not.toContain(`In ${dayClock(other!.start!)}`);
  });

  it('allows the margin below the weakest Tg and no more', () => {
    const [weakest] = outcome.detail.tg!.members;
    const margin = 12;
    const coats = outcome.detail.tg!.coats.flatMap(({ standsC }) => standsC ?? []);
    const limitC = Math.floor(Math.min(weakest!.withC! - margin, ...coats));
    expect(limitC).toBeLessThan(weakest!.withC! - margin + 1e-9);
    expect(textOf('painter-paint')).toContain(`Nothing hotter than ${limitC} °C, oven or sun`);
  });
});

describe('the demould card', () => {
  it.each([
    'Wedges under the waste flange alone, outside the trim line: short ones, of plastic',
    '2 to 3 mm at a time',
    'air, or water, under the flange where the mould allows it',
    'wait for the pop',
    'to lift, at both ends and the middle',
    'The flange is trimmed off with what the wedges did to it',
    'a long wedge under the part itself',
    'nothing of steel',
    'never bend an end up first',
    'Tap test over the whole part',
  ])('says: %s', (words) => {
    expect(textOf('demould')).toContain(words);
  });
});

describe('the hold points', () => {
  it('have the end of heat in an empty shop at the hour at which people see it', () => {
    const text = shippedSamples()
      .find(({ name }) => name === 'wren-sound-shell')!
      .text();
    const found = read(JSON.parse(text));
    if (!found.ok) throw new Error('a sample has faults');
    const heated = plan(found.document, library(), NOW, FIRST_ANSWER);
    const stageAt = (id: string) => heated.result.stages.find((one) => one.id === id)!;
    const ends = stageAt('post-cure').end!;
    const seen = stageAt('post-cure-takedown').start!;
    expect(Date.parse(seen)).toBeGreaterThan(Date.parse(ends));
    const [holds] = printedSheets(sheetsHtml(heated)).filter(({ id }) => id === 'holds');
    const row = holds!.rows.find((cells) => cells.some((cell) => cell.startsWith('Heat off')))!;
    expect(row).toContain(dayClock(seen));
    expect(row.join(' ')).toContain(`Ends ${dayClock(ends)}, seen ${dayClock(seen)}.`);
  });
});
