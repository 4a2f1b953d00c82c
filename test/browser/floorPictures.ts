/** Pictures of everything that the floor meets: bench, gap, questions, replan, corrections, phone, sheets. */
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { plan } from '../../app/answer/plan.ts';
import { readBuild } from '../../app/document/read.ts';
import type { Build } from '../../app/document/schema.ts';
import { FIRST_ANSWER, type PlanOutcome } from '../../app/plan/outcome.ts';
import { localMinuteOf } from '../../app/plan/records.ts';
import { openSteps } from '../../app/shop/floor/steps.ts';
import { phonePage } from '../../app/shop/phone/page.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { shippedSamples } from '../../main/samples.ts';
import { onFloor, recordedBefore } from './floor.ts';
import { DEFAULT_NOW, openPlanner, type Planner } from './planner.ts';

const HOLD_MS = 1600;
const HOUR = 60;
const PHONE = { width: 390, height: 800 };

/** The builds that are pictured: one sample, nothing written down yet, and its plan. */
interface Ground {
  readonly document: Build;
  readonly outcome: PlanOutcome;
  readonly now: number;
  /** The first layup and the minute of its first mix. */
  readonly layup: string;
  readonly cure: string;
  readonly mixAt: number;
}

function groundOf(sample: string): Ground {
  const library = shippedLibrary();
  const text =
    shippedSamples()
      .find(({ name }) => name === sample)
      ?.text() ?? '';
  const read = readBuild(text, library);
  if (!read.ok) throw new Error(`${sample}: ${read.faults[0]?.found}`);
  const now = Math.floor(Date.parse(DEFAULT_NOW) / 60_000);
  const outcome = plan(read.document, library, now, FIRST_ANSWER);
  const first = outcome.result.stages.find(({ kind, start }) => kind === 'layup' && start !== null);
  if (!first?.cure) throw new Error(`${sample} lays nothing up`);
  const mixAt = isoToMinute(first.start!)!;
  return { document: read.document, outcome, now, layup: first.id, cure: first.cure, mixAt };
}

/** Takes the pictures into a folder; answers the files. */
export async function shootFloor(out: string, sample: string): Promise<string[]> {
  const ground = groundOf(sample);
  const files: string[] = [];
  for (const scene of [gap, bench, replan, corrections, closing, phone, sheets]) {
    const planner = await openPlanner();
    try {
      await scene(planner, ground, async (name, page = planner.page) => {
        const path = join(out, `${name}.png`);
        await page.screenshot({ path });
        files.push(path);
      });
      for (const line of [...planner.trouble, ...planner.strangers]) console.log(`  ${line}`);
    } finally {
      await planner.close();
    }
  }
  return files;
}

type Shoot = (name: string, page?: Page) => Promise<void>;
type Scene = (planner: Planner, ground: Ground, shoot: Shoot) => Promise<void>;

const gap: Scene = async (planner, { document, now, outcome }, shoot) => {
  const { page } = planner;
  const release = outcome.result.stages.find(({ kind }) => kind === 'release');
  const minute = release?.end ? isoToMinute(release.end)! + 5 : now + 48 * HOUR;
  await onFloor(planner, { build: document, minute, lookedAt: now });
  const dialog = page.getByRole('dialog', { name: 'Since you last looked' });
  await dialog.waitFor();
  await shoot('gap');
  const last = dialog.locator('li[data-stage]').last();
  await last.getByRole('button', { name: 'Other times' }).click();
  const start = await last.getByLabel('Begun').inputValue();
  await last.getByLabel('Done', { exact: true }).fill(`${start.slice(0, 11)}00:01`);
  await last.getByRole('button', { name: 'Write it down', exact: true }).click();
  const asked = dialog.locator('[data-ask-record]').first();
  await asked.waitFor();
  await asked.scrollIntoViewIfNeeded();
  await shoot('asked-before-a-record');
};

const bench: Scene = async (planner, { document, outcome, mixAt }, shoot) => {
  const { page } = planner;
  const records = recordedBefore(outcome, mixAt) ?? [];
  const floor = await onFloor(planner, { build: { ...document, records }, minute: mixAt - 2 });
  await page.keyboard.press('b');
  await page.locator('[data-step]').waitFor();
  await shoot('bench-before-the-mix');
  await floor.leap(2 * 60);
  const step = () => page.locator('[data-step]').getAttribute('data-step');
  const before = await step();
  // The first press may answer an alarm.
  for (let presses = 0; presses < 4 && (await step()) === before; presses++) {
    await page.keyboard.down(' ');
    await page.waitForTimeout(HOLD_MS);
    await page.keyboard.up(' ');
  }
  await shoot('bench-stamped');
};

const replan: Scene = async (planner, { document, outcome, mixAt }, shoot) => {
  const { page } = planner;
  const records = recordedBefore(outcome, mixAt) ?? [];
  const stages = outcome.result.stages.flatMap(({ id, start }) =>
    start === null ? [] : [{ stage: id, start: start.slice(0, 16) }],
  );
  const printed = { at: outcome.result.now.slice(0, 16), stages };
  await onFloor(planner, { build: { ...document, records, printed }, minute: mixAt + 26 * HOUR });
  await leaveGap(page);
  await shoot('moved-since-the-print');
  await page.getByRole('button', { name: 'See what moved' }).click();
  await page.getByRole('dialog', { name: 'What moved since the printed plan' }).waitFor();
  await shoot('replan');
};

