/**
 * The planner in a real browser, for end-to-end tests, pictures and timing: the loopback host on a
 * data folder of its own with a clock that stands still, and a page that keeps count of trouble.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import type {
  Answer,
  ChannelInput,
  ChannelName,
  ChannelOutput,
} from '../../app/contract/channels.ts';
import { startHost } from '../../main/host/start.ts';
import { launchChromium } from '../../main/pdf/print.ts';

export interface PlannerOptions {
  /** ISO instant at which the clock stands; Monday morning before the samples' work by default. */
  readonly now?: string;
  readonly width?: number;
  readonly height?: number;
  /** Kept when the planner closes; without one a temporary folder is made and removed. */
  readonly dataDir?: string;
  /** The sample to open, by the name of its file. */
  readonly sample?: string;
  readonly colorScheme?: 'light' | 'dark';
  /** Zone of the browser's machine, which must never matter. */
  readonly machineZone?: string;
}

export interface Planner {
  readonly page: Page;
  readonly url: string;
  readonly dataDir: string;
  /** Console warnings and errors, page errors, failed answers. A sound run leaves it empty. */
  readonly trouble: readonly string[];
  /** Addresses asked for outside the host. Must stay empty: the planner is local. */
  readonly strangers: readonly string[];
  /** One call of the host's own channels, as the page makes it. */
  call<N extends ChannelName>(name: N, message: ChannelInput<N>): Promise<ChannelOutput<N>>;
  close(): Promise<void>;
}

export const DEFAULT_NOW = '2027-04-12T06:00Z';
/** What stands on the page as soon as it takes input. */
export const PLANNER_READY = 'main:not(.wait)';
/** How long a page may take for anything: long enough for a busy machine. */
export const PATIENCE_MS = 60_000;

/** Starts host and browser and opens the planner; waits until it stands. */
export async function openPlanner(options: PlannerOptions = {}): Promise<Planner> {
  const dataDir = options.dataDir ?? (await mkdtemp(join(tmpdir(), 'backcure-')));
  const host = await startHost({
    dataDir,
    now: new Date(options.now ?? DEFAULT_NOW),
    openBrowser: false,
    port: 0,
  });
  const call = caller(host.url);
  let browser: Browser | null = null;
  const close = async (): Promise<void> => {
    await browser?.close();
    await host.close();
    if (options.dataDir === undefined) await rm(dataDir, { recursive: true, force: true });
  };
  try {
    if (options.sample) await openSample(call, options.sample);
    browser = await launchChromium();
    const context = await browser.newContext({
      viewport: { width: options.width ?? 1280, height: options.height ?? 720 },
      locale: 'en-GB',
      timezoneId: options.machineZone ?? 'Pacific/Auckland',
      colorScheme: options.colorScheme ?? 'light',
      reducedMotion: 'reduce',
    });
    context.setDefaultTimeout(PATIENCE_MS);
    const watch = watchContext(context, new URL(host.url).origin);
    const page = await context.newPage();
    await page.goto(host.url);
    await page.waitForSelector(PLANNER_READY).catch((error: unknown) => {
      throw new Error(`the planner did not open: ${watch.trouble.join('; ')}`, { cause: error });
    });
    return { page, url: host.url, dataDir, ...watch, call, close };
  } catch (error) {
    await close();
    throw error;
  }
}

function watchContext(context: BrowserContext, origin: string) {
  const trouble: string[] = [];
  const strangers: string[] = [];
  context.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') {
      trouble.push(`${message.type()}: ${message.text()}`);
    }
  });
  context.on('weberror', (error) => trouble.push(`page: ${error.error().message}`));
  context.on('request', (request) => {
    const url = request.url();
    const own = url.startsWith(`${origin}/`) || /^(data|blob|about):/.test(url);
    if (!own) strangers.push(url);
  });
  context.on('response', (response) => {
    if (response.status() >= 400) trouble.push(`${response.status()}: ${response.url()}`);
  });
  return { trouble, strangers };
}

/** A typed caller of a host's channels. @throws Error with the channel's own words when refused */
export function caller(url: string): Planner['call'] {
  const { origin, hash } = new URL(url);
  const token = new URLSearchParams(hash.slice(1)).get('token') ?? '';
  return async (name, message) => {
    const response = await fetch(`${origin}/api/${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', authorization: `Bearer ${token}` },
      body: JSON.stringify(message),
    });
    const answer = (await response.json()) as Answer<ChannelOutput<typeof name>>;
    if (!answer.ok) throw new Error(`${name}: ${answer.code}: ${answer.detail}`);
    return answer.value;
  };
}

async function openSample(call: Planner['call'], sample: string): Promise<void> {
  const { shippedSamples } = await import('../../main/samples.ts');
  const wanted = shippedSamples().find((candidate) => candidate.name === sample);
  if (!wanted) throw new Error(`no sample ${sample}`);
  const { name } = JSON.parse(wanted.text()) as { name: string };
  const build = (await call('build-list', {})).find((row) => row.sample && row.name === name);
  if (!build) throw new Error(`the host lists no sample ${name}`);
  await call('build-open', { id: build.id });
}
