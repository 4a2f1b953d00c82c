/**
 * `npm run licences`: writes docs/licences.md, every package that goes with the program with its exact
 * version and licence, as package-lock.json and the packages themselves name them.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { format } from 'prettier';
import { projectRoot } from '../../main/root.ts';

interface Locked {
  readonly version?: string;
  readonly dev?: boolean;
  readonly optional?: boolean;
  readonly license?: string;
  readonly hasInstallScript?: boolean;
}

/** Path in the lock, as `node_modules/zod`, to what is locked. */
export const lockedPackages = (root = projectRoot()): ReadonlyMap<string, Locked> => {
  const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')) as {
    packages: Record<string, Locked>;
  };
  return new Map(Object.entries(lock.packages).filter(([path]) => path !== ''));
};

const HEAD = `# Packages that go with the program

Written by \`npm run licences\`, from package-lock.json and the packages themselves.

| package | version | licence |
| --- | --- | --- |
`;

export async function licenceList(root = projectRoot()): Promise<string> {
  const rows = [...lockedPackages(root)]
    .filter(([, { dev }]) => dev !== true)
    .map(([path, { version = '', license }]) => {
      const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
      return `| ${name} | ${version} | ${license ?? licenceOf(join(root, path))} |`;
    });
  return format(HEAD + [...new Set(rows)].toSorted().join('\n'), {
    ...(JSON.parse(readFileSync(join(root, '.prettierrc.json'), 'utf8')) as object),
    parser: 'markdown',
  });
}

function licenceOf(folder: string): string {
  try {
    const text = readFileSync(join(folder, 'package.json'), 'utf8');
    const { license } = JSON.parse(text) as { license?: unknown };
    return typeof license === 'string' ? license : 'not named';
  } catch {
    return 'not named';
  }
}

if (process.argv[1] === import.meta.filename) {
  writeFileSync(join(projectRoot(), 'docs', 'licences.md'), await licenceList());
}
