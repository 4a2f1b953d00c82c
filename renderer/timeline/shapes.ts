import type { MomentKey } from '../../app/shop/sheetData.ts';

/** Shapes of the moments of a cure: told apart without colour. Centred on 0, 0, about 12 px. */
export interface Shape {
  readonly d: string;
  readonly filled: boolean;
  readonly word: string;
}

/** null: said in words only. */
export const SHAPES: Readonly<Record<MomentKey, Shape | null>> = {
  firstMix: null,
  bagBy: { d: 'M-6 -5H6L0 6Z', filled: true, word: 'bag down' },
  openUntil: { d: 'M4 -6A6.5 6.5 0 1 0 4 6', filled: false, word: 'open until' },
  gel: { d: 'M-5.5 0a5.5 5.5 0 1 0 11 0a5.5 5.5 0 1 0 -11 0Z', filled: true, word: 'earliest gel' },
  gelLatest: {
    d: 'M-5.5 0a5.5 5.5 0 1 0 11 0a5.5 5.5 0 1 0 -11 0Z',
    filled: false,
    word: 'latest gel',
  },
  debagFrom: { d: 'M-5 -5H5V5H-5Z', filled: false, word: 'bag off' },
  demouldFrom: { d: 'M-6 5H6L0 -6Z', filled: true, word: 'demould' },
  sandFrom: { d: 'M0 -6.5L6.5 0L0 6.5L-6.5 0Z', filled: false, word: 'sand' },
  bondUntil: { d: 'M-5 -5L5 5M5 -5L-5 5', filled: false, word: 'bond before' },
  fullFrom: null,
};
