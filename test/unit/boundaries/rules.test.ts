/** docs/rules.md names every reason of a relation once, and the files that lay it. */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { RULE_KINDS, RULES } from '../../../app/messages/relations.ts';

const kinds = new Map(RULES);
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
  it('has every rule of the table in exactly one row', () => {
    expect(kinds.size).toBeGreaterThan(40);
    expect(rows.flatMap(({ reasons }) => reasons).toSorted()).toEqual([...kinds.keys()].toSorted());
  });

  it('names the very files in which they are laid', () => {
    for (const { reasons, files } of rows) {
      const texts = files.map((file) => readFileSync(NETWORK + file, 'utf8'));
      const laidIn = (text: string) => reasons.filter((code) => text.includes(`'${code}'`));
      expect(texts.map((text) => laidIn(text).length > 0)).toEqual(files.map(() => true));
      expect(new Set(texts.flatMap(laidIn))).toEqual(new Set(reasons));
    }
  });

  it('says of each row whether a window is among its reasons, or all of them are starts', () => {
    for (const { kind, reasons } of rows) {
      const own = new Set(reasons.map((code) => kinds.get(code)));
      const [only] = own.size === 1 ? own : [own.has('start') ? 'mixed' : 'window'];
      expect([reasons, kind]).toEqual([reasons, only]);
    }
    expect(new Set(rows.map(({ kind }) => kind))).toEqual(new Set(RULE_KINDS));
  });

  it('points to files that exist', () => {
    const paths = inTicks(page).filter((name) => name.startsWith('app/'));
    expect(paths.filter((path) => !existsSync(path))).toEqual([]);
    expect(paths.length).toBeGreaterThan(6);
  });
});
