import { mount } from 'svelte';
import { applyLever } from '../app/judge/levers.ts';
import { LOOKUPS } from '../app/plan/lookups.ts';
import { FIRST_ANSWER } from '../app/plan/outcome.ts';
import { plan } from '../app/answer/plan.ts';
import { sheetsHtml } from '../app/shop/sheets.ts';
import { wordAs } from '../app/units/formats.ts';
import App from './App.svelte';
import { connect } from './state/bridge.ts';
import { ShopState } from './decide/shop.svelte.ts';
import { PlannerState } from './state/planner.svelte.ts';
import { ThemeState } from './state/theme.svelte.ts';
import './theme.css';

const call = connect(window);
const newWorker = () =>
  new Worker(new URL('./workers/plan.ts', import.meta.url), { type: 'module' });
/** Of the files that the page hands out, by their ending. */
const TEXT_TYPES: Readonly<Record<string, string>> = {
  csv: 'text/csv',
  html: 'text/html',
  ics: 'text/calendar',
  json: 'application/json',
};
const planner = new PlannerState({
  call,
  plan: (document, library, now) => plan(document, library, now, FIRST_ANSWER),
  applyLever: (document, leverId, library) => applyLever(document, leverId, library, LOOKUPS),
  printPage: () => window.print(),
  sheetsHtml,
  downloadText: (fileName, text) => {
    const type = TEXT_TYPES[fileName.split('.').at(-1)!] ?? 'text/plain';
    const address = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
    Object.assign(document.createElement('a'), { href: address, download: fileName }).click();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
  },
  worker: newWorker(),
  newWorker,
  // The page's own timer stands still while the machine sleeps.
  elapsedMs: () => Date.now(),
  zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
});
wordAs(() => planner.formats);
const theme = new ThemeState((query) => window.matchMedia(query));

mount(App, {
  target: document.getElementById('app')!,
  props: { planner, theme, shop: new ShopState(call) },
});
void planner.start();
/** The loopback host does not end while a page is open. */
const HERE_MS = 60_000;
setInterval(() => void call('page-here', {}), HERE_MS);
