/** The line at the head of every side: build, what is on the side, its number and the plan. */
import { textWidthMm, wrapped } from './flow/letters.ts';
import {
  SIDE_HEAD_GAP_MM,
  SIDE_HEAD_PT,
  SIDE_HEAD_TWO_LINES_PT,
  roomOf,
  type Paper,
} from './flow/paper.ts';
import type { Side } from './flow/sides.ts';
import { andMore } from './paperWords.ts';
import type { Sheet } from './parts.ts';
import { h, type SheetNode } from './tree.ts';

interface Printed {
  readonly buildName: string;
  readonly paper: Paper;
  readonly stamp: string;
}

/** @param number as in `Bench, side 3 of 9` */
export function sideHead(
  { buildName, paper, stamp }: Printed,
  side: Side,
  number: string,
): SheetNode {
  const right = `${number}. ${stamp}`;
  const widthMm =
    roomOf(paper, side.landscape).widthMm -
    SIDE_HEAD_GAP_MM -
    textWidthMm(right, { pt: SIDE_HEAD_PT, bold: false });
  return h(
    'div',
    { class: 'side-head' },
    leftOf(buildName, namesOn(side), widthMm),
    h('span', {}, right),
  );
}

/** One line, or two smaller ones in the same height. */
const LINES = [
  { lines: 1, pt: SIDE_HEAD_PT, className: '' },
  { lines: 2, pt: SIDE_HEAD_TWO_LINES_PT, className: 'two-lines' },
] as const;
type Lines = (typeof LINES)[number];

const fits = (text: string, widthMm: number, { lines, pt }: Lines): boolean => {
  const type = { pt, bold: true };
  const all = wrapped(text, widthMm, type);
  return all.length <= lines && all.every((line) => textWidthMm(line, type) <= widthMm);
};

/**
 * The build and all names, on one line or two; else as many as stand whole, with the number of those
 * left out. Where there is no room for the first of them, the name of the build is shortened.
 */
function leftOf(buildName: string, names: readonly string[], widthMm: number): SheetNode {
  const about = (build: string, count: number): string =>
    `${build}: ${names.slice(0, count).join('')}${andMore(names.length - count)}`;
  for (const least of [names.length, 1]) {
    for (const way of LINES) {
      for (let count = names.length; count >= least; count--) {
        const text = about(buildName, count);
        if (fits(text, widthMm, way)) return h('span', { class: way.className }, text);
      }
    }
  }
  const small = LINES[1];
  const letters = [...buildName];
  const cut = (): string => about(`${letters.join('').trimEnd()}…`, 1);
  while (letters.length > 1 && !fits(cut(), widthMm, small)) letters.pop();
  return h('span', { class: small.className }, cut());
}

/** What stands on a side, each with the sign before it: `Go: Outer skin`, `, Inner skin`, `; Demould`. */
function namesOn({ sheets }: Side): string[] {
  const runs: (readonly Sheet[])[] = [];
  for (const sheet of sheets) {
    const last = runs.at(-1);
    if (last?.[0]?.kind === sheet.kind) runs[runs.length - 1] = [...last, sheet];
    else runs.push([sheet]);
  }
  return runs.flatMap((run, i) => {
    const [first = '', ...rest] = namesOfRun(run);
    return [i === 0 ? first : `; ${first}`, ...rest.map((name) => `, ${name}`)];
  });
}

/** Sheets of one kind behind each other: days from and to, cures with the word before them said once. */
function namesOfRun(sheets: readonly Sheet[]): string[] {
  const [first = '', ...rest] = sheets.map(({ short }) => short);
  if (rest.length === 0) return [first];
  if (sheets[0]?.kind === 'day') return [`${first} to ${rest.at(-1)!}`];
  const lead = /^[^:]+: /.exec(first)?.[0] ?? '';
  return [first, ...rest.map((name) => (name.startsWith(lead) ? name.slice(lead.length) : name))];
}
