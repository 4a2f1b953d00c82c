/** A planner on the floor: a build with records, a clock that runs and can leap, ears for alarms. */
import type { Route } from 'playwright-core';
import type { Build } from '../../app/document/schema.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import type { Minute } from '../../app/time/instant.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import type { Planner } from './planner.ts';

/** What a page tells of itself: tones that were begun, titles of notifications. */
interface Counts {
  readonly tones: number;
  readonly notes: readonly string[];
}

export interface Floor {
  /** The id that the build was stored under. */
  readonly id: string;
  /** Lets the page's clock leap, as over a sleep of the machine. */
  leap(seconds: number): Promise<void>;
  hide(hidden: boolean): Promise<void>;
  counts(): Promise<Counts>;
}

/** Everything that a plan ends before a minute, recorded as planned. */
export function recordedBefore({ result }: PlanOutcome, minute: Minute): Build['records'] {
  return result.stages
    .filter(({ end }) => end !== null && isoToMinute(end)! <= minute)
    .map(({ id, start, end }) => ({
      stage: id,
      start: start!.slice(0, 16),
      end: end!.slice(0, 16),
    }));
}

/** Opens a build at a minute of its own, with a clock that runs on from there. */
export async function onFloor(
  { page, call }: Planner,
  {
    build,
    minute,
    lookedAt,
  }: { readonly build: Build; readonly minute: Minute; readonly lookedAt?: Minute },
): Promise<Floor> {
  const text = JSON.stringify(build);
  const imported = await call('build-import', { fileName: 'floor.json', text });
  if ('faults' in imported) throw new Error(JSON.stringify(imported.faults));
  // A page that goes keeps its own view as it was: it goes before another one is put in the store.
  const address = page.url();
  await page.goto('about:blank');
  if (lookedAt !== undefined) {
    const looked = { [imported.opened.id]: { at: lookedAt, notDone: [] } };
    await call('view-save', { view: { looked } });
  }
  await page.context().grantPermissions(['notifications']);
  // The host's clock stands still; the page's goes on from the minute given.
  let began: number | null = null;
  await page.route('**/api/session-start', async (route: Route) => {
    const response = await route.fetch();
    const answer = (await response.json()) as { value: Record<string, unknown> };
    began ??= Date.now();
    const now = new Date(minute * 60_000 + Date.now() - began).toISOString();
    await route.fulfill({
      response,
      json: { ...answer, value: { ...answer.value, now, nowFixed: false } },
    });
  });
  await page.addInitScript(listen);
  await page.goto(address);
  await page.locator('[data-answer="fit"]').waitFor({ timeout: 60_000 });
  return {
    id: imported.opened.id,
    leap: (seconds) =>
      page.evaluate((ms) => {
        (window as unknown as Heard).heard.leapMs += ms;
      }, seconds * 1000),
    hide: (hidden) =>
      page.evaluate(
        (state) => {
          Object.defineProperty(document, 'visibilityState', { value: state, configurable: true });
          document.dispatchEvent(new Event('visibilitychange'));
        },
        hidden ? 'hidden' : 'visible',
      ),
    counts: () => page.evaluate(() => (window as unknown as Heard).heard),
  };
}

interface Heard {
  heard: { tones: number; notes: string[]; leapMs: number };
}

/** Runs in the page before its own code. */
function listen(): void {
  const heard = { tones: 0, notes: [] as string[], leapMs: 0 };
  Object.assign(window, { heard });
  const read = Date.now.bind(Date);
  Date.now = () => read() + heard.leapMs;
  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (this: OscillatorNode, when?: number) {
    heard.tones += 1;
    start.call(this, when);
  };
  const Silent = class {
    static readonly permission = 'granted';
    static requestPermission = () => Promise.resolve('granted');
    constructor(title: string) {
      heard.notes.push(title);
    }
  };
  Object.assign(window, { Notification: Silent });
  const lock = { released: false, release: () => Promise.resolve() };
  Object.defineProperty(navigator, 'wakeLock', { value: { request: () => Promise.resolve(lock) } });
}
