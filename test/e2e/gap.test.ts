/** Since you last looked: what should have happened is asked for, one press each or a day at once. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plan } from '../../app/answer/plan.ts';
import type { Build } from '../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { onFloor } from '../browser/floor.ts';
import { openPlanner, type Planner } from '../browser/planner.ts';
import { library, NOW, smallBuild } from '../support/builds.ts';
import { eventually, expectQuiet } from './hands.ts';

const build: Build = {
  ...smallBuild(),
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
};
const before = plan(build, library(), NOW, FIRST_ANSWER);
const release = before.result.stages.find(({ id }) => id === 'release')!;

let planner: Planner;
let page: Page;
beforeAll(async () => {
  planner = await openPlanner({ width: 1024, height: 768 });
  page = planner.page;
  await onFloor(planner, { build, minute: isoToMinute(release.end!)! + 5, lookedAt: NOW });
});
afterAll(() => planner?.close());

const dialog = () => page.getByRole('dialog', { name: 'Since you last looked' });
const rows = () => dialog().locator('li[data-stage]').count();
const records = async () =>
  ((await planner.call('session-start', {})).open!.document as Build).records ?? [];

describe('opened after a gap', () => {
  it('the planner asks what got done, with the planned times, and takes nothing for done', async () => {
    await dialog().waitFor();
    expect(await records()).toEqual([]);
    const row = dialog().locator('li[data-stage="release"]');
    expect(await row.locator('.when').innerText()).toContain(release.end!.slice(11, 16));
    const said = before.result.stages.filter(
      ({ kind, start }) => kind !== 'wait' && isoToMinute(start!)! <= isoToMinute(release.start!)!,
    );
    expect(await rows()).toBeGreaterThanOrEqual(said.length);
  });

  it('a whole day is written down at once, as planned', async () => {
    const first = dialog().locator('[data-day]').first();
    const count = await first.locator('li[data-stage]').count();
    await first.getByRole('button', { name: 'All of it as planned' }).click();
    await eventually(async () => (await records()).length).toBe(count);
  });

  it('one at other times: an end before the start is refused, and other times are kept', async () => {
    const row = dialog().locator('li[data-stage]').first();
    const stage = await row.getAttribute('data-stage');
    await row.getByRole('button', { name: 'Other times' }).click();
    const [from, until] = [row.getByLabel('Begun'), row.getByLabel('Done', { exact: true })];
    const start = await from.inputValue();
    await until.fill(`${start.slice(0, 11)}00:01`);
    const write = row.getByRole('button', { name: 'Write it down', exact: true });
    const agree = row.getByRole('button', { name: 'Write it down all the same' });
    await write.click();
    await row.getByText('One of the two is wrong').waitFor();
    expect(await agree.count()).toBe(0);
    await until.fill(`${start.slice(0, 11)}18:30`);
    await write.click();
    if ((await agree.count()) > 0) await agree.click();
    await eventually(async () => (await records()).at(-1)).toMatchObject({
      stage,
      start,
      end: `${start.slice(0, 11)}18:30`,
    });
  });

  it('what was not done is asked no more, and what is left can be said later', async () => {
    const count = await rows();
    const last = dialog().locator('li[data-stage]').last();
    await last.getByRole('button', { name: 'Not done' }).click();
    await eventually(rows).toBe(count - 1);
    await dialog().getByRole('button', { name: 'Close' }).click();
    const notice = page.locator('.notice');
    expect(await notice.innerText()).toMatch(/should have begun since Mon 19 Apr 08:00/);
    await notice.getByRole('button', { name: 'Say what got done' }).click();
    for (let i = 0; i < 30 && (await dialog().count()) > 0; i++) {
      const day = dialog().locator('[data-day]').first();
      const left = await rows();
      await day.getByRole('button', { name: 'None of it' }).click();
      await eventually(async () => ((await dialog().count()) > 0 ? rows() : 0)).toBeLessThan(left);
    }
    await notice.waitFor({ state: 'hidden' });
    expectQuiet(planner);
  });
});
