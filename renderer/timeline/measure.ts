/** Widths of labels in the timeline's own type. */
import type { Measure } from '../../app/timeline/layout.ts';

export const LABEL_PX = 12;
const FAMILY = "system-ui, 'Segoe UI', 'Noto Sans', 'DejaVu Sans', sans-serif";
/** Wide letters of a plain sans serif stay under this share of the type size on average. */
const AVERAGE_LETTER = 0.62;

/** Measures with the canvas where there is one; else guesses on the wide side. */
export function textMeasure(): Measure {
  const context = document.createElement('canvas').getContext('2d');
  const known = new Map<string, number>();
  return (text, bold) => {
    const key = bold ? `b${text}` : `n${text}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const width = context ? drawnWidth(context, text, bold) : guessedWidth(text, bold);
    known.set(key, width);
    return width;
  };
}

function drawnWidth(context: CanvasRenderingContext2D, text: string, bold: boolean): number {
  context.font = `${bold ? 700 : 400} ${LABEL_PX}px ${FAMILY}`;
  return context.measureText(text).width + 1;
}

const guessedWidth = (text: string, bold: boolean): number =>
  text.length * LABEL_PX * AVERAGE_LETTER * (bold ? 1.08 : 1);
