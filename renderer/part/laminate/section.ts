/** Where the layers of a cross-section and their labels stand in the drawing. */
import type { SectionLayer } from '../../../app/part/detail.ts';

export interface DrawnLayer {
  readonly layer: SectionLayer;
  /** Upper edge and height; the mould face is at the foot of the drawing. */
  readonly y: number;
  readonly height: number;
  /** Middle of its label. */
  readonly labelY: number;
}

export interface DrawnSection {
  readonly layers: readonly DrawnLayer[];
  readonly height: number;
  readonly pixelsPerMm: number;
}

/**
 * Layers to scale, labels fanned out so that none covers another.
 * @param leastHeight of the stack itself; it grows when the labels need more
 * @param lineHeight from one label to the next
 */
export function drawSection(
  layers: readonly SectionLayer[],
  leastHeight: number,
  lineHeight: number,
): DrawnSection {
  const totalMm = layers.at(-1)?.toMm ?? 0;
  const height = Math.max(leastHeight, layers.length * lineHeight);
  if (totalMm <= 0) return { layers: [], height, pixelsPerMm: 0 };
  const pixelsPerMm = height / totalMm;
  const middles = layers.map(({ fromMm, toMm }) => height - ((fromMm + toMm) / 2) * pixelsPerMm);
  const labels = fan(middles.toReversed(), lineHeight, height).toReversed();
  return {
    layers: layers.map((layer, i) => ({
      layer,
      y: height - layer.toMm * pixelsPerMm,
      height: (layer.toMm - layer.fromMm) * pixelsPerMm,
      labelY: labels[i]!,
    })),
    height,
    pixelsPerMm,
  };
}

/** Positions in rising order moved apart to a least distance, as near as that allows to where they were. */
function fan(wanted: readonly number[], apart: number, height: number): number[] {
  const placed: number[] = [];
  for (const at of wanted) {
    placed.push(Math.max(at, apart / 2, (placed.at(-1) ?? -Infinity) + apart));
  }
  // What was pushed over the foot comes back up.
  let limit = height - apart / 2;
  for (let i = placed.length - 1; i >= 0 && placed[i]! > limit; i--) {
    placed[i] = limit;
    limit -= apart;
  }
  return placed;
}

/** Length of the scale bar: 1, 2 or 5 times a power of ten, a fifth to a half of the stack. */
export function scaleBarMm(totalMm: number): number {
  if (totalMm <= 0) return 1;
  const power = 10 ** Math.floor(Math.log10(totalMm / 2));
  return [5, 2, 1].map((step) => step * power).find((mm) => mm <= totalMm / 2) ?? power;
}
