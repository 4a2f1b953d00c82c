/** Why a text that was typed into a field cannot be read. */
import type { SpansFault } from '../document/edit/hours.ts';
import type { PliesFault } from '../document/edit/plies.ts';
import { plural } from '../units/words.ts';

const SPANS: Readonly<Record<SpansFault['code'], (piece: string) => string>> = {
  'no-hours': (piece) => `"${piece}": write hours as 07:30-16:30, from 00:00 to 24:00.`,
  'ends-first': (piece) => `"${piece}" ends before it begins.`,
  overlaps: (piece) => `${piece} overlaps the span before it.`,
};

export const spansFaultWords = ({ code, piece }: SpansFault): string => SPANS[code](piece);

export function pliesFaultWords(fault: PliesFault): string {
  switch (fault.code) {
    case 'unreadable':
      return `"${fault.typed}" cannot be read. Write as in "2 x Carbon 200 @ 0/45".`;
    case 'no-angle':
      return `"${fault.typed}" is not an angle: −90 to 90 degrees from the 0 line.`;
    case 'several-cloths':
      return `"${fault.typed}" fits several cloths: ${fault.cloths.join(', ')}.`;
    case 'no-cloth':
      return `"${fault.typed}" is no cloth of the library: ${fault.cloths.join(', ')}.`;
    case 'ply-count':
      return `1 to ${fault.most} plies, not ${fault.typed}.`;
    case 'more-angles':
      return `${plural(fault.plies, 'ply', 'plies')} but ${fault.angles} angles in "${fault.typed}".`;
    case 'too-many':
      return `At most ${fault.most} plies.`;
  }
}