const corrections: Scene = async (planner, { document, mixAt, now }, shoot) => {
  const { page } = planner;
  const resin = { ...document.resin, lot: 'A17' };
  await onFloor(planner, { build: { ...document, resin }, minute: now });
  await page.getByRole('tab', { name: /^Chemistry/ }).click();
  const tab = (name: string) =>
    page.getByRole('tablist', { name: 'The chemistry in depth' }).getByRole('tab', { name });
  await tab('Cup & smear').click();
  await page.locator('#cup-minutes').fill('12');
  await page.locator('#cup-minutes').blur();
  await page.locator('#bench-scope').selectOption('lot');
  await page.locator('[data-cup]').waitFor();
  await shoot('leftover-cup');
  await page.locator('section:has(#cup-title) button.main').click();
  await page.locator('[data-foreseen]').waitFor();
  await shoot('foreseen');
  await tab('Temperature log').click();
  await page.locator('#log-file').setInputFiles({
    name: 'flange.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(coolLog(mixAt)),
  });
  await page.locator('[data-logged-cure]').waitFor();
  await shoot('log');
};

/** A logger beside the first cure, 17 C for three days, in UTC. */
function coolLog(mixAt: number): string {
  const lines = Array.from({ length: 74 }, (_, hour) => {
    const at = new Date((mixAt + (hour - 2) * HOUR) * 60_000).toISOString().slice(0, 19);
    return `${at}Z,${17 + (hour % 3) / 10}`;
  });
  return ['time,temperature C', ...lines].join('\n');
}

const closing: Scene = async (planner, ground, shoot) => {
  const { document, outcome, mixAt, layup, cure } = ground;
  const { page } = planner;
  const mixes = outcome.result.mixes
    .filter((mix) => mix.cure === cure)
    .map(({ batch, totalG }, i) => ({
      batch,
      at: localMinuteOf(mixAt + 15 * i, document.zone ?? 'UTC'),
      massG: Math.round(totalG * 1.04),
    }));
  const done = recordedBefore(outcome, mixAt + 8 * HOUR) ?? [];
  const records = done.map((one, i) => ({
    ...one,
    workedMinutes: 40 + 15 * (i % 4),
    ...(one.stage === layup ? { mixes, massKg: 3.2 } : {}),
  }));
  const minute = mixAt + 8 * HOUR;
  await onFloor(planner, { build: { ...document, records }, minute, lookedAt: minute });
  await leaveGap(page);
  await page.getByRole('tab', { name: /^Choices & odds/ }).click();
  const tabs = page.getByRole('tablist', { name: 'The decision in depth' });
  await tabs.getByRole('tab', { name: 'Close the build' }).click();
  await page.locator('[data-actuals]').waitFor();
  await shoot('closing');
  await page.locator('[data-odds-kept]').scrollIntoViewIfNeeded();
  await shoot('closing-what-it-taught');
};

/** The list of what should have happened stands before everything else where it has something to ask. */
async function leaveGap(page: Page): Promise<void> {
  const dialog = page.getByRole('dialog', { name: 'Since you last looked' });
  if (await dialog.isVisible()) await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'hidden' });
}

const phone: Scene = async (planner, { document, outcome, mixAt, layup }, shoot) => {
  const records = recordedBefore(outcome, mixAt) ?? [];
  await onFloor(planner, { build: { ...document, records }, minute: mixAt + HOUR });
  await leaveGap(planner.page);
  const stored = (await planner.call('session-start', {})).open!.document as Build;
  const first = openSteps(plan(stored, shippedLibrary(), mixAt - 5, FIRST_ANSWER)).find(
    ({ stage }) => stage === layup,
  )!.key;
  const context = await planner.page
    .context()
    .browser()!
    .newContext({ offline: true, viewport: PHONE });
  try {
    const dialog = planner.page.getByRole('dialog', { name: 'Ticks of a phone' });
    await planner.page.keyboard.press('k');
    const room = { ...document.room, temperatureC: { day: 24, night: 20 } };
    for (const [name, packed] of [
      ['phone-of-an-older-plan', { ...stored, room }],
      ['phone', stored],
    ] as const) {
      const page = await context.newPage();
      await page.clock.setFixedTime(mixAt * 60_000);
      await page.setContent(phonePage(plan(packed, shippedLibrary(), mixAt - 5, FIRST_ANSWER)));
      await page.locator(`button[data-key="${first}"]`).click();
      await page.locator(`button[data-key="${first}"]`).click();
      await shoot(name, page);
      await dialog.getByLabel('Text of the phone').fill(await page.locator('#text').inputValue());
      await dialog.locator('li[data-tick]').first().waitFor();
      await shoot(`${name}-pasted`);
    }
  } finally {
    await context.close();
  }
};

const sheets: Scene = async (planner, { document, now }, shoot) => {
  const { page } = planner;
  await onFloor(planner, { build: document, minute: now });
  await page.getByRole('button', { name: 'Print sheets' }).click();
  await page.locator('.side').first().waitFor();
  await shoot('sheets');
  const week = page.locator('.side').filter({ hasText: /Week 2 of \d/ });
  for (const [name, shown, block] of [
    ['week-on-the-wall', week, 'start'],
    ['mix-card', page.locator('.side .reading'), 'center'],
  ] as const) {
    await shown.first().evaluate((element, at) => element.scrollIntoView({ block: at }), block);
    await shoot(name);
  }
};
