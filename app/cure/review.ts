/** A sheet judged: rows the curve misses, rows that contradict the rest, the row worth asking for. */
import { inverse, Matrix } from 'ml-matrix';
import type { HardenerRow, SheetRow } from '../document/schema.ts';
import { fitRows, fitSheet, type SheetFit } from './fit.ts';
import type { Chemistry } from './nominal.ts';
import type { PracticeLookup } from './practice.ts';
import { checkSheet, type RowFault } from './sheet-check.ts';
import { isMassRow } from './sheet-model.ts';
import type { CureModel, SheetResidual } from './types.ts';

/** A row that contradicts the others. */
export interface Contradiction {
  readonly row: SheetRow;
  /** What the other rows (and practice, where they have no figure) give for it. */
  readonly othersMinutes: number;
  /** others / sheet */
  readonly factor: number;
}

/** A row that the sheet lacks, and what it would be worth. */
export interface RowAdvice {
  readonly row: Omit<SheetRow, 'minutes'>;
  /** Share by which it would narrow gel, bag-off and demould in a shop's room, 0 to 1. */
  readonly narrows: number;
}

export interface SheetReview {
  readonly model: CureModel;
  readonly faults: readonly RowFault[];
  /** Rows that the curve misses by more than the practice share, worst first. */
  readonly misses: readonly SheetResidual[];
  readonly contradictions: readonly Contradiction[];
  /** Best first; empty when nothing would help. */
  readonly advice: readonly RowAdvice[];
  /**
   * Likely spread of each of gel, bag-off and demould at 20 C, as a share either way (one standard
   * deviation of the fit).
   */
  readonly spread: { readonly gel: number; readonly debag: number; readonly demould: number };
}

const CANDIDATES: readonly Omit<SheetRow, 'minutes'>[] = [
  { what: 'film-gel', temperatureC: 20 },
  { what: 'film-gel', temperatureC: 30 },
  { what: 'film-gel', temperatureC: 15 },
  { what: 'film-open', temperatureC: 20 },
  { what: 'debag', temperatureC: 20 },
  { what: 'demould', temperatureC: 20 },
  { what: 'full', temperatureC: 20 },
  { what: 'pot-life', temperatureC: 25, massG: 100, vessel: 'cup' },
];
/** Milestones and rooms that a plan depends on. */
const TARGETS: readonly SheetRow[] = (['film-gel', 'debag', 'demould'] as const).flatMap((what) =>
  [20, 16].map((temperatureC) => ({ what, temperatureC, minutes: 1 })),
);
const SLOPE_STEP = 0.01;
/** A candidate this near to a row of the sheet adds little that a shop could not read off it, K. */
const NEAR_K = 4;
const LEAST_WORTH = 0.02;
/** Standard deviations beyond which a row contradicts the others. */
const SURE = 2;

/**
 * Rows that the curve misses or that contradict each other, and the row worth asking the maker for.
 * @param hardener with its sheet: temperatures in C, times in minutes, masses in g
 * @throws MissingRow when the library lacks a practice row
 */
export function reviewSheet(
  hardener: HardenerRow,
  practice: PracticeLookup,
  chemistry: Chemistry = 'epoxy',
): SheetReview {
  const model = fitSheet(hardener, practice, chemistry);
  const fit = fitRows(hardener, hardener.sheet, practice, chemistry);
  const knowledge = knowledgeOf(fit);
  const missShare = practice('cure-row-miss-share');
  const spreadOf = (row: SheetRow): number => Math.sqrt(knowledge.variance(slopes(fit, row)));
  return {
    model,
    faults: checkSheet(hardener.sheet, practice),
    misses: model.residuals
      .filter(({ relative }) => Math.abs(relative) > missShare)
      .sort((a, b) => Math.abs(b.relative) - Math.abs(a.relative)),
    contradictions: contradictionsOf(fit, knowledge, practice('cure-row-contradicts-factor')),
    advice: adviceOf(fit, knowledge),
    spread: {
      gel: spreadOf({ what: 'film-gel', temperatureC: 20, minutes: 1 }),
      debag: spreadOf({ what: 'debag', temperatureC: 20, minutes: 1 }),
      demould: spreadOf({ what: 'demould', temperatureC: 20, minutes: 1 }),
    },
  };
}

