/** The points of the cure chart, and the same in words. */
import { temperatureAt, withMeasured } from '../../app/cure/profile.ts';
import type { TemperatureProfile } from '../../app/cure/types.ts';
import { tgWords } from '../../app/messages/tg.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import type { CureFigure } from '../../app/shop/origins/cure.ts';
import { sheetDataOf, minuteOf, type CureSheetData } from '../../app/shop/sheetData.ts';
import { dayClock, dayClockOr, fixed, gelSpan } from '../../app/shop/words.ts';
import type { Interval, Minute } from '../../app/time/instant.ts';
import { CURVE_WORDS } from '../words/charts.ts';

export interface Point {
  readonly x: Minute;
  readonly y: number;
}

export interface Moment extends Point {
  readonly key: 'gel' | 'debagFrom' | 'demouldFrom';
  readonly words: string;
}

export interface CureLine {
  readonly id: string;
  readonly name: string;
  /** Percent of the way to demould. */
  readonly progress: readonly Point[];
  readonly moments: readonly Moment[];
  /** What its line says, figure by figure. */
  readonly figures: readonly CurveFigure[];
}

export interface CurveFigure {
  readonly key: CureFigure;
  readonly label: string;
  readonly value: string;
}

export interface Curves {
  readonly span: Interval;
  /** The coldest spot of part and mould, C. */
  readonly temperature: readonly Point[];
  readonly lines: readonly CureLine[];
}

/** Air around the curves, so that they do not begin on the frame. */
const MARGIN_MINUTES = 180;

/** Everything drawn, for one cure or all of them; null while no cure is placed. */
export function curvesOf(outcome: PlanOutcome, only: string | null): Curves | null {
  const facts = sheetDataOf(outcome);
  const curves = outcome.detail.curves.filter(
    (curve) => curve.points.length > 0 && (only === null || curve.cure === only),
  );
  if (curves.length === 0) return null;
  const minutes = curves.flatMap((curve) => [curve.points[0]!.minute, curve.points.at(-1)!.minute]);
  const span = {
    start: Math.min(...minutes) - MARGIN_MINUTES,
    end: Math.max(...minutes) + MARGIN_MINUTES,
  };
  return {
    span,
    temperature: temperatureOf(outcome, span),
    lines: curves.map((curve) => {
      const cure = facts.cures.find(({ id }) => id === curve.cure);
      const progress = curve.points.map((p) => ({ x: p.minute, y: p.progress * 100 }));
      return {
        id: curve.cure,
        name: cure?.name ?? curve.cure,
        progress,
        moments: cure ? momentsOf(cure, progress) : [],
        figures: cure ? figuresOf(cure, outcome.detail.build.room.temperatureC.day) : [],
      };
    }),
  };
}

/** A stepped line through the segments of what part and mould go through, heat included. */
function temperatureOf({ detail }: PlanOutcome, span: Interval): Point[] {
  const profile = Object.values(detail.cures).reduce<TemperatureProfile>(
    (all, { heat, profile: own }) =>
      heat === null
        ? all
        : withMeasured(
            all,
            own.filter(({ start, end }) => start >= heat.start && end <= heat.end),
          ),
    detail.profile,
  );
  const inside = profile.filter((s) => s.end > span.start && s.start < span.end);
  const points = inside.map((s) => ({ x: Math.max(s.start, span.start), y: s.temperatureC }));
  const last = temperatureAt(profile, span.end);
  if (last !== null) points.push({ x: span.end, y: last });
  return points;
}

function momentsOf(cure: CureSheetData, progress: readonly Point[]): Moment[] {
  const row = cure.row;
  if (!row) return [];
  const last = progress.at(-1)!.x;
  const all: readonly [Moment['key'], string, string | null][] = [
    ['gel', CURVE_WORDS.gelFrom, row.gel],
    ['debagFrom', CURVE_WORDS.debagFrom, row.debagFrom],
    ['demouldFrom', CURVE_WORDS.demouldFrom, row.demouldFrom],
  ];
  return all.flatMap(([key, word, iso]) => {
    if (iso === null || minuteOf(iso) > last) return [];
    const x = minuteOf(iso);
    return [{ key, x, y: heightAt(progress, x), words: `${word} ${dayClock(iso)}` }];
  });
}

/** Straight between samples. */
function heightAt(points: readonly Point[], x: Minute): number {
  const i = points.findIndex((point) => point.x >= x);
  if (i <= 0) return points[Math.max(0, i)]?.y ?? 0;
  const [a, b] = [points[i - 1]!, points[i]!];
  return a.y + ((b.y - a.y) * (x - a.x)) / Math.max(1, b.x - a.x);
}

function figuresOf({ row }: CureSheetData, roomC: number): CurveFigure[] {
  if (!row) return [];
  const { temperatureC: part, firstMix, debagFrom, demouldFrom, tgC } = row;
  const ready = (moment: string | null) => dayClockOr(moment, CURVE_WORDS.never);
  const figures: (CurveFigure | null)[] = [
    part && {
      key: 'temperatureC',
      label: CURVE_WORDS.part,
      value: CURVE_WORDS.span(fixed(part.min, 0), fixed(part.max, 0)),
    },
    firstMix === null
      ? null
      : { key: 'firstMix', label: CURVE_WORDS.firstMix, value: dayClock(firstMix) },
    { key: 'gel', label: CURVE_WORDS.gel, value: gelSpan(row) },
    { key: 'debagFrom', label: CURVE_WORDS.debagFrom, value: ready(debagFrom) },
    { key: 'demouldFrom', label: CURVE_WORDS.demouldFrom, value: ready(demouldFrom) },
    tgC === null ? null : { key: 'tgC', label: CURVE_WORDS.tg, value: tgWords(tgC, roomC) },
  ];
  return figures.filter((one) => one !== null);
}
