/** The picture at the sizes that people have: nothing covers anything else, nothing is out of reach. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { shippedSamples } from '../../main/samples.ts';
import { lateBuild, longBuild } from '../support/long-builds.ts';
import { faultsIn } from './axe.ts';
import { pageFaults } from './boxes.ts';
import { letTextGrow, openWithText, thoughtThrough } from './hands.ts';

interface Box {
  readonly what: string;
  readonly of: string;
  readonly x: number;
  readonly y: number;
  readonly right: number;
  readonly bottom: number;
}

/** Boxes of words and of shapes of the stages, as the browser has drawn them. */
const boxesOf = (page: Page): Promise<{ words: Box[]; shapes: Box[]; controls: Box[] }> =>
  page.evaluate(() => {
    const box = (element: Element, what: string, of: string) => {
      const { x, y, right, bottom } = element.getBoundingClientRect();
      return { what, of, x, y, right, bottom };
    };
    const all = (selector: string) => [...document.querySelectorAll(selector)];
    return {
      words: all('.timeline text[data-caption]').map((text) =>
        box(text, text.textContent, text.getAttribute('data-caption') ?? ''),
      ),
      shapes: all('.timeline [data-item] .hit').map((shape) => {
        const id = shape.closest('[data-item]')!.getAttribute('data-item')!;
        const { what, of, x, y, right, bottom } = box(shape, id, id);
        // The area for the pointer reaches a little beyond what is seen.
        return { what, of, x: x + 3, y: y + 1, right: right - 3, bottom: bottom - 1 };
      }),
      controls: all('.timeline button').map((button) =>
        box(button, button.textContent, button.className),
      ),
    };
  });

const HAIR = 1;
const covers = (a: Box, b: Box): boolean =>
  Math.min(a.right, b.right) - Math.max(a.x, b.x) > HAIR &&
  Math.min(a.bottom, b.bottom) - Math.max(a.y, b.y) > HAIR;

/** Line boxes are taller than their letters: words of neighbouring lines may touch by so much. */
const LEADING = 3;
const tight = (box: Box): Box => ({ ...box, y: box.y + LEADING, bottom: box.bottom - LEADING });

async function faultsOf(page: Page): Promise<string[]> {
  const { words, shapes, controls } = await boxesOf(page);
  expect(words.length).toBeGreaterThan(3);
  expect(shapes.length).toBeGreaterThan(3);
  const faults: string[] = [];
  const letters = words.map(tight);
  letters.forEach((a, i) => {
    for (const b of letters.slice(i + 1)) {
      if (covers(a, b)) faults.push(`'${a.what}' over '${b.what}'`);
    }
    for (const shape of shapes) {
      if (shape.of !== a.of && covers(a, shape)) faults.push(`'${a.what}' over ${shape.what}`);
    }
  });
  // A joint stands on the line between two rows, over the ends of both their heads.
  const apart = controls.filter(({ of }) => !of.includes('pill'));
  apart.forEach((a, i) => {
    for (const b of apart.slice(i + 1)) {
      if (covers(a, b)) faults.push(`control '${a.what.trim()}' over '${b.what.trim()}'`);
    }
  });
  const clipped = await page.evaluate(() =>
    [...document.querySelectorAll('.timeline .heads b, .timeline button')]
      .filter((one) => one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 0)
      .map((one) => `clipped: ${one.textContent.trim()}`),
  );
  const sideways = await page.evaluate(() =>
    [document.documentElement, document.querySelector('.desk')!].some(
      (one) => one.scrollWidth > one.clientWidth,
    ),
  );
  return [...faults, ...clipped, ...(sideways ? ['the page scrolls sideways'] : [])];
}

/** Waits until the picture is there. */
async function drawn(page: Page): Promise<void> {
  await page.locator('.timeline [data-item]').first().waitFor();
  await page.evaluate(() => document.fonts.ready);
}

async function open(id: string): Promise<void> {
  await planner.call('build-open', { id });
  await openWithText(page, 100);
  await drawn(page);
}
const SIZES = [
  [1280, 720],
  [1440, 900],
  [1920, 1080],
  [480, 900],
] as const;
const OTHERS: Readonly<Record<string, () => object>> = {
  '199 stages': () => longBuild(125),
  'a date that cannot be made': lateBuild,
};

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner({ sample: 'low-water-canopy' });
  page = planner.page;
  await letTextGrow(page);
});
afterAll(() => planner.close());