/** Change of ln(minutes) of a row with each fitted number. */
function slopes(fit: SheetFit, row: Omit<SheetRow, 'minutes'>): number[] {
  const asked: SheetRow = { ...row, minutes: 1 };
  const logOf = (parameters: readonly number[]): number =>
    Math.log(fit.modelOf(parameters).minutesOf(asked));
  const base = logOf(fit.parameters);
  return fit.parameters.map((value, i) => {
    const moved = fit.parameters.map((other, j) => (i === j ? value + SLOPE_STEP : other));
    return (logOf(moved) - base) / SLOPE_STEP;
  });
}

/** What rows and practice together leave open: the covariance of the fitted numbers. */
function knowledgeOf(fit: SheetFit) {
  const rowSlopes = fit.rows.map((row) => slopes(fit, row));
  const size = fit.parameters.length;
  const information = Matrix.zeros(size, size);
  fit.priorScatter.forEach((scatter, i) => information.set(i, i, 1 / scatter ** 2));
  rowSlopes.forEach((slope, r) => {
    const weight = 1 / fit.scatterOf(fit.rows[r]!) ** 2;
    slope.forEach((a, i) =>
      slope.forEach((b, j) => information.set(i, j, information.get(i, j) + weight * a * b)),
    );
  });
  const covariance = inverse(information);
  const between = (a: readonly number[], b: readonly number[]): number =>
    a.reduce(
      (sum, ai, i) => sum + ai * b.reduce((part, bj, j) => part + covariance.get(i, j) * bj, 0),
      0,
    );
  return { rowSlopes, between, variance: (a: readonly number[]) => between(a, a) };
}
type Knowledge = ReturnType<typeof knowledgeOf>;

/**
 * Each row against what the fit would give without it, from the fit's own leverage (the usual
 * leave-one-out residual, e / (1 - h)).
 */
function contradictionsOf(fit: SheetFit, knowledge: Knowledge, factor: number): Contradiction[] {
  const found: Contradiction[] = [];
  fit.rows.forEach((row, i) => {
    const leverage = knowledge.variance(knowledge.rowSlopes[i]!) / fit.scatterOf(row) ** 2;
    const rest = Math.max(1e-3, 1 - leverage);
    const miss = Math.log(fit.model.minutesOf(row) / row.minutes) / rest;
    // Far off, and further than the others' own uncertainty reaches.
    const reach = (fit.scatterOf(row) / Math.sqrt(rest)) * SURE;
    if (Math.abs(miss) <= Math.max(Math.log(factor), reach)) return;
    const times = Math.exp(Math.max(-10, Math.min(10, miss)));
    found.push({ row, othersMinutes: row.minutes * times, factor: times });
  });
  return found.sort((a, b) => Math.abs(Math.log(b.factor)) - Math.abs(Math.log(a.factor)));
}

/** Candidates by how much they would narrow what a plan depends on. */
function adviceOf(fit: SheetFit, knowledge: Knowledge): RowAdvice[] {
  const targets = TARGETS.map((row) => slopes(fit, row));
  const open = targets.reduce((sum, target) => sum + knowledge.variance(target), 0);
  const isOnSheet = (candidate: Omit<SheetRow, 'minutes'>): boolean =>
    fit.rows.some(
      (row) =>
        row.what === candidate.what && Math.abs(row.temperatureC - candidate.temperatureC) < NEAR_K,
    );
  return CANDIDATES.filter((candidate) => !isOnSheet(candidate))
    .map((candidate) => {
      const slope = slopes(fit, candidate);
      const scatter = fit.scatterOf({ ...candidate, minutes: 1 });
      const own = knowledge.variance(slope) + scatter ** 2;
      const gain = targets.reduce(
        (sum, target) => sum + knowledge.between(target, slope) ** 2 / own,
        0,
      );
      return { row: candidate, narrows: 1 - Math.sqrt(Math.max(0, 1 - gain / open)) };
    })
    .filter(({ narrows }) => narrows >= LEAST_WORTH)
    .sort(
      (a, b) =>
        b.narrows - a.narrows ||
        Number(isMassRow({ ...a.row, minutes: 1 })) - Number(isMassRow({ ...b.row, minutes: 1 })),
    );
}
