/**
 * Widths of letters, to break lines before anything is drawn. Measured of DejaVu Sans Condensed, which
 * is as wide as or wider than the common sans serifs of the three systems at almost every letter; the
 * allowance covers the few that are wider.
 */

/** Thousandths of the size of the type, from the space (U+0020) to the tilde (U+007E). */
const REGULAR = [
  286, 360, 414, 754, 572, 855, 702, 247, 351, 351, 450, 754, 286, 325, 286, 303, 572, 572, 572,
  572, 572, 572, 572, 572, 572, 572, 303, 303, 754, 754, 754, 478, 900, 615, 617, 628, 693, 568,
  518, 697, 677, 265, 265, 590, 501, 776, 673, 708, 542, 708, 625, 571, 549, 659, 615, 890, 616,
  549, 616, 351, 303, 351, 754, 450, 450, 551, 571, 495, 571, 554, 316, 571, 570, 250, 250, 521,
  250, 876, 570, 550, 571, 571, 370, 469, 353, 570, 532, 736, 532, 532, 472, 572, 303, 572, 754,
];
const BOLD = [
  313, 410, 469, 754, 626, 901, 785, 275, 411, 411, 470, 754, 342, 374, 342, 329, 626, 626, 626,
  626, 626, 626, 626, 626, 626, 626, 360, 360, 754, 754, 754, 522, 900, 696, 686, 660, 747, 615,
  615, 738, 753, 334, 334, 697, 573, 896, 753, 765, 659, 765, 693, 648, 614, 730, 696, 993, 694,
  651, 652, 411, 329, 411, 754, 450, 450, 607, 644, 533, 644, 610, 391, 644, 641, 308, 308, 598,
  308, 938, 641, 618, 644, 644, 444, 536, 430, 641, 586, 831, 580, 586, 523, 641, 329, 641, 754,
];
/** Letters outside the table: as wide as a wide capital. */
const OTHER = 760;
const ALLOWANCE = 1.01;
export const MM_PER_POINT = 25.4 / 72;

export interface Type {
  readonly pt: number;
  readonly bold: boolean;
}

/** Width of a text on one line, mm. */
export function textWidthMm(text: string, { pt, bold }: Type): number {
  const table = bold ? BOLD : REGULAR;
  let sum = 0;
  for (const letter of text) sum += table[letter.codePointAt(0)! - 32] ?? OTHER;
  return (sum / 1000) * pt * MM_PER_POINT * ALLOWANCE;
}

/** The words of a text on lines no wider than asked for; a longer word has a line of its own. */
export function wrapped(text: string, widthMm: number, type: Type): string[] {
  const space = textWidthMm(' ', type);
  const lines: string[] = [];
  let line = '';
  let used = 0;
  for (const word of text.split(/\s+/).filter((one) => one !== '')) {
    const width = textWidthMm(word, type);
    if (line !== '' && used + space + width > widthMm) {
      lines.push(line);
      line = '';
      used = 0;
    }
    used += (line === '' ? 0 : space) + width;
    line = line === '' ? word : `${line} ${word}`;
  }
  if (line !== '') lines.push(line);
  return lines;
}