describe.each([...shippedSamples().map(({ name }) => name), ...Object.keys(OTHERS)])(
  '%s',
  (name) => {
    beforeAll(async () => {
      const make = OTHERS[name];
      if (make) {
        const { id: _, ...document } = make() as { id?: string };
        await open((await planner.call('build-create', { document })).id);
        return;
      }
      const sample = shippedSamples().find((one) => one.name === name)!;
      const called = (JSON.parse(sample.text()) as { name: string }).name;
      const list = await planner.call('build-list', {});
      await open(list.find((row) => row.sample && row.name === called)!.id);
    });

    it.each(SIZES)(
      'at %d x %d nothing covers anything else, at any grain',
      async (width, height) => {
        await page.setViewportSize({ width, height });
        await drawn(page);
        const found = await pageFaults(page);
        for (const grain of ['Week', 'Day', 'Whole build']) {
          await page.getByRole('button', { name: grain, exact: true }).click();
          found.push(...(await faultsOf(page)).map((fault) => `${grain}: ${fault}`));
        }
        expect(found).toEqual([]);
      },
    );

    it('nor with text twice as large', async () => {
      await page.setViewportSize({ width: 1280, height: 900 });
      await openWithText(page, 200);
      await drawn(page);
      const found = await pageFaults(page);
      for (const grain of ['Week', 'Whole build']) {
        await page.getByRole('button', { name: grain, exact: true }).click();
        found.push(...(await faultsOf(page)).map((fault) => `${grain}: ${fault}`));
      }
      expect(found).toEqual([]);
      expect(await faultsIn(page)).toEqual([]);
    });
  },
);

describe('a build with nothing filled in', () => {
  beforeAll(async () => {
    await openWithText(page, 100);
    await page.keyboard.press('Control+o');
    await page.getByRole('button', { name: 'New empty build' }).click();
    await page.getByText('Still needed for a plan').waitFor();
  });

  it.each([100, 200])('says what is missing at every size, with text at %d %%', async (percent) => {
    await openWithText(page, percent);
    const found: string[] = [];
    for (const [width, height] of SIZES) {
      await page.setViewportSize({ width, height });
      await page.getByText('Still needed for a plan').waitFor();
      found.push(...(await pageFaults(page)).map((fault) => `${width}: ${fault}`));
    }
    expect(found).toEqual([]);
    expect(await faultsIn(page)).toEqual([]);
  });
});

describe('by mouse and by keys', () => {
  beforeAll(async () => {
    await page.setViewportSize({ width: 1280, height: 720 });
    const list = await planner.call('build-list', {});
    await open(list.find((row) => row.name === 'Low Water canopy')!.id);
    // The full answer may move stages and days that are folded.
    await thoughtThrough(page);
  });

  it('a joint says what each way costs and is chosen by keys alone', async () => {
    const joint = page.locator('[data-joint]').last();
    await joint.focus();
    await page.keyboard.press('Enter');
    const card = page.getByRole('dialog', { name: / on / });
    await card.waitFor();
    expect(await faultsIn(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await card.waitFor({ state: 'detached' });
    expect(await joint.evaluate((one) => one === document.activeElement)).toBe(true);
  });

  it('a fold unfolds and folds again', async () => {
    const folds = page.locator('.timeline .axis button');
    const before = await folds.count();
    await folds.first().click();
    expect(await folds.count()).toBe(before - 1);
    await page.getByRole('button', { name: 'Fold empty days' }).click();
    expect(await folds.count()).toBe(before);
  });

  it('a stage that is dragged says the worst of it before it is let go, and is pinned by that', async () => {
    await page.getByRole('button', { name: 'Whole build', exact: true }).click();
    const stage = page.locator('[data-item="demould"]');
    const box = (await stage.locator('.shape').first().boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 60, y, { steps: 4 });
    // Where it would begin is told at once, what that does a moment later.
    await page.locator('.foreseen').waitFor();
    await page.locator('.ghost').first().waitFor();
    expect(await page.locator('.foreseen').innerText()).toMatch(
      /^Demould.* from \w{3} \d+ \w{3} \d\d:\d\d\. .+\.$/,
    );
    await page.mouse.up();
    await stage.locator('.pin').waitFor();
    await page.keyboard.press('Control+z');
    await stage.locator('.pin').waitFor({ state: 'detached' });
  });

  it('a selected layup has its strip of start hours, and says them', async () => {
    await page.getByRole('button', { name: 'Week', exact: true }).click();
    await page.locator('[data-item="hand-over"], [data-item]').first().focus();
    const layup = page.locator('[data-item="layup:skin"]');
    for (let i = 0; i < 12 && (await layup.count()) === 0; i++) {
      await page.keyboard.press('PageDown');
    }
    await layup.click();
    await page.locator('.strip rect').first().waitFor();
    const runs = page.getByRole('list', { name: 'When the selected layup may start' });
    expect(await runs.getByRole('listitem').count()).toBeGreaterThan(2);
    expect(await page.locator('[data-mix]').innerText()).toMatch(
      /^Good to mix: \w{3} \d+ \w{3} \d\d:\d\d to /,
    );
  });
});
