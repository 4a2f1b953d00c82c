/**
 * The content policy in a real browser: what a page of ours may not do is tried. Evaluated text cannot be:
 * the tool that drives the browser lifts that rule for what it runs.
 */
import { afterAll, beforeAll, expect, it } from 'vitest';
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
