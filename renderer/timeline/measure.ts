/** Widths of words in the timeline's own type, and how large that type is. */
import type { Measure } from '../../app/timeline/boxes.ts';

const LABEL_REM = 0.75;
/** Wide letters of a plain sans serif stay under this share of the type size on average. */
const AVERAGE_LETTER = 0.62;

/** 1 where the page's text has 16 px; 2 for a person who has doubled it. */
export function textUnit(): number {
  const px = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  return Number.isFinite(px) && px > 0 ? px / 16 : 1;
}

/** Measures with the canvas where there is one; else guesses on the wide side. */
export function textMeasure(unit: number): Measure {
  const context = document.createElement('canvas').getContext('2d');
  const family = getComputedStyle(document.body).fontFamily || 'sans-serif';
  const px = LABEL_REM * 16 * unit;
  const known = new Map<string, number>();
  return (text, bold) => {
    const key = bold ? `b${text}` : `n${text}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const width = context
      ? drawnWidth(context, text, `${bold ? 700 : 400} ${px}px ${family}`)
      : text.length * px * AVERAGE_LETTER * (bold ? 1.08 : 1);
    known.set(key, width);
    return width;
  };
}

/** Figures are set in equal widths on the page; the canvas's may be a little narrower. */
function drawnWidth(context: CanvasRenderingContext2D, text: string, font: string): number {
  context.font = font;
  return context.measureText(text).width * 1.02 + 2;
}
