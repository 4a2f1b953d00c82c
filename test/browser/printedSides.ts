/** Pictures of every printed side, as the printer gives it, several to a picture. */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { PAPERS } from '../../app/shop/flow/paper.ts';
import type { MixSize } from '../../app/shop/mixCard.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import { sheetsHtml } from '../../app/shop/sheets.ts';
import { launchChromium } from '../../main/pdf/print.ts';

/** Where the pictures go and how they are made. */
export interface SidePictures {
  readonly out: string;
  readonly name: string;
  /** How many sides stand beside each other on one picture; two can be read without a glass. */
  readonly across: number;
  /** Without colour, as a shop's printer gives it. */
  readonly grey: boolean;
  readonly mixes: MixSize;
}

/** Writes the sides of a plan on every paper; answers the files. */
export async function shootSides(outcome: PlanOutcome, how: SidePictures): Promise<string[]> {
  const browser = await launchChromium();
  try {
    const files: string[] = [];
    for (const paper of PAPERS) {
      const html = sheetsHtml(outcome, { paper, mixes: how.mixes });
      const sides = await sidesOf(browser, html, how.grey);
      for (let first = 0; first < sides.length; first += how.across) {
        const file = join(
          how.out,
          `${how.name}-${paper}-${String(first + 1).padStart(2, '0')}.png`,
        );
        await writeFile(file, await beside(browser, sides.slice(first, first + how.across)));
        files.push(file);
      }
    }
    return files;
  } finally {
    await browser.close();
  }
}

async function sidesOf(browser: Browser, html: string, grey: boolean): Promise<Buffer[]> {
  const page = await blank(browser);
  await page.emulateMedia({ media: 'print' });
  await page.setContent(html);
  if (grey) await page.addStyleTag({ content: 'html { filter: grayscale(1); }' });
  const pictures: Buffer[] = [];
  for (const side of await page.locator('.side').all()) pictures.push(await side.screenshot());
  await page.close();
  return pictures;
}

/** Several pictures beside each other, a grey line between them. */
async function beside(browser: Browser, pictures: readonly Buffer[]): Promise<Buffer> {
  const page = await blank(browser);
  const images = pictures.map(
    (one) => `<img src="data:image/png;base64,${one.toString('base64')}">`,
  );
  await page.setContent(
    `<div style="display:inline-flex; gap:6px; background:#777; align-items:start">${images.join('')}</div>`,
  );
  const picture = await page.locator('div').screenshot();
  await page.close();
  return picture;
}

const blank = (browser: Browser): Promise<Page> =>
  browser.newPage({ viewport: { width: 2600, height: 1200 } });
