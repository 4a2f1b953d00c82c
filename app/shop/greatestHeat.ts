/** How hot the part may get at most, in one figure for every sheet. */
import type { SheetData } from './sheetData.ts';

export interface GreatestHeat {
  /** Whole degrees, C. */
  readonly limitC: number;
  /** What sets it. */
  readonly name: string;
}

/**
 * The margin of practice below the weakest Tg, or what filler and coats stand where that is less.
 * @returns null where it is not known, or no warmer than the room
 */
export function greatestHeat({ detail, build, practice }: SheetData): GreatestHeat | null {
  const { tg } = detail;
  if (!tg || tg.members.length === 0 || tg.members.some(({ withC }) => withC === null)) return null;
  const [weakest] = tg.members;
  const soft: GreatestHeat[] = [
    { limitC: weakest!.withC! - practice('tg-margin-c'), name: weakest!.name },
    ...tg.coats.flatMap(({ name, standsC }) =>
      standsC === null ? [] : [{ limitC: standsC, name }],
    ),
  ];
  const least = soft.reduce((a, b) => (b.limitC < a.limitC ? b : a));
  const limitC = Math.floor(least.limitC);
  return limitC <= build.room.temperatureC.day ? null : { limitC, name: least.name };
}
