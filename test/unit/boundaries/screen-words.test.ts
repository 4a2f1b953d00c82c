/** What the screen says stands in renderer/words/, so that it can be read, mended and kept alike in one place. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot } from '../../../main/root.ts';
import { looseWords } from './screenWords.ts';

const root = projectRoot();
const components = globSync('renderer/**/*.svelte', { cwd: root })
  .map((file) => file.replaceAll('\\', '/'))
  .sort();

describe('a component of the screen', () => {
  it('is one of many', () => expect(components.length).toBeGreaterThan(80));

  it.each(components)('%s holds no words of its own', (file) => {
    expect(looseWords(readFileSync(join(root, file), 'utf8'))).toEqual([]);
  });
});

describe('loose words are found', () => {
  it.each([
    ['<p>Peak, °C</p>', ['Peak, °C']],
    ['<p>{n} plies</p>', ['plies']],
    ['<button aria-label="Remove {name}">×</button>', ['Remove ']],
    ['<Field label="Room" />', ['Room']],
    ["<Field hint={empty ? '' : 'Left empty: at once.'} />", ['Left empty: at once.']],
    ["<p>{open ? 'Fold' : words.unfold}</p>", ['Fold']],
    ['<p>{`${n} days`}</p>', [' days']],
    ["{#if open}<b>{n > 0 && 'late'}</b>{/if}", ['late']],
  ])('in %s', (source, words) => expect(looseWords(source)).toEqual(words));

  it.each([
    '<p>× {factor} °C, N/mm</p>',
    '<p class="small quiet">{words.peak}</p>',
    "<p class={open ? 'wide' : 'narrow'} id=\"a-{n}\">{kind === 'cup' ? words.cup : words.tray}</p>",
    '<!-- A comment. --><path d="M 0 0 L 1 1" />',
  ])('and none in %s', (source) => expect(looseWords(source)).toEqual([]));
});
