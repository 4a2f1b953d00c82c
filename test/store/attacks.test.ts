/** Short forms of the attacks of `npm run bench -- crash|fuzz|soak`. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot } from '../../main/root.ts';
import { crash } from '../trust/crash.ts';
import { fuzz } from '../trust/fuzz.ts';
import { withFigure } from '../trust/run.ts';
import { soak } from '../trust/soak.ts';
import { scratchFolder } from './fixtures.ts';

it('a process that is killed again and again loses nothing that was acknowledged', async () => {
  const count = await crash(scratchFolder(), 12, 7);
  expect(count.acknowledged).toBeGreaterThan(12);
  expect(count).toMatchObject({ kills: 12, lost: 0, damaged: 0, notices: 0 });
}, 180_000);

it('mutated files are answered, whatever stands in them', async () => {
  const count = await fuzz(360, 1, scratchFolder(), { commandEvery: 40, prints: false });
  expect(count.crashes).toEqual([]);
  expect(count.read).toBeGreaterThan(30);
  expect(count.planned).toBeGreaterThan(0);
  expect(count.commanded).toBeGreaterThan(0);
}, 180_000);

it('hundreds of edits leave memory where it was and a small file', async () => {
  const { heapMB, fileMB } = await soak(scratchFolder(), 300);
  expect(heapMB[1]).toBeLessThan(heapMB[0] * 1.2);
  expect(fileMB).toBeLessThan(2);
}, 180_000);

describe('the page of figures', () => {
  const text = readFileSync(join(projectRoot(), 'docs/trust.md'), 'utf8');
  it.each(['crash', 'fuzz', 'soak', 'extremes'])(
    'has a place for %s, and nothing else changes',
    (name) => {
      const once = withFigure(text, name, 'A figure.');
      expect(once).toContain(`<!-- ${name} -->\n\nA figure.\n\n<!-- /${name} -->`);
      expect(withFigure(once, name, 'A figure.')).toBe(once);
      expect(once.split('\n').length).toBeLessThanOrEqual(text.split('\n').length + 2);
    },
  );
});
