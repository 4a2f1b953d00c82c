/** A cure as what the resin does: open, gelled under vacuum, off, then fit for what comes next. */
import type { StageResult } from '../document/schema.ts';
import { minuteOf, type SheetData } from '../shop/sheetData.ts';
import type { Interval, Minute } from '../time/instant.ts';
import { clockAt } from './clockWords.ts';

/** One cup: mixed at its start, used up by its end. */
export interface Batch extends Interval {
  readonly number: number;
  /** Fullest first. */
  readonly words: readonly string[];
}

export interface CureShape {
  /** First mix to gel: drawn solid. */
  readonly open: Interval;
  /** Gel to bag-off: drawn hatched. */
  readonly gelled: Interval;
  /** When the bag comes off as people can do it: drawn as a bar. */
  readonly off: Minute;
  /** From bag-off until it can be sanded, where that is later. */
  readonly untilSandable: Minute | null;
  readonly bagBy: Minute | null;
  /** Laid dry and filled under its bag. */
  readonly infused: boolean;
  readonly batches: readonly Batch[];
}

const atOf = (iso: string | null | undefined): Minute | null =>
  iso === null || iso === undefined ? null : minuteOf(iso);

/** Null where the cure has no place in time. */
export function cureShapeOf(facts: SheetData, stage: StageResult): CureShape | null {
  const cure = facts.cures.find(({ id }) => id === stage.cure);
  const mixed = atOf(cure?.row?.firstMix);
  const sealed = atOf(stage.start);
  const end = atOf(stage.end);
  if (!cure?.row || mixed === null || sealed === null || end === null) return null;
  const off = Math.max(end, atOf(cure.bagOffAt) ?? end);
  const gel = Math.min(off, Math.max(mixed, atOf(cure.row.gel) ?? sealed));
  const sand = atOf(cure.row.sandFrom);
  return {
    open: { start: mixed, end: gel },
    gelled: { start: gel, end: off },
    off,
    untilSandable: sand !== null && sand > off ? sand : null,
    bagBy: atOf(cure.row.bagBy),
    infused: cure.row.infused === true,
    batches: cure.mixes.flatMap((mix): Batch[] => {
      const [start, useBy] = [atOf(mix.mixAt), atOf(mix.useBy)];
      if (start === null || useBy === null) return [];
      const [mixAt, by] = [clockAt(start, facts.zone), clockAt(useBy, facts.zone)];
      const words = [`cup ${mix.batch}: mix ${mixAt}, use by ${by}`, `${mixAt}, by ${by}`, mixAt];
      return [{ number: mix.batch, start, end: useBy, words }];
    }),
  };
}
