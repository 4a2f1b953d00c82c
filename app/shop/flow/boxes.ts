/**
 * Sizes of everything on a sheet, once: the printed style is written from this table and the heights
 * are worked out from it, so that what was counted is what comes out of the printer.
 */

/** Lengths in mm, type in points. What is left out is nought or as around it. */
export interface Box {
  readonly pt?: number;
  readonly line?: number;
  readonly bold?: boolean;
  readonly above?: number;
  readonly below?: number;
  /** Inside the border, above and below. */
  readonly padY?: number;
  readonly padX?: number;
  /** On the left alone, in place of `padX`. */
  readonly indent?: number;
  readonly border?: number;
  readonly least?: number;
  /** How its children stand: under each other, side by side in equal widths, in two columns, or on one line. */
  readonly children?: 'down' | 'across' | 'two columns' | 'on one line';
  readonly gap?: number;
}

export interface Rule {
  /** A tag, a class, or both: `td`, `.abort`, `tr.mark`. */
  readonly what: string;
  /** A class that something around it has. */
  readonly inside?: string;
  readonly box: Box;
}

const rule = (what: string, box: Box): Rule => ({ what, box });
const within = (inside: string, what: string, box: Box): Rule => ({ what, inside, box });

export const BODY_PT = 9.5;
export const BODY_LINE = 1.25;

