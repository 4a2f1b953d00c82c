/** Place and size of the window, remembered and put right when a screen is gone. */
import { z } from 'zod';

export interface Bounds {
  readonly x?: number;
  readonly y?: number;
  readonly width: number;
  readonly height: number;
}

export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const kept = z.object({
  x: z.number().int(),
  y: z.number().int(),
  width: z.number().int().min(1),
  height: z.number().int().min(1),
});

const USUAL = { width: 1280, height: 860 };
/** So much of the window's top edge must lie on a screen for a hand to reach it. */
const REACH = { width: 120, height: 40 };

/**
 * The bounds to open with: the kept ones when a screen still shows their top edge, cut to that
 * screen; the usual size, placed by the system, otherwise.
 * @param screens work areas of the screens present, the main one first
 */
export function openingBounds(saved: unknown, screens: readonly Area[]): Bounds {
  const read = kept.safeParse(saved);
  const [main] = screens;
  const home = read.success ? screens.find((area) => shows(area, read.data)) : undefined;
  if (!read.success || !home) {
    return {
      width: Math.min(USUAL.width, main?.width ?? USUAL.width),
      height: Math.min(USUAL.height, main?.height ?? USUAL.height),
    };
  }
  const { x, y, width, height } = read.data;
  return { x, y, width: Math.min(width, home.width), height: Math.min(height, home.height) };
}

function shows(area: Area, window: Area): boolean {
  const left = Math.max(area.x, window.x);
  const right = Math.min(area.x + area.width, window.x + window.width);
  const topInside = window.y >= area.y && window.y + REACH.height <= area.y + area.height;
  return topInside && right - left >= Math.min(REACH.width, window.width);
}
