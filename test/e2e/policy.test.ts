/**
 * The content policy in a real browser: what a page of ours may not do is tried. Evaluated text cannot be:
 * the tool that drives the browser lifts that rule for what it runs.
 */
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { PLANNER_URL } from '../../main/electron/address.ts';
import { answerRequest } from '../../main/electron/scheme.ts';
import { readPage } from '../../main/page/files.ts';
import { projectRoot } from '../../main/root.ts';
import { openPlanner, type Planner } from '../browser/planner.ts';

const DIRECTIVES = ['connect-src', 'frame-src', 'img-src', 'script-src-attr', 'script-src-elem'];

let planner: Planner;
beforeAll(async () => {
  planner = await openPlanner();
});
afterAll(() => planner.close());

it('runs no inline script and no handler in markup, and fetches nothing from elsewhere', async () => {
  const tried = await planner.page.evaluate(async (tries) => {
    const blocked: string[] = [];
    // Each attempt is over when the browser has told of it: that is waited for, and no time.
    const told = new Promise<void>((done) => {
      document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) => {
        blocked.push(effectiveDirective);
        if (new Set(blocked).size === tries) done();
      });
    });
    const put = (tag: string, attributes: Record<string, string>, text = ''): void => {
      const element = document.createElement(tag);
      for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
      element.textContent = text;
      document.body.append(element);
    };
    put('script', {}, 'window.ranInline = true');
    put('button', { id: 'tried', onclick: 'window.ranHandler = true' });
    document.getElementById('tried')?.click();
    put('img', { src: 'http://127.0.0.1:9/x.png' });
    put('iframe', { src: 'http://127.0.0.1:9/' });
    put('script', { src: 'http://127.0.0.1:9/x.js' });
    const fetched = await fetch('http://127.0.0.1:9/').then(
      () => 'answered',
      () => 'refused',
    );
    await told;
    return {
      fetched,
      inline: 'ranInline' in window,
      handler: 'ranHandler' in window,
      blocked: [...new Set(blocked)].toSorted(),
    };
  }, DIRECTIVES.length);
  expect(tried).toEqual({
    fetched: 'refused',
    inline: false,
    handler: false,
    blocked: DIRECTIVES,
  });
  expect(planner.strangers.filter((url) => !url.startsWith('http://127.0.0.1:9/'))).toEqual([]);
});

/** What stands in a page that somebody else has written into. */
const FOREIGN = `<script>document.title = 'ran';</script><img src="x" onerror="document.title = 'ran'">`;

it('nor does a page or a sheet with the answers of the desktop window, whoever wrote into it', async () => {
  const built = readPage(join(projectRoot(), 'out', 'renderer'));
  const index = built.get('/index.html')!;
  const body = Buffer.from(
    Buffer.from(index.body).toString().replace('</body>', `${FOREIGN}</body>`),
  );
  const files = new Map([...built, ['/index.html', { ...index, body }]]);
  const sheets = new Map([['/1', `<title>Sheet</title><p>Week</p>${FOREIGN}`]]);
  const context = await planner.page.context().browser()!.newContext();
  const page = await context.newPage();
  const refused: string[] = [];
  page.on('console', (message) => {
    if (message.text().includes('Content Security Policy')) refused.push(message.text());
  });
  // The scheme's own answers, under an address that this browser takes.
  await page.route('http://*.test/**', async (route) => {
    const url = route
      .request()
      .url()
      .replace(/^http:\/\/(\w+)\.test/, 'backcure://$1');
    const answer = answerRequest(files, sheets, { url, method: route.request().method() });
    await route.fulfill({
      status: answer.status,
      headers: Object.fromEntries(answer.headers),
      body: Buffer.from(await answer.arrayBuffer()),
    });
  });
  const tries: string[] = [];
  for (const url of [PLANNER_URL, 'backcure://sheets/1']) {
    refused.length = 0;
    await page.goto(url.replace(/^backcure:\/\/(\w+)/, 'http://$1.test'));
    await expect
      .poll(() => refused.filter((text) => /inline/.test(text)).length)
      .toBeGreaterThan(1);
    tries.push(await page.title());
  }
  expect(tries).not.toContain('ran');
  expect(tries[1]).toBe('Sheet');
  await context.close();
});
