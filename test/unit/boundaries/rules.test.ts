/** docs/rules.md names every reason of a relation once, and the files that lay it. */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const NETWORK = 'app/schedule/network/';
const page = readFileSync('docs/rules.md', 'utf8');
const inTicks = (cell: string): string[] =>
  [...cell.matchAll(/`([^`]+)`/g)].map(([, name]) => name!);

/** Rows of the first table: reasons, and the files that lay them. */
const rows = page
  .slice(page.indexOf('## Relations and windows'), page.indexOf('## Resources'))
  .split('\n')
  .map((line) => line.split('|').map((cell) => cell.trim()))
  .filter((cells) => cells.length > 4 && cells[3]!.startsWith('`'))
  .map(([, , kind, reasons, files]) => ({
    kind: kind!,
    reasons: inTicks(reasons!),
    files: inTicks(files!),
  }));

describe('the page of rules about when', () => {
  it('has every reason of a relation in exactly one row', () => {
    const table = readFileSync('app/messages/relations.ts', 'utf8');
    const codes = [...table.matchAll(/^ {2}'?([a-z-]+)'?: '/gm)].map(([, code]) => code!);
    expect(codes.length).toBeGreaterThan(40);
    expect(rows.flatMap(({ reasons }) => reasons).toSorted()).toEqual(codes.toSorted());
  });

  it('names the very files in which they are laid', () => {
    for (const { reasons, files } of rows) {
      const texts = files.map((file) => readFileSync(NETWORK + file, 'utf8'));
      const laidIn = (text: string) => reasons.filter((code) => text.includes(`'${code}'`));
      expect(texts.map((text) => laidIn(text).length > 0)).toEqual(files.map(() => true));
      expect(new Set(texts.flatMap(laidIn))).toEqual(new Set(reasons));
    }
  });

  it('knows relations and windows, and points to files that exist', () => {
    const kinds = new Set(rows.map(({ kind }) => kind));
    expect(kinds).toEqual(new Set(['relation', 'window']));
    const paths = inTicks(page).filter((name) => name.startsWith('app/'));
    expect(paths.filter((path) => !existsSync(path))).toEqual([]);
    expect(paths.length).toBeGreaterThan(6);
  });
});
