/** What the reader must know before trusting the wall: stops, and warnings that something would help, with ways out. */
import type { Finding, Lever } from '../document/schema.ts';
import { wayOutInShort } from '../messages/levers.ts';
import { glanceAt } from './glance.ts';
import type { SheetData } from './sheetData.ts';
import { h, type SheetNode } from './tree.ts';

/** Ways out that are printed of one finding, the best first; the rest stand in the planner. */
const MOST_WAYS = 2;

/** null where the plan fits and nothing that could be helped is to be minded, or is not told. */
export function verdict({ stops, unplaced, result, waysTold }: SheetData): SheetNode | null {
  const told = [...stops, ...(waysTold === 'all' ? result.findings.filter(isToBeMinded) : [])];
  if (told.length === 0 && unplaced.length === 0 && result.fits) return null;
  const printed = new Set<string>();
  const helped = result.findings.filter(
    (one) => (stops.includes(one) || isToBeMinded(one)) && one.levers.length > 0,
  );
  const leftOff = helped.some(
    (one) => waysTold === 'none' || !told.includes(one) || one.levers.length > MOST_WAYS,
  );
  return h(
    'section',
    { class: 'verdict' },
    h(
      'h2',
      {},
      `${result.fits ? 'It fits, but' : glanceAt(result).fit.headline}${leftOff ? LEFT_OFF[waysTold] : ''}`,
    ),
    h(
      'ul',
      {},
      told.map((finding) =>
        h(
          'li',
          {},
          finding.message,
          waysTold !== 'none' && wayLines(finding, result.build.currency, printed),
        ),
      ),
      unplaced.length > 0 && h('li', {}, `Not placed: ${unplaced.join(', ')}.`),
    ),
  );
}

/** Beside the heading, where it takes no line more: what of the ways out has no room here. */
const LEFT_OFF: Readonly<Record<SheetData['waysTold'], string>> = {
  all: ' (more ways out stand in the planner, under Findings)',
  stops: ' (more ways out, and those of warnings, stand in the planner, under Findings)',
  none: ' (no room here for ways out: they stand in the planner, under Findings)',
};

/** The ways out of a forced merge are those of another route than the one on the wall. */
const isToBeMinded = ({ code, severity, levers }: Finding): boolean =>
  severity === 'warn' && levers.length > 0 && code !== 'merge-forced';

/** A line for each of the best ways out, those that stand above by their names alone. */
function wayLines({ levers }: Finding, currency: string, printed: Set<string>): SheetNode[] {
  const best = levers.slice(0, MOST_WAYS);
  const line = (lever: Lever): SheetNode => {
    const words = printed.has(lever.id)
      ? `${lever.label}, as above`
      : wayOutInShort(lever, currency);
    printed.add(lever.id);
    return h('div', { class: 'by-day-line' }, `Way out: ${words}`);
  };
  return best.map(line);
}
