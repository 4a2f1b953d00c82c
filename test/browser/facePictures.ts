/** Pictures of the planner as it stands in docs/face/: every size, theme and kind of build, and every tray. */
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { lateBuild, longBuild } from '../support/long-builds.ts';
import {
  DEFAULT_NOW,
  openPlanner,
  PLANNER_READY,
  type Planner,
  type PlannerOptions,
} from './planner.ts';

const SAMPLE = 'low-water-canopy';
/** Questions and parties that make a build of 200 stages. */
const LONG = { questions: 138, parties: 2 } as const;

/** One opening of the planner: how it is opened, what is done first, and what it is called. */
interface Scene {
  readonly name: string;
  readonly options: PlannerOptions;
  /** Text against its own size, percent. */
  readonly text?: number;
  readonly build?: () => Record<string, unknown>;
  readonly act?: (page: Page) => Promise<void>;
}

const at = (width: number, height: number): PlannerOptions => ({ width, height, sample: SAMPLE });

const openTray =
  (tray: string, then?: (page: Page) => Promise<void>) =>
  async (page: Page): Promise<void> => {
    await page.locator(`#tab-${tray}`).click();
    await then?.(page);
  };

const openStage = async (page: Page): Promise<void> => {
  await page.locator('[data-item="layup:skin"]').click();
  await page.locator('#tab-stage').click();
  await page.locator('[data-stage]').waitFor();
};

const openSlip =
  (selector: string) =>
  async (page: Page): Promise<void> => {
    await page.locator(`#tray-body ${selector}`).first().click();
    await page.locator('.slip:popover-open').waitFor();
  };

/** Drags a stage and holds it, so that its consequence stands. */
const drag = async (page: Page): Promise<void> => {
  const shape = page.locator('[data-item="demould"] .shape').first();
  const box = (await shape.boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 90, y, { steps: 6 });
  await page.locator('.ghost').first().waitFor();
};

const newBuild = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: /^Open build/ }).click();
  await page.getByRole('button', { name: 'New empty build' }).click();
  await page.getByText('Still needed for a plan').waitFor();
};

const strip = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: 'Week', exact: true }).click();
  await page.locator('[data-item]').first().focus();
  const layup = page.locator('[data-item="layup:skin"]');
  for (let i = 0; i < 12 && (await layup.count()) === 0; i++) await page.keyboard.press('PageDown');
  await layup.click();
  await page.locator('.strip rect').first().waitFor();
};

const SCENES: readonly Scene[] = [
  { name: '1280x720', options: at(1280, 720) },
  { name: '1440x900', options: at(1440, 900) },
  { name: '1920x1080', options: at(1920, 1080) },
  { name: '480-wide', options: at(480, 900) },
  { name: '480-wide-text-200', options: at(480, 900), text: 200 },
  { name: 'text-200', options: at(1280, 720), text: 200 },
  { name: 'dark', options: { ...at(1280, 720), colorScheme: 'dark' } },
  { name: 'does-not-fit', options: at(1280, 720), build: lateBuild },
  { name: 'nothing-filled-in', options: at(1280, 720), act: newBuild },
  {
    name: '200-stages',
    options: at(1280, 720),
    build: () => longBuild(LONG.questions, LONG.parties),
  },
  { name: 'start-hours', options: at(1280, 720), act: strip },
  { name: 'dragged', options: at(1280, 720), act: drag },
  {
    name: 'findings',
    options: { ...at(1280, 720), sample: 'harbour-gate-sign' },
    act: openTray('findings'),
  },
  {
    name: 'finding-opened',
    options: { ...at(1280, 720), sample: 'harbour-gate-sign' },
    act: openTray('findings', openSlip('.figure-button')),
  },
  { name: 'stage', options: at(1280, 720), act: openStage },
  { name: 'routes', options: at(1280, 720), act: openTray('routes') },
  {
    name: 'cure-curves',
    options: at(1280, 720),
    act: openTray('curves', openSlip('.figures .figure-button')),
  },
];

/** Takes the pictures into a folder; answers the files. `only`: part of a name. */
export async function shootFace(out: string, only = ''): Promise<string[]> {
  const files: string[] = [];
  for (const scene of SCENES.filter(({ name }) => name.includes(only))) {
    const planner = await openPlanner({ now: DEFAULT_NOW, ...scene.options });
    try {
      await show(planner, scene);
      const path = join(out, `${scene.name}.png`);
      await planner.page.screenshot({ path });
      files.push(path);
      for (const line of [...planner.trouble, ...planner.strangers]) console.log(`  ${line}`);
    } finally {
      await planner.close();
    }
  }
  return files;
}

async function show(
  { page, call, url }: Planner,
  { text = 100, build, act }: Scene,
): Promise<void> {
  if (build) {
    const imported = await call('build-import', {
      fileName: 'face.json',
      text: JSON.stringify(build()),
    });
    if ('faults' in imported) throw new Error(JSON.stringify(imported.faults));
    await page.goto('about:blank');
    await page.goto(url);
    await page.waitForSelector(PLANNER_READY);
  }
  await page.evaluate((percent) => {
    document.documentElement.style.fontSize = `${percent}%`;
  }, text);
  // The worker's full answer follows the first one, with closing times and all routes.
  await page.locator('[data-thinking="done"]').waitFor({ state: 'attached', timeout: 240_000 });
  await act?.(page);
}
