/** What the program is made of: pinned, licensed, and without scripts that run at installation. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { projectRoot } from '../../../main/root.ts';
import { licenceList, lockedPackages } from '../../trust/licences.ts';

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
