/** The fitted curve over the rows of its sheet, as points of a chart. */
import type { HardenerRow, SheetRow } from '../../app/document/schema.ts';
import { filmMinutes } from '../../app/cure/curves.ts';
import { potLifeMinutes } from '../../app/cure/cup.ts';
import { cupCase } from '../../app/cure/pot.ts';
import type { PracticeLookup } from '../../app/cure/practice.ts';
import { isMassRow, MILESTONE_OF_ROW } from '../../app/cure/sheet-model.ts';
import type { CureModel } from '../../app/cure/types.ts';
import { length } from '../../app/shop/words.ts';
import type { LineDrawing, Series, Tick, XY } from './lineChart.ts';
import { ROW_WORDS, rowName } from './resin.ts';

/** Times are drawn by their logarithm: a sheet runs from minutes to a week. */
const TIME_TICKS: readonly Tick[] = [
  { value: 5, label: '5 min' },
  { value: 15, label: '15 min' },
  { value: 60, label: '1 h' },
  { value: 240, label: '4 h' },
  { value: 1440, label: '1 day' },
  { value: 10_080, label: '1 week' },
  { value: 40_320, label: '4 weeks' },
].map(({ value, label }) => ({ value: Math.log10(value), label }));

const SAMPLES = 26;
const COOLEST_C = 10;
const WARMEST_C = 35;
const ROOM_K = 2;

/** One line of the drawing: a milestone of the film, or the life of one mass in one vessel. */
interface Line {
  readonly name: string;
  readonly minutesAt: (temperatureC: number) => number | null;
  readonly rows: readonly SheetRow[];
}

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
  const series = linesOf(hardener.sheet, model, practice).flatMap((line, i): Series[] => {
    const tone = line.rows.some(isMassRow) ? 'temperature' : 'cure';
    const points = at.flatMap((x): XY[] => {
      const minutes = line.minutesAt(x);
      if (minutes === null || !Number.isFinite(minutes) || minutes <= 0) return [];
      const words = `${length(minutes)} at ${x.toFixed(0)} °C`;
      return [{ x, y: Math.log10(minutes), words }];
    });
    const rows = line.rows.map((row): XY => {
      const words = `${rowName(row)}, ${length(row.minutes)} on the sheet`;
      return { x: row.temperatureC, y: Math.log10(row.minutes), words };
    });
    return [
      { name: line.name, tone, dash: i, points },
      { name: '', tone, marks: tone === 'cure' ? 'circle' : 'rect', points: rows },
    ];
  });
  const heights = series.flatMap(({ points }) => points.map(({ y }) => y));
  const low = Math.min(...heights, TIME_TICKS[1]!.value);
  // A full cure in the cold runs on for months: no further than the rows need.
  const asked = Math.log10(Math.max(1440, ...hardener.sheet.map((row) => row.minutes)));
  const high = Math.min(Math.max(...heights), asked + 0.5);
  return {
    x: { title: 'Room, °C', min: fromC, max: toC },
    y: {
      title: 'Time from first contact',
      min: low - 0.1,
      max: high + 0.1,
      ticks: TIME_TICKS.filter(({ value }) => value > low - 0.1 && value < high + 0.1),
    },
    series,
  };
}

function linesOf(
  rows: readonly SheetRow[],
  model: CureModel,
  practice: PracticeLookup,
): readonly Line[] {
  const lines = new Map<string, { line: Omit<Line, 'rows'>; rows: SheetRow[] }>();
  const put = (key: string, line: Omit<Line, 'rows'>, row?: SheetRow) => {
    const kept = lines.get(key) ?? { line, rows: [] };
    if (row) kept.rows.push(row);
    lines.set(key, kept);
  };
  for (const row of rows) {
    if (isMassRow(row)) {
      const massG = row.massG ?? practice('cure-pot-reference-g');
      const vessel = row.vessel === 'tray' ? 'tray' : 'cup';
      const name = `${massG} g ${vessel}`;
      const minutesAt = (roomC: number) =>
        model.kinetics && model.pot
          ? potLifeMinutes(cupCase(model, { massG, roomC, vessel }, practice))
          : null;
      put(name, { name, minutesAt }, row);
      continue;
    }
    const what = row.what === 'pot-life' ? 'film-open' : row.what;
    const milestone = MILESTONE_OF_ROW[what];
    const minutesAt = (c: number) => filmMinutes(model, milestone, c);
    put(what, { name: ROW_WORDS[what], minutesAt }, row);
  }
  put('film-gel', {
    name: ROW_WORDS['film-gel'],
    minutesAt: (c) => filmMinutes(model, 'gel', c),
  });
  return [...lines.values()].map(({ line, rows: own }) => ({ ...line, rows: own }));
}
