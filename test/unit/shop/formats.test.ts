/** A build is worded as its country writes, on paper, on the phone and in its findings; files for machines stay. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { FILES } from '../../../app/shop/files.ts';
import { sheetsHtml } from '../../../app/shop/sheets.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library } from '../../library.ts';

const NOW = isoToMinute('2027-04-01T08:00Z')!;
const GATE_SIGN = new URL('../../../samples/harbour-gate-sign.build.json', import.meta.url);
const sample = JSON.parse(readFileSync(GATE_SIGN, 'utf8')) as Build;
const zones = sample.part.zones.map((zone) =>
  zone.core ? { ...zone, core: { ...zone.core, thicknessMm: 7.5 } } : zone,
);
const build = { ...sample, part: { ...sample.part, zones } };
const planIn = (where: Pick<Build, 'country' | 'clock'>) =>
  plan({ ...build, ...where }, library, NOW, FIRST_ANSWER);

/** The kit as a file, its names and what it is bought as in the signs of no place: ids and figures have none. */
const plainKit = (outcome: ReturnType<typeof planIn>): string =>
  FILES.kit
    .text(outcome, {})
    .replaceAll('"', '')
    .replaceAll(/(\d),(\d+ (?:mm|m off a roll))/g, '$1.$2');

/** What a person reads of a page, piece by piece. */
const textOf = (html: string): string[] =>
  html
    .replace(/<(style|script)[\s\S]*?<\/\1>/g, '')
    .split(/<[^>]*>/)
    .filter((text) => /\d/.test(text));

const unsaid = planIn({});
const german = planIn({ country: 'DE' });
const american = planIn({ country: 'US' });
const papers = (outcome: typeof unsaid): string[] => [
  ...textOf(sheetsHtml(outcome)),
  ...textOf(FILES.phone.text(outcome, {})),
  ...outcome.result.findings.map(({ message }) => message),
];

describe('a build', () => {
  it('in Germany has the comma before its decimals, and the day before the month', () => {
    const said = papers(german);
    // What the library calls by a number keeps that name.
    const names = /board|9\.5 mm/;
    expect(said.filter((text) => /\d\.\d/.test(text) && !names.test(text))).toEqual([]);
    expect(said.filter((text) => /\d,\d/.test(text)).length).toBeGreaterThan(50);
    // A line to order is named by the thickness that was typed.
    expect(said.join(' ')).toMatch(/PVC foam 60[^.]*, 7,5 mm/);
    expect(said.join(' ')).toMatch(/\d,\d m off a roll/);
    expect(said.filter((text) => /Mon 19 Apr/.test(text)).length).toBeGreaterThan(0);
  });

  it('in the United States has the month before the day, and every hour with am or pm', () => {
    const said = papers(american);
    const of24 = /(?<![\d:])\d\d?:\d\d\b(?! [ap]m)/;
    expect(said.filter((text) => of24.test(text) && !/Ground to 1:20/.test(text))).toEqual([]);
    expect(said.filter((text) => /\d:\d\d [ap]m/.test(text)).length).toBeGreaterThan(50);
    expect(said.filter((text) => /Mon Apr 19/.test(text)).length).toBeGreaterThan(0);
    expect(said.filter((text) => /\d (Apr|May)\b/.test(text))).toEqual([]);
  });

  it('goes by the hours that its own shop has, wherever it is', () => {
    const said = papers(planIn({ country: 'US', clock: '24' }));
    expect(said.filter((text) => /\d [ap]m\b/.test(text))).toEqual([]);
    expect(said.some((text) => /[A-Z][a-z]{2} [A-Z][a-z]{2} \d+ \d\d:\d\d/.test(text))).toBe(true);
  });

  it('of no country is worded as before, and its plan is the same in every place', () => {
    expect(
      papers(unsaid).some((text) => /[A-Z][a-z]{2} \d+ [A-Z][a-z]{2} \d\d:\d\d/.test(text)),
    ).toBe(true);
    const moments = ({ result }: typeof unsaid) =>
      result.stages.map(({ start, end }) => [start, end]);
    for (const other of [german, american]) {
      expect(moments(other)).toEqual(moments(unsaid));
      expect(other.result.totals).toEqual(unsaid.result.totals);
      for (const kind of ['csv', 'batches'] as const)
        expect(FILES[kind].text(other, {})).toBe(FILES[kind].text(unsaid, {}));
      expect(plainKit(other)).toBe(plainKit(unsaid));
    }
  });
});

describe('the data of a phone pack', () => {
  it('names the clock and the order of the place, and keeps ticks and moments as they were', () => {
    const dataOf = (outcome: typeof unsaid) =>
      JSON.parse(/id="pack">(.*?)<\/script>/.exec(FILES.phone.text(outcome, {}))![1]!) as Record<
        string,
        unknown
      >;
    const { hours, monthFirst, ...rest } = dataOf(american);
    expect([hours, monthFirst]).toEqual([12, true]);
    const { hours: plainHours, monthFirst: plainFirst, ...plain } = dataOf(unsaid);
    expect([plainHours, plainFirst]).toEqual([24, false]);
    expect(rest).toEqual(plain);
  });
});
