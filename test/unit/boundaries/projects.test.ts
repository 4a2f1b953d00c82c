import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import config from '../../../vitest.config.ts';

const runner = readFileSync(new URL('../../run.ts', import.meta.url), 'utf8');

it('npm test runs every project of tests that is configured', () => {
  const projects = (config as { test: { projects: { test: { name: string } }[] } }).test.projects;
  const names = projects.map(({ test }) => test.name);
  expect(names.length).toBeGreaterThan(3);
  for (const name of names) expect(runner).toContain(`'${name}'`);
});
