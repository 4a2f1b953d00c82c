/** Words of packs, sides and cards that stand on no finding. */
export const GOES_ON = 'continued';

export const PACK_WORDS = {
  wall: { name: 'For the wall', short: 'Wall' },
  bench: { name: 'For the bench', short: 'Bench' },
  painter: { name: 'For the painter', short: 'Painter' },
} as const;

/** `Bench, side 3 of 9` */
export const sideWords = (pack: string, side: number, of: number): string =>
  `${pack}, side ${side} of ${of}`;

/** Behind names that stand for all: ` and 3 more`; nothing where none is left out. */
export const andMore = (count: number): string => (count === 0 ? '' : ` and ${count} more`);

/** Above a sheet that has changed since it was printed. */
export function changedWords(at: string, fresh: number, gone: number): string {
  const lines = (count: number): string => (count === 1 ? '1 line' : `${count} lines`);
  const parts = [
    ...(fresh > 0 ? [`${lines(fresh)} new, marked by a bar`] : []),
    ...(gone > 0 ? [`${lines(gone)} of the old sheet no longer hold`] : []),
  ];
  return `Changed since the print of ${at}: ${parts.join('; ')}. Throw the old sheet away.`;
}

/** On a mix card whose cautions stand on that of an earlier cure. */
export const asOnCard = (cure: string): string =>
  `Gloves, sleeves, goggles; a full cup can melt and burn: take care, as on the mix card “${cure}”.`;

export const NOTHING_CHANGED = 'Nothing has changed since the last print.';

export const NOTHING_PICKED = 'Nothing of this pack is in what was picked.';

/** As days are picked for printing. */
export const weekWords = (from: string): string => `Week from ${from}`;
export const dayWords = (day: string): string => day;
