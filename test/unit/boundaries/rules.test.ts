/** docs/rules.md names every reason of a relation once, and the files that lay it. */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FINDINGS, type FindingCode } from '../../../app/messages/findings.ts';
import { RULE_KINDS, RULES } from '../../../app/messages/relations.ts';
import { compareScores, type Score } from '../../../app/schedule/objective.ts';

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

/** Rows of the second table: rule, kind, severity, files, what checks it. */
const resources = page
  .slice(page.indexOf('## Resources'), page.indexOf('## Not in the network'))
  .split('\n')
  .map((line) => line.split('|').map((cell) => cell.trim()))
  .filter((cells) => cells.length > 5 && cells[1] !== 'rule' && !/^-+$/.test(cells[1]!));

const severitiesOf = (code: string): readonly string[] =>
  code in FINDINGS ? [FINDINGS[code as FindingCode].severity].flat() : [];

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

  it('names every function of the checker, and none that is not there', () => {
    const checker = readFileSync('app/schedule/check.ts', 'utf8');
    const written = [...checker.matchAll(/^function (check\w+)/gm)].map(([, name]) => name!);
    const named = inTicks(page).filter((name) => /^check[A-Z]\w+$/.test(name));
    expect(written.length).toBeGreaterThan(4);
    expect([...new Set(named)].toSorted()).toEqual(written.toSorted());
  });

  it('says of each resource and price where it is laid, and names findings that there are', () => {
    expect(resources.length).toBeGreaterThan(15);
    const isThere = (file: string) => existsSync(file) || existsSync(NETWORK + file);
    const files = resources.flatMap((cells) => inTicks(cells[4]!)).filter((f) => f.endsWith('.ts'));
    expect(files.filter((file) => !isThere(file))).toEqual([]);
    const codes = [...page.matchAll(/^\| ([^|]+)/gm)]
      .flatMap(([, rule]) => inTicks(rule!))
      .filter((code) => code.includes('-'));
    expect(codes.length).toBeGreaterThan(8);
    expect(codes.filter((code) => !(code in FINDINGS) && !kinds.has(code))).toEqual([]);
  });

  it('gives each finding a severity that it has', () => {
    const told = [...page.matchAll(/`([a-z-]+)` \((stop|warn|note)\)/g)];
    const wrong = told.filter(([, code, severity]) => !severitiesOf(code!).includes(severity!));
    expect(wrong.map(([text]) => text)).toEqual([]);
    const rules = [...page.matchAll(/^\| ([^|]+)/gm)].map(([, rule]) => rule!);
    const codes = rules.flatMap(inTicks).filter((code) => code in FINDINGS);
    expect(codes.length).toBeGreaterThan(17);
    const toldOf = new Set(told.map(([, code]) => code));
    expect(codes.filter((code) => !toldOf.has(code))).toEqual([]);
  });

  it('says how each is laid in names that a problem has, and prices only what is warned of', () => {
    const types = readFileSync('app/schedule/problem.ts', 'utf8');
    const has = (name: string) => new RegExp(`readonly ${name}\\??:`).test(types);
    const kindsOf = resources.flatMap((cells) => inTicks(cells[2]!));
    expect(kindsOf.length).toBeGreaterThan(20);
    expect(kindsOf.filter((name) => !has(name))).toEqual([]);
    const priced = resources.filter((cells) => /^mode `(repair|warnings)`$/.test(cells[2]!));
    expect(priced.length).toBeGreaterThan(3);
    for (const [, rule, , severity] of priced) {
      expect(severity, rule).toMatch(/^price of a warning/);
      const own = inTicks(rule!).filter((code) => code in FINDINGS);
      expect(own.map(severitiesOf), rule).toEqual(own.map(() => ['warn']));
    }
  });

  it('counts prices in the order that decides between two plans', () => {
    const [, said] = /counts in this order: ([^.]+)\./.exec(page)!;
    const order: (keyof Score)[] = ['late', 'warnings', 'overtimeMinutes', 'end', 'sum'];
    expect(said!.replaceAll('\n', ' ').split(', ')).toEqual([
      'minutes late',
      'warnings',
      'minutes of overtime',
      'the end',
      'the sum of ends',
    ]);
    const none: Score = { late: 0, warnings: 0, overtimeMinutes: 0, end: 0, sum: 0 };
    order.forEach((key, i) => {
      const after = Object.fromEntries(order.slice(i + 1).map((later) => [later, 1000]));
      expect(compareScores({ ...none, [key]: 1 }, { ...none, ...after }), key).toBeGreaterThan(0);
    });
  });
});
