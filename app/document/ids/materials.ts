/** Ids of what is bought and mixed: lines of the kit, doses of an initiator. */

/** What is bought by a row of the library and something more; any other line has its row's id. */
export type KitLineRef =
  | { readonly kind: 'core'; readonly material: string; readonly thicknessMm: number }
  | { readonly kind: 'hardener'; readonly resin: string; readonly hardener: string }
  | { readonly kind: 'mould'; readonly mould: string; readonly of: 'blank' | 'machining' };

/** The id of a line of the kit, as the stock of a document names it. */
export function kitLineId(ref: KitLineRef): string {
  switch (ref.kind) {
    case 'core':
      return `${ref.material}-${ref.thicknessMm}mm`;
    case 'hardener':
      return `${ref.resin}:${ref.hardener}`;
    case 'mould':
      return `${ref.mould}-${ref.of}`;
  }
}

const DOSE_BETWEEN = 'dose-between-';

/** The id of a hardener row that was read between two doses of the maker, by parts per 100. */
export const doseBetweenId = (partsPer100: number): string => `${DOSE_BETWEEN}${partsPer100}`;

export const isDoseBetween = (text: string): boolean => text.startsWith(DOSE_BETWEEN);
