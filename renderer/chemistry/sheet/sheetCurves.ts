/** The fitted curve over the rows of its sheet, as points of a chart. */
import type { HardenerRow } from '../../../app/document/schema.ts';
import type { PracticeLookup } from '../../../app/cure/practice.ts';
import { sheetLines } from '../../../app/cure/sheet-lines.ts';
import type { CureModel } from '../../../app/cure/types.ts';
import { length } from '../../../app/time/words.ts';
import type { LineDrawing, Series, Tick, XY } from '../../charts/lineChart.ts';
import { ROW_WORDS, rowName } from '../../../app/cure/sheet-words.ts';
import { CHART_WORDS, TIME_TICK_WORDS } from '../../words/charts.ts';
import { decimals } from '../../../app/units/formats.ts';
import { exact } from '../../../app/units/words.ts';

/** Times are drawn by their logarithm: a sheet runs from minutes to a week. */
const TIME_TICKS: readonly Tick[] = [...TIME_TICK_WORDS].map(([minutes, label]) => ({
  value: Math.log10(minutes),
  label,
}));

const SAMPLES = 26;
const COOLEST_C = 10;
const WARMEST_C = 35;
const ROOM_K = 2;

/** Lines of all that the sheet gives and of the film's gel, each over its own rows. */
export function sheetDrawing(
  hardener: HardenerRow,
  model: CureModel,
  practice: PracticeLookup,
): LineDrawing {
  const rowsC = hardener.sheet.map((row) => row.temperatureC).filter((c) => c > -20 && c < 80);
  const fromC = Math.min(COOLEST_C, ...rowsC.map((c) => c - ROOM_K));
  const toC = Math.max(WARMEST_C, ...rowsC.map((c) => c + ROOM_K));
  const at = Array.from({ length: SAMPLES }, (_, i) => fromC + ((toC - fromC) * i) / (SAMPLES - 1));
  const series = sheetLines(hardener.sheet, model, practice).flatMap((line, i): Series[] => {
    const { of } = line;
    const tone = of.kind === 'pot' ? 'temperature' : 'cure';
    const name = of.kind === 'pot' ? `${exact(of.massG)} g ${of.vessel}` : ROW_WORDS[of.what];
    const points = at.flatMap((x): XY[] => {
      const minutes = line.minutesAt(x);
      if (minutes === null || !Number.isFinite(minutes) || minutes <= 0) return [];
      const words = CHART_WORDS.timeAt(length(minutes), decimals(x, 0));
      return [{ x, y: Math.log10(minutes), words }];
    });
    const rows = line.rows.map((row): XY => {
      const words = CHART_WORDS.sheetRow(rowName(row), length(row.minutes));
      return { x: row.temperatureC, y: Math.log10(row.minutes), words };
    });
    return [
      { name, tone, dash: i, points },
      { name: '', tone, marks: tone === 'cure' ? 'circle' : 'rect', points: rows },
    ];
  });
  const heights = series.flatMap(({ points }) => points.map(({ y }) => y));
  const low = Math.min(...heights, TIME_TICKS[1]!.value);
  // A full cure in the cold runs on for months: no further than the rows need.
  const asked = Math.log10(Math.max(1440, ...hardener.sheet.map((row) => row.minutes)));
  const high = Math.min(Math.max(...heights), asked + 0.5);
  return {
    x: { title: CHART_WORDS.room, min: fromC, max: toC },
    y: {
      title: CHART_WORDS.fromFirstContact,
      min: low - 0.1,
      max: high + 0.1,
      ticks: TIME_TICKS.filter(({ value }) => value > low - 0.1 && value < high + 0.1),
    },
    series,
  };
}
