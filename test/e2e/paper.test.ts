/** What comes out of the printer: sides counted, filled and headed, on both papers, for two samples. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plan } from '../../app/answer/plan.ts';
import { readBuild } from '../../app/document/read.ts';
import { FIRST_ANSWER, type PlanOutcome } from '../../app/plan/outcome.ts';
import { sizeOf, type Paper } from '../../app/shop/flow/paper.ts';
import { LEAST_FILL } from '../../app/shop/flow/sides.ts';
import { paperwork, sheetsHtml } from '../../app/shop/sheets.ts';
import { launchChromium } from '../../main/pdf/print.ts';
import { shippedSamples } from '../../main/samples.ts';
import { library } from '../library.ts';

const NOW = Date.parse('2027-04-12T06:00Z') / 60_000;
const MM = 96 / 25.4;

function planned(name: string): PlanOutcome {
  const sample = shippedSamples().find((one) => one.name === name)!;
  const read = readBuild(sample.text(), library);
  if (!read.ok) throw new Error(name);
  return plan(read.document, library, NOW, FIRST_ANSWER);
}

let browser: Browser;
const outcomes = new Map<string, PlanOutcome>();
beforeAll(async () => {
  browser = await launchChromium();
  for (const { name } of SAMPLES) outcomes.set(name, planned(name));
});
afterAll(() => browser.close());

/** Sides that a whole print has at most, with a line for each mix and with four small cards to a side. */
const SAMPLES = [
  { name: 'harbour-gate-sign', paper: 'a4', most: 14, mostSmall: 14 },
  { name: 'harbour-gate-sign', paper: 'letter', most: 14, mostSmall: 16 },
  { name: 'low-water-canopy', paper: 'a4', most: 26, mostSmall: 26 },
  { name: 'low-water-canopy', paper: 'letter', most: 26, mostSmall: 26 },
] as const satisfies readonly {
  name: string;
  paper: Paper;
  most: number;
  mostSmall: number;
}[];

interface Printed {
  readonly head: string;
  readonly heightMm: number;
  /** Lowest edge of what stands on it, from its top. */
  readonly usedMm: number;
  readonly isWide: boolean;
}

async function print(html: string): Promise<{ pages: number; sides: Printed[] }> {
  const page = await (await browser.newContext({ offline: true })).newPage();
  await page.setContent(html);
  const sides = await page.evaluate((mm) => {
    const elements = [...document.querySelectorAll<HTMLElement>('.side')];
    return elements.map((side) => {
      const top = side.getBoundingClientRect().top;
      const pieces = [...side.querySelectorAll(':scope > article')];
      return {
        head: side.querySelector<HTMLElement>('.side-head')!.innerText,
        heightMm: side.getBoundingClientRect().height / mm,
        usedMm:
          (Math.max(...pieces.map((piece) => piece.getBoundingClientRect().bottom)) - top) / mm,
        isWide: side.scrollWidth > side.clientWidth + 1,
      };
    });
  }, MM);
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
  const pages = pdf.toString('latin1').match(/\/Type \/Page\b/g)!.length;
  await page.close();
  return { pages, sides };
}

describe.each(SAMPLES)('$name on $paper', ({ name, paper, most, mostSmall }) => {
  it('prints as many sides as are said, none cut, none thin but the last of a pack', async () => {
    const outcome = outcomes.get(name)!;
    const work = paperwork(outcome, { paper });
    expect(paperwork(outcome, { paper, mixes: 'small' }).sides).toBeLessThanOrEqual(mostSmall);
    const { pages, sides } = await print(sheetsHtml(outcome, { paper }));
    expect(pages).toBe(work.sides);
    expect(sides).toHaveLength(work.sides);
    expect(pages).toBeLessThanOrEqual(most);
    const flat = work.packs.flatMap((pack) =>
      pack.sides.map((side, i) => ({ side, isLast: i === pack.sides.length - 1 })),
    );
    for (const [i, { head, heightMm, usedMm, isWide }] of sides.entries()) {
      const { side, isLast } = flat[i]!;
      expect(head).toMatch(/side \d+ of \d+\. Plan of \w{3} 1\d Apr 2027/);
      expect(heightMm, head).toBeLessThanOrEqual(sizeOf(paper, side.landscape).heightMm);
      expect(usedMm, head).toBeLessThanOrEqual(heightMm - 10);
      expect(isWide, head).toBe(false);
      if (!isLast) expect(usedMm / heightMm, head).toBeGreaterThanOrEqual(LEAST_FILL);
    }
  });

  it('keeps every cure card and mix card on one side', () => {
    const { packs } = paperwork(outcomes.get(name)!, { paper });
    const cards = packs.flatMap(({ sides }) =>
      sides.flatMap(({ sheets }) =>
        sheets.filter(({ kind }) => kind === 'cure' || kind === 'mix').map(({ id }) => id),
      ),
    );
    expect(cards.length).toBeGreaterThan(5);
    expect(new Set(cards).size).toBe(cards.length);
  });
});
