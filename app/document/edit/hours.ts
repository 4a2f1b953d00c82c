/**
 * Working hours of a day as text: `07:30-12:00, 12:30-16:30`, or `7:30 am-12:00 pm, 12:30 pm-4:30 pm`; empty
 * is a day off.
 */
import { clockTime } from '../../time/words.ts';

export type Span = [string, string];
/** Why a text is no working hours; `piece` is the part of it that is wrong. Worded in app/messages/typed.ts. */
export interface SpansFault {
  readonly code: 'no-hours' | 'ends-first' | 'overlaps';
  readonly piece: string;
}
export type ReadSpans =
  | { readonly ok: true; readonly spans: Span[] }
  | { readonly ok: false; readonly fault: SpansFault };

const no = (code: SpansFault['code'], piece: string): ReadSpans => ({
  ok: false,
  fault: { code, piece },
});

const TIME = /^(\d{1,2})(?::?([0-5]\d))?(?:\s*([ap])\.?m\.?)?$/i;

/** @param isEnd 12 at night is the end of the day then, not its beginning */
function readTime(text: string, isEnd: boolean): string | null {
  const match = TIME.exec(text.trim());
  if (!match) return null;
  const half = match[3]?.toLowerCase();
  const typed = Number(match[1]);
  if (half && (typed < 1 || typed > 12)) return null;
  const minute = match[2] ?? '00';
  const of24 = half === undefined ? typed : (typed % 12) + (half === 'p' ? 12 : 0);
  const hour = half && isEnd && of24 === 0 && minute === '00' ? 24 : of24;
  if (hour > 24 || (hour === 24 && minute !== '00')) return null;
  return `${String(hour).padStart(2, '0')}:${minute}`;
}

/** One end with am or pm and the other without can be read two ways. */
const hasHalf = (end: string): boolean => /m\.?\s*$/i.test(end);

export function readSpans(text: string): ReadSpans {
  const spans: Span[] = [];
  for (const piece of text.split(/[,;]+|\s{2,}/).map((p) => p.trim())) {
    if (piece === '') continue;
    const ends = piece.split(/\s*(?:-|–|to)\s*/);
    const [from, to] = ends.map((end, i) => readTime(end, i === 1));
    if (!from || !to || ends.length > 2 || hasHalf(ends[0]!) !== hasHalf(ends[1]!)) {
      return no('no-hours', piece);
    }
    if (from >= to) return no('ends-first', piece);
    spans.push([from, to]);
  }
  spans.sort((a, b) => (a[0] < b[0] ? -1 : 1));
  const crossing = spans.find((span, i) => i > 0 && spans[i - 1]![1] > span[0]);
  if (crossing) return no('overlaps', crossing.map(clockTime).join('-'));
  return { ok: true, spans };
}

export const formatSpans = (spans: readonly (readonly string[])[] | undefined): string =>
  (spans ?? []).map((span) => span.map(clockTime).join('-')).join(', ');
