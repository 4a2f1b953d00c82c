/** Working hours of a day as text: `07:30-12:00, 12:30-16:30`; empty is a day off. */

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

const TIME = /^(\d{1,2})(?::?([0-5]\d))?$/;

function readTime(text: string): string | null {
  const match = TIME.exec(text.trim());
  if (!match) return null;
  const hour = Number(match[1]);
  const minute = match[2] ?? '00';
  if (hour > 24 || (hour === 24 && minute !== '00')) return null;
  return `${String(hour).padStart(2, '0')}:${minute}`;
}

export function readSpans(text: string): ReadSpans {
  const spans: Span[] = [];
  for (const piece of text.split(/[,;]+|\s{2,}/).map((p) => p.trim())) {
    if (piece === '') continue;
    const [from, to, more] = piece.split(/\s*(?:-|–|to)\s*/).map(readTime);
    if (!from || !to || more !== undefined) {
      return no('no-hours', piece);
    }
    if (from >= to) return no('ends-first', piece);
    spans.push([from, to]);
  }
  spans.sort((a, b) => (a[0] < b[0] ? -1 : 1));
  const crossing = spans.find((span, i) => i > 0 && spans[i - 1]![1] > span[0]);
  if (crossing) return no('overlaps', crossing.join('-'));
  return { ok: true, spans };
}

export const formatSpans = (spans: readonly (readonly string[])[] | undefined): string =>
  (spans ?? []).map((span) => span.join('-')).join(', ');
