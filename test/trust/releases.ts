/**
 * `npm run releases`: writes docs/dependencies.md, each package that is named in package.json with the day of its
 * pinned and of its newest release, as the registry tells, and why it is here.
 */
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { format } from 'prettier';
import { projectRoot } from '../../main/root.ts';

interface Manifest {
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
}

/** Why each package is here. */
export const REASONS: Readonly<Record<string, string>> = {
  '@date-fns/tz': 'offsets of time zones, with their changes',
  'better-sqlite3': 'the data file',
  'chart.js': 'line charts of cures, rooms and odds',
  'date-holidays': 'public holidays by country and region',
  'ical.js': 'busy times out of calendar files, with their repeats',
  'ml-levenberg-marquardt': 'the fit of a curve through the rows of a sheet',
  'ml-matrix': 'laminate stiffness and least squares',
  uuid: 'ids in the order in which they were made',
  zod: 'the one definition of document, messages and result',
  '@eslint/js': 'lint: the common rules',
  '@jscad/modeling': 'tests: bodies whose areas are known',
  '@jscad/obj-serializer': 'tests: mesh files that another program wrote',
  '@jscad/stl-serializer': 'tests: mesh files that another program wrote',
  '@sparticuz/chromium': 'a browser for tests and PDF where the machine has none',
  '@sveltejs/vite-plugin-svelte': 'builds the components',
  '@testing-library/svelte': 'tests: components as a person meets them',
  '@types/better-sqlite3': 'types',
  '@types/node': 'types',
  'axe-core': 'tests: what a screen reader would miss',
  'date-fns': 'tests: an independent calendar for deliveries and slots',
  electron: 'the window',
  'electron-vite': 'builds main, preload and page',
  eslint: 'lint',
  'eslint-plugin-svelte': 'lint of components',
  'fast-check': 'tests over drawn cases',
  globals: 'lint: names that each environment knows',
  'happy-dom': 'tests: a page without a browser',
  node: 'the one Node that all scripts run on',
  odex: 'tests: differential equations solved another way',
  'playwright-core': 'tests in a browser, and PDF',
  prettier: 'one layout of all files',
  'prettier-plugin-svelte': 'the same for components',
  svelte: 'the page; compiled into the bundle',
  'svelte-check': 'types of components',
  'tar-stream': 'tests: packed browsers are unpacked safely',
  typescript: 'types',
  'typescript-eslint': 'lint with types',
  vite: 'bundles',
  vitest: 'runs the tests',
};

const HEAD = `# Why each package is here

Written by \`npm run releases\`, from package.json and what the registry tells of each package.

`;

export const manifest = (root = projectRoot()): Manifest =>
  JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as Manifest;

interface Told {
  readonly time: Readonly<Record<string, string>>;
  readonly 'dist-tags': Readonly<Record<string, string>>;
}

function row([name, pinned]: [string, string]): string {
  const asked = ['view', name, 'time', 'dist-tags', '--json'];
  const told = JSON.parse(execFileSync('npm', asked, { encoding: 'utf8' })) as Told;
  const newest = told['dist-tags']['latest'] ?? '';
  const day = (version: string): string => told.time[version]?.slice(0, 10) ?? 'not told';
  return `| ${name} | ${pinned} | ${day(pinned)} | ${newest} | ${day(newest)} | ${REASONS[name] ?? ''} |`;
}

const table = (title: string, packages: Readonly<Record<string, string>>): string =>
  [
    `## ${title}`,
    '',
    '| package | pinned | released | newest | released | reason |',
    '| --- | --- | --- | --- | --- | --- |',
    ...Object.entries(packages).map(row),
    '',
  ].join('\n');

if (process.argv[1] === import.meta.filename) {
  const root = projectRoot();
  const { dependencies, devDependencies } = manifest(root);
  const day = new Date().toISOString().slice(0, 10);
  const text = `${HEAD}Asked on ${day}.\n\n${table('Go with the program', dependencies)}\n${table('Build and test it', devDependencies)}`;
  const layout = JSON.parse(readFileSync(join(root, '.prettierrc.json'), 'utf8')) as object;
  writeFileSync(
    join(root, 'docs', 'dependencies.md'),
    await format(text, { ...layout, parser: 'markdown' }),
  );
}
