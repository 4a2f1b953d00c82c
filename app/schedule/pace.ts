/**
 * How fast the populations of the genetic search close in on their best. With few schedules for each stage it
 * has to be soon; with more of them a broad search ends lower. With very many the populations are wide by
 * themselves, and it is the closing in that is left.
 */
export interface Pace {
  /** Members of a population at first. */
  readonly size: number;
  /** The best of so many members drawn becomes the father. */
  readonly tournament: number;
  /** The longest stretch that a child has from its father, as a share of all work. */
  readonly longestStretch: number;
}

/** From so many schedules for each stage on the search is broad, until the populations start wider. */
const BROAD_FROM = 12;
const BRISK = { sizePerRoot: 1.6, tournament: 3, longestStretch: 0.8 };
const BROAD = { sizePerRoot: 1.8, tournament: 2, longestStretch: 0.6 };
/** With more schedules than this for each stage the populations start wider, up to a factor. */
const AMPLE_SCHEDULES = 40;
const WIDEST_FACTOR = 3;

/** @param open stages that are placed */
export function paceFor(schedules: number, open: number): Pace {
  const each = schedules / Math.max(1, open);
  const { sizePerRoot, ...rest } = each >= BROAD_FROM && each < AMPLE_SCHEDULES ? BROAD : BRISK;
  const factor = Math.min(WIDEST_FACTOR, Math.max(1, each / AMPLE_SCHEDULES));
  return { size: sizePerRoot * Math.sqrt(schedules) * factor, ...rest };
}
