/** What the program is made of: pinned, licensed, and without scripts that run at installation. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { projectRoot } from '../../../main/root.ts';
import { licenceList, lockedPackages } from '../../trust/licences.ts';
import { REASONS } from '../../trust/releases.ts';

const manifest = JSON.parse(readFileSync(join(projectRoot(), 'package.json'), 'utf8')) as {
  dependencies: Record<string, string>;
  devDependencies: Record<string, string>;
  allowScripts: Record<string, boolean>;
};

it('every package is pinned to one version, in the lock as well', () => {
  const asked = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies });
  expect(asked.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([]);
  const locked = lockedPackages();
  expect(
    asked.filter(([name, version]) => locked.get(`node_modules/${name}`)?.version !== version),
  ).toEqual([]);
});

it('one package alone may run a script when it is installed', () => {
  const allowed = Object.entries(manifest.allowScripts).filter(([, may]) => may);
  expect(allowed).toEqual([['node', true]]);
});

it('the list of licences is that of the locked packages, and each names one', async () => {
  const list = await licenceList();
  expect(readFileSync(join(projectRoot(), 'docs', 'licences.md'), 'utf8')).toBe(list);
  expect(list).not.toContain('not named');
  for (const name of Object.keys(manifest.dependencies)) expect(list).toContain(`| ${name} `);
});

it('what goes with the program is imported by it, and what is not is a tool', () => {
  const sources = ['app', 'main', 'renderer'].flatMap((folder) =>
    readdirSync(join(projectRoot(), folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.(ts|svelte)$/.test(name))
      .map((name) => readFileSync(join(projectRoot(), folder, name), 'utf8')),
  );
  const isImported = (name: string): boolean =>
    sources.some((text) => text.includes(`'${name}'`) || text.includes(`'${name}/`));
  expect(Object.keys(manifest.dependencies).filter((name) => !isImported(name))).toEqual([]);
});

it('each package has a note of its release and a reason, as it is pinned', () => {
  const text = readFileSync(join(projectRoot(), 'docs', 'dependencies.md'), 'utf8');
  const cells = text.split('\n').map((line) => line.split('|').map((cell) => cell.trim()));
  const asked = { ...manifest.dependencies, ...manifest.devDependencies };
  expect(Object.keys(REASONS).toSorted()).toEqual(Object.keys(asked).toSorted());
  for (const [name, pinned] of Object.entries(asked)) {
    const row = cells.find(([, first]) => first === name);
    expect(row?.[2], name).toBe(pinned);
    expect(row?.[3], name).toMatch(/^\d{4}-\d\d-\d\d$/);
    expect(row?.[5], name).toMatch(/^\d{4}-\d\d-\d\d$/);
    expect(row?.[6], name).toBe(REASONS[name]);
  }
});

it('the notice holds both statements on the holidays’ licence, word for word', () => {
  const own = join(projectRoot(), 'node_modules', 'date-holidays');
  const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');
  const notice = flat(readFileSync(join(projectRoot(), 'NOTICE'), 'utf8'));
  const [data, code] = readFileSync(join(own, 'LICENSE'), 'utf8').split('----\n');
  const { license } = JSON.parse(readFileSync(join(own, 'package.json'), 'utf8')) as {
    license: string;
  };
  expect(notice).toContain(flat(data!).trim());
  expect(notice).toContain(flat(code!).trim());
  expect(notice).toContain(`"license": "${license}"`);
});
