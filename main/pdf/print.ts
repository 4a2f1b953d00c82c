/** Prints a sheet to PDF with a Chromium of this machine, the same bytes every time. */
import { createHash } from 'node:crypto';
import type { Browser } from 'playwright-core';
import { findChromium, NoChromium } from './chromium.ts';

const LAUNCH_TIMEOUT_MS = 60_000;

/**
 * Starts a Chromium without a window.
 * @throws NoChromium when this machine has none, or none that starts.
 */
export async function launchChromium(): Promise<Browser> {
  const { executablePath, env, args } = await findChromium();
  const { chromium } = await import('playwright-core').catch(() => {
    throw new NoChromium('playwright-core is not installed: run npm ci');
  });
  const options = { executablePath, env, args: [...args], timeout: LAUNCH_TIMEOUT_MS };
  const root = process.getuid?.() === 0;
  try {
    if (!root) return await chromium.launch({ ...options, chromiumSandbox: true });
  } catch {
    // Some containers forbid the sandbox to ordinary users too.
  }
  try {
    return await chromium.launch({ ...options, chromiumSandbox: false });
  } catch (error) {
    const first = error instanceof Error ? error.message.split('\n')[0] : String(error);
    throw new NoChromium(`the browser at ${executablePath} does not start (${first})`);
  }
}

/**
 * PDF of an HTML document that stands alone; its `@page` rules give the paper.
 * The instant `madeAt` (Unix ms) takes the place of the clock.
 * @throws NoChromium when no browser is available.
 */
export async function printPdf(html: string, madeAt: number): Promise<Buffer> {
  const browser = await launchChromium();
  try {
    const context = await browser.newContext({
      javaScriptEnabled: false,
      offline: true,
      locale: 'en-GB',
      timezoneId: 'UTC',
    });
    const page = await context.newPage();
    await page.setContent(html, { waitUntil: 'load' });
    const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true, tagged: true });
    return steady(pdf, madeAt);
  } finally {
    await browser.close();
  }
}

/**
 * Puts `madeAt` in place of the writer's clock and a hash of the content in place of a random file
 * id. Every replacement keeps its length, so the table of offsets stays true.
 */
export function steady(pdf: Buffer, madeAt: number): Buffer {
  const stamp = new Date(madeAt).toISOString().replace(/\D/g, '').slice(0, 14);
  const dated = pdf
    .toString('latin1')
    .replace(/\/(CreationDate|ModDate) \(D:\d{14}/g, (_, key: string) => `/${key} (D:${stamp}`);
  const withoutId = dated.replace(/(\/ID\s*\[)[^\]]*(\])/g, '$1$2');
  const hash = createHash('sha256').update(withoutId, 'latin1').digest('hex').toUpperCase();
  const steadied = dated.replace(
    /(\/ID\s*\[\s*<)([0-9A-Fa-f]+)(>\s*<)([0-9A-Fa-f]+)(>\s*\])/g,
    (_, open: string, a: string, between: string, b: string, close: string) =>
      open + hash.slice(0, a.length) + between + hash.slice(0, b.length) + close,
  );
  return Buffer.from(steadied, 'latin1');
}
