/** Every rule between the folders is proved by a snippet that must fail it. */
import { globSync, readdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { ESLint } from 'eslint';
import { describe, expect, it } from 'vitest';
import { FOLDERS_IN_ORDER } from '../../../eslint.boundaries.js';
import { projectRoot } from '../../../main/root.ts';

const root = projectRoot();
const eslint = new ESLint({ cwd: root });

async function rulesBroken(file: string, code: string): Promise<string[]> {
  const [result] = await eslint.lintText(code, { filePath: join(root, file) });
  return result!.messages.map((message) => message.ruleId ?? `fatal: ${message.message}`);
}

const IMPORTS = 'boundaries/imports';
const IDS = 'boundaries/ids';
const GLOBALS = 'no-restricted-globals';
const PROPERTIES = 'no-restricted-properties';
const SYNTAX = 'no-restricted-syntax';
const HTML = 'svelte/no-at-html-tags';

const APP = 'app/part/example.ts';
const JUDGE = 'app/judge/example.ts';
const PAGE = 'renderer/example.ts';
// The type-aware rules of main/ want a file that exists.
const MAIN = 'main/root.ts';

const forbidden = FOLDERS_IN_ORDER.flatMap((from, at) =>
  FOLDERS_IN_ORDER.slice(at + 1).map((to): [string, string] => [from, to]),
);

describe('the order of the folders of app/', { timeout: 120_000 }, () => {
  it('names every folder that there is, and no other', () => {
    const there = readdirSync(join(root, 'app'), { withFileTypes: true });
    const folders = there.filter((entry) => entry.isDirectory()).map(({ name }) => name);
    expect(folders.sort()).toEqual([...FOLDERS_IN_ORDER].sort());
  });

  it.each(forbidden)('%s/ does not import %s/', async (from, to) => {
    const code = `export type { A } from '../${to}/a.ts';`;
    expect(await rulesBroken(`app/${from}/example.ts`, code)).toContain(IMPORTS);
  });
});

describe('the rooms of renderer/', () => {
  it('has nothing at its door but the page itself', () => {
    const there = readdirSync(join(root, 'renderer'), { withFileTypes: true });
    const files = there.filter((entry) => entry.isFile()).map(({ name }) => name);
    const page = ['App.svelte', 'index.html', 'main.ts', 'theme.css', 'tsconfig.json'];
    expect(files.sort()).toEqual(page.sort());
  });

  it('gives no two components one name', () => {
    const names = globSync('renderer/**/*.svelte', { cwd: root }).map((file) => basename(file));
    expect(names.length).toBeGreaterThan(100);
    expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
  });
});

describe('what the folders refuse', { timeout: 60_000 }, () => {
  it.each<[string, string, string, string]>([
    ['app imports main', APP, "export * from '../../main/root.ts';", IMPORTS],
    ['app imports renderer', APP, "export { a } from '../../renderer/state/bridge.ts';", IMPORTS],
    ['app imports samples', APP, "export * from '../../samples/library/cores.json';", IMPORTS],
    [
      'app imports Node',
      APP,
      "import { readFileSync } from 'node:fs';\nreadFileSync('a');",
      IMPORTS,
    ],
    ['app imports a package', APP, "import Chart from 'chart.js';\nnew Chart();", IMPORTS],
    ['app imports late', APP, "export const a = () => import('node:fs');", IMPORTS],
    [
      'a type is an import too',
      APP,
      "import type { A } from '../../main/a.ts';\nexport type B = A;",
      IMPORTS,
    ],
    ['a step imports a later one', APP, "export * from '../cure/dose.ts';", IMPORTS],
    ['judge imports a step', JUDGE, "export { measurePart } from '../part/measure.ts';", IMPORTS],
    [
      'judge imports the planner of a route',
      JUDGE,
      "export { planRoute } from '../plan/routePlan.ts';",
      IMPORTS,
    ],
    ['judge imports the answer', JUDGE, "export type { A } from '../answer/plan.ts';", IMPORTS],
    ['an unlisted folder', 'app/loose/example.ts', "export * from '../units/convert.ts';", IMPORTS],
    ['a file at the door of app', 'app/loose.ts', "export * from './units/convert.ts';", IMPORTS],
    ['an unlisted folder is imported', APP, "export * from '../loose/a.ts';", IMPORTS],
    ['app reads the clock', APP, 'export const a = Date.now();', PROPERTIES],
    ['app makes today', APP, 'export const a = new Date();', SYNTAX],
    ['app calls Date', APP, 'export const a = Date();', SYNTAX],
    ["app reads the machine's zone", APP, 'export const a = new Date(2027, 4, 1);', SYNTAX],
    ['app rolls dice', APP, 'export const a = Math.random();', PROPERTIES],
    ['app makes ids', APP, 'export const a = crypto.randomUUID();', GLOBALS],
    ['app times itself', APP, 'export const a = performance.now();', GLOBALS],
    ['app prints', APP, "console.log('a');", GLOBALS],
    ['app touches a page', APP, "export const a = document.querySelector('p');", GLOBALS],
    ['app stores', APP, "localStorage.setItem('a', 'b');", GLOBALS],
    ['app fetches', APP, "export const a = fetch('/');", GLOBALS],
    ['app sets a timer', APP, 'setTimeout(() => {}, 1);', GLOBALS],
    ['app reads the environment', APP, 'export const a = process.env;', GLOBALS],
    [
      "app sorts by the machine's language",
      APP,
      "export const a = 'a'.localeCompare('b');",
      PROPERTIES,
    ],
    ["app writes in the machine's language", APP, 'export const a = (1).toLocaleString();', SYNTAX],
    [
      'app asks how an id begins',
      APP,
      "export const a = (stage: { id: string }) => stage.id.startsWith('gel');",
      IDS,
    ],
    [
      'app asks how a mode begins',
      APP,
      "export const a = (placed: { mode: string }) => placed.mode?.startsWith('a');",
      IDS,
    ],
    [
      'renderer takes an id apart',
      PAGE,
      "export const a = (leverId: string) => leverId.split(':')[0];",
      IDS,
    ],
    ['app makes an id', APP, 'export const a = (layup: string) => `cure:${layup}`;', IDS],
    ['renderer names an id', PAGE, "export const a = 'layup:skin';", IDS],
    ['renderer imports main', PAGE, "export * from '../main/root.ts';", IMPORTS],
    ['renderer imports Node', PAGE, "export * from 'node:path';", IMPORTS],
    ['renderer imports Electron', PAGE, "export * from 'electron';", IMPORTS],
    ['renderer imports the database', PAGE, "export * from 'better-sqlite3';", IMPORTS],
    ['renderer writes HTML', 'renderer/Example.svelte', '<p>{@html "<b>a</b>"}</p>', HTML],
    ['main imports renderer', MAIN, "export * from '../renderer/state/bridge.ts';", IMPORTS],
    ['main imports tests', MAIN, "export * from '../test/browser/planner.ts';", IMPORTS],
    [
      'main forgets a promise',
      MAIN,
      'Promise.resolve(1);',
      '@typescript-eslint/no-floating-promises',
    ],
  ])('%s', async (_, file, code, rule) => {
    expect(await rulesBroken(file, code)).toContain(rule);
  });

  it.each<[string, string, string]>([
    [
      'app imports what it may',
      APP,
      "export { z } from 'zod';\nexport * from '../units/convert.ts';",
    ],
    [
      'app imports its time packages',
      APP,
      "export { tz } from '@date-fns/tz';\nexport { z } from 'zod';",
    ],
    [
      'app reads a given instant',
      APP,
      'export const a = (ms: number) => new Date(ms).toISOString();',
    ],
    ['a step looks back', 'app/cure/example.ts', "export * from '../part/layups.ts';"],
    [
      'judge knows the types',
      JUDGE,
      "import type { Layup } from '../part/types.ts';\nexport type A = Layup;",
    ],
    ['renderer imports app', PAGE, "export * from '../app/units/convert.ts';"],
    ['main imports app', MAIN, "export * from '../app/units/convert.ts';"],
    [
      'app looks an id up',
      APP,
      'export const a = (ids: string[], id: string) => ids.includes(id);',
    ],
    ['app writes a sentence', APP, 'export const a = (hours: number) => `wait: ${hours} h`;'],
  ])('and allow: %s', async (_, file, code) => {
    expect(await rulesBroken(file, code)).toEqual([]);
  });
});
