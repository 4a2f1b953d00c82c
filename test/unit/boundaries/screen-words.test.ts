/** What the screen says stands in renderer/words/, so that it can be read, mended and kept alike in one place. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot } from '../../../main/root.ts';
import { looseSentences, looseWords } from './screenWords.ts';

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

const code = globSync('renderer/**/*.{svelte,ts}', { cwd: root })
  .map((file) => file.replaceAll('\\', '/'))
  .filter((file) => !file.startsWith('renderer/words/'))
  .sort();

describe('code of the screen', () => {
  it('is read, modules and components', () => expect(code.length).toBeGreaterThan(130));

  it.each(code)('%s holds no sentence of its own', (file) => {
    const source = readFileSync(join(root, file), 'utf8');
    expect(looseSentences(source, file.endsWith('.ts'))).toEqual([]);
  });
});

describe('a table of words', () => {
  const tables = globSync('renderer/words/*.ts', { cwd: root });
  it('is one of many', () => expect(tables.length).toBeGreaterThan(20));

  it.each(tables)(
    '%s names its entries by what they are: none by a number or with underscores',
    (file) => {
      const source = readFileSync(join(root, file), 'utf8');
      const names = [...source.matchAll(/\b([a-z]\w*)\??: ?(?!\/)/g)].map(([, name]) => name!);
      expect(names.filter((name) => /[a-z]2$|[a-z]_[a-z]/.test(name))).toEqual([]);
    },
  );
});

describe('loose sentences of code are found', () => {
  it.each([
    ["const LABELS = { gel: 'Gel from' };", ['Gel from']],
    [
      'news.say(`Not taken: ${label}`); const rest = `${n} of them all`;',
      ['Not taken: ', ' of them all'],
    ],
    ["const a = late ? 'never ready' : clock;", ['never ready']],
  ])('in %s', (source, sentences) => {
    expect(looseSentences(source, true)).toEqual(sentences);
    expect(looseSentences(`<script lang="ts">${source}</script>`, false)).toEqual(sentences);
  });

  it.each([
    "throw new Error('no such command here');",
    "import { a } from './two words.ts'; type Only = 'two words';",
    "target.matches('input, select, textarea, [contenteditable]');",
    "const FAMILY = \"system-ui, 'Segoe UI', sans-serif\"; const key = 'ArrowLeft';",
  ])('and none in %s', (source) => expect(looseSentences(source, true)).toEqual([]));
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