/** Later rules win, property by property. */
export const RULES: readonly Rule[] = [
  rule('h1', { pt: 13, line: 1.15, bold: true }),
  rule('h2', { pt: 10, line: 1.15, bold: true, below: 0.5 }),
  rule('caption', { pt: 10, line: 1.15, bold: true, below: 0.5 }),
  rule('strong', { bold: true }),
  rule('small', { pt: 8 }),
  rule('p', { below: 1.4 }),
  rule('section', { below: 1.2 }),
  rule('ul', { below: 0.6, indent: 4 }),
  rule('th', { bold: true, padY: 0.55, padX: 1.2, border: 0.2 }),
  rule('td', { padY: 0.55, padX: 1.2, border: 0.2 }),
  rule('table', { below: 1.2 }),
  within('thead', 'th', { pt: 8.5 }),
  // The head of a subject: a bar across the side.
  rule('.head', { below: 0.9, padY: 0.4, children: 'down' }),
  rule('.head-line', { children: 'on one line', gap: 4 }),
  rule('.head-sub', { pt: 9.5, line: 1.25, below: 0 }),
  rule('.agenda', { pt: 9.5 }),
  within('daily', 'td', { least: 5.8 }),
  within('daily', '.write', { pt: 7.5, line: 1.1 }),
  within('daily', 'small', { pt: 7.5 }),
  within('day-bar', 'th', { pt: 11, line: 1.15 }),
  within('day-bar', 'td', { least: 6.6 }),
  within('pump', 'td', { pt: 8.5, line: 1.2 }),
  within('daily', '.latest', { pt: 8 }),
  within('mark', 'td', { least: 4.8 }),
  within('care', 'td', { pt: 7.8, line: 1.12, least: 3.8, padY: 0.3 }),
  within('withheld', 'td', { least: 5 }),
  rule('.limits', { pt: 8.2, line: 1.2 }),
  rule('.caution', { pt: 8.2, line: 1.2, above: 0.5, indent: 2 }),
  rule('.caution-line', { pt: 8, line: 1.15 }),
  rule('.defer', { pt: 8.2, line: 1.2 }),
  rule('.verdict', { pt: 8.6, line: 1.18, border: 0.6, padY: 0.6, padX: 2 }),
  within('verdict', 'h2', { pt: 9.5, below: 0.1 }),
  rule('.abort', { pt: 9, line: 1.2, border: 0.6, padY: 0.8, padX: 2, below: 1.2 }),
  rule('.cautions', { pt: 8, line: 1.15, indent: 3 }),
  within('cautions', 'h2', { pt: 9.5 }),
  rule('.trouble', { pt: 8.4, line: 1.18 }),
  rule('.blanks', { below: 1.2, children: 'across', gap: 3 }),
  rule('.blank-label', { pt: 8, line: 1.15 }),
  rule('.blank-planned', { pt: 8, line: 1.15, bold: true }),
  rule('.blank-line', { least: 6.2 }),
  rule('.ticks', { indent: 0, below: 0.8 }),
  within('ticks', 'li', { pt: 9, line: 1.18, padY: 0.25, indent: 6, least: 5 }),
  // The drawing stands beside the words and is the taller of the two.
  rule('.zero-box', { children: 'across' }),
  rule('.two', { children: 'two columns', gap: 5 }),
  rule('.side-by-side', { children: 'across', gap: 6 }),
  rule('.moments', { below: 1.4, children: 'across', gap: 1.6 }),
  rule('.moment', { border: 0.35, padY: 0.7, padX: 1.2 }),
  rule('.moment-label', { pt: 8, line: 1.15 }),
  rule('.moment-time', { pt: 13.5, line: 1.1, bold: true }),
  rule('.moment-day', { pt: 8, line: 1.15 }),
  rule('.moment-actual', { pt: 7.5, line: 1.15, least: 5.6, above: 0.4 }),
  within('log', 'td', { pt: 8.4, line: 1.18, least: 5.2, padY: 0.35, padX: 0.7 }),
  within('log', 'th', { pt: 8.4, line: 1.18, padY: 0.35, padX: 0.7 }),
  rule('.later', { pt: 8.8, line: 1.2 }),
  rule('.how-to', { pt: 8.8, line: 1.2 }),
  rule('.wall-lines', { children: 'across', gap: 6, below: 0.8 }),
  within('holds', 'td', { pt: 8, line: 1.12, least: 5, padY: 0.25 }),
  within('holds', 'th', { pt: 8.4, padY: 0.4 }),
  within('weight', 'td', { pt: 8.4, least: 4.6, padY: 0.3 }),
  within('weight', 'th', { pt: 8.4, padY: 0.3 }),
  within('shopping', 'td', { pt: 7.7, line: 1.1, padY: 0.2, padX: 0.7 }),
  within('shopping', 'th', { pt: 8, line: 1.08, padY: 0.2, padX: 0.7 }),
  within('shopping', 'small', { bold: false }),
  within('book', 'td', { pt: 8.6, line: 1.18, least: 6.9, padX: 0.9 }),
  within('book', 'th', { pt: 8.6, line: 1.18, padX: 0.9 }),
  within('room', 'td', { least: 6 }),
  // The mix card: the scale figure reads from two metres (figures of 9.5 mm, 16 minutes of arc), the
  // rest from arm's length.
  within('scales', 'td', { pt: 12, padY: 0.3, least: 13.2 }),
  within('scales', 'th', { pt: 18, padY: 0.8 }),
  within('scales', 'small', { pt: 9 }),
  within('scales', '.reading', { pt: 37, line: 0.95, bold: true }),
  within('scales', '.weigh', { pt: 20, line: 1.05, bold: true }),
  within('brief', 'td', { pt: 11, least: 6 }),
  within('brief', 'th', { pt: 11 }),
  within('by-day', 'td', { pt: 7.6, line: 1.1, padX: 0.8, padY: 0.4 }),
  within('by-day', 'th', { pt: 8 }),
  rule('.by-day-line', { pt: 7.6, line: 1.1, padY: 0.1 }),
  rule('.cup', { border: 0.35, padY: 1.4, padX: 2 }),
  within('facts', 'td', { pt: 8.8, line: 1.18, padY: 0.4 }),
  within('facts', 'th', { pt: 8.8, line: 1.18, padY: 0.4 }),
  within('group', 'th', { pt: 8.6, padY: 0.3 }),
  within('thead', 'th', { pt: 8.5, padY: 0.4 }),
];
