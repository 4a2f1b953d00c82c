/** Chart.js with the parts in use only, in the planner's colours and the build's own time. */
import {
  Chart,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
  ScatterController,
  Tooltip,
  type ChartConfiguration,
  type ChartDataset,
  type PointStyle,
} from 'chart.js';
import { minuteToIso } from '../../app/time/zone.ts';
import { clock, dayClock, shortDay } from '../../app/shop/words.ts';
import { timeScale } from '../../app/timeline/scale.ts';
import { daysIn } from '../../app/timeline/days.ts';
import { hourTicks } from '../../app/timeline/shade.ts';
import type { Interval } from '../../app/time/instant.ts';
import type { Curves, Moment, Point } from './curves.ts';
import { CHART_WORDS } from '../words/charts.ts';
import { decimals } from '../../app/units/formats.ts';

Chart.register(LinearScale, LineController, LineElement, PointElement, ScatterController, Tooltip);

export interface Colours {
  readonly ink: string;
  readonly quiet: string;
  readonly line: string;
  readonly card: string;
  readonly temperature: string;
  readonly progress: string;
}

const FAMILY = "system-ui, 'Segoe UI', 'Noto Sans', 'DejaVu Sans', sans-serif";
/** Told apart without colour: every cure has a dash of its own. */
const DASHES: readonly (readonly number[])[] = [[], [8, 3], [2, 3], [8, 3, 2, 3], [14, 4]];
export const dashOf = (line: number): readonly number[] => DASHES[line % DASHES.length]!;
const SHAPES: Readonly<Record<Moment['key'], PointStyle>> = {
  gel: 'circle',
  debagFrom: 'rect',
  demouldFrom: 'triangle',
};
/** Labels of the time axis need about this much room, px. */
const TICK_PX = 74;

type Config = ChartConfiguration<'line' | 'scatter'>;

export function makeChart(canvas: HTMLCanvasElement): Chart<'line' | 'scatter'> | null {
  // No drawing where there is no canvas to draw on; the words beside it remain.
  if (!canvas.getContext('2d')) return null;
  return new Chart<'line' | 'scatter'>(canvas, { type: 'line', data: { datasets: [] } });
}

export function showCurves(
  chart: Chart<'line' | 'scatter'>,
  curves: Curves,
  zone: string,
  colours: Colours,
): void {
  chart.data = { datasets: datasetsOf(curves, colours) };
  chart.options = optionsOf(curves, zone, colours);
  chart.update('none');
}

function datasetsOf(curves: Curves, colours: Colours): ChartDataset<'line' | 'scatter'>[] {
  return [
    {
      type: 'line',
      label: CHART_WORDS.partAndMould,
      data: [...curves.temperature],
      yAxisID: 'temperature',
      stepped: 'before',
      borderColor: colours.temperature,
      backgroundColor: colours.temperature,
      borderWidth: 2.5,
      pointRadius: 0,
    },
    ...curves.lines.flatMap((line, i): ChartDataset<'line' | 'scatter'>[] => [
      {
        type: 'line',
        label: CHART_WORDS.progressOf(line.name),
        data: [...line.progress],
        yAxisID: 'progress',
        borderColor: colours.progress,
        backgroundColor: colours.progress,
        borderDash: [...dashOf(i)],
        borderWidth: 2.5,
        pointRadius: 0,
      },
      {
        type: 'scatter',
        label: CHART_WORDS.momentsOf(line.name),
        data: [...line.moments],
        yAxisID: 'progress',
        pointStyle: line.moments.map((moment) => SHAPES[moment.key]),
        pointRadius: 6,
        pointHoverRadius: 7,
        borderColor: colours.ink,
        backgroundColor: line.moments.map((m) =>
          m.key === 'debagFrom' ? colours.card : colours.ink,
        ),
        borderWidth: 1.6,
        clip: false,
      },
    ]),
  ];
}

function optionsOf(curves: Curves, zone: string, colours: Colours): NonNullable<Config['options']> {
  const { span, temperature: temperatures } = curves;
  const font = { family: FAMILY, size: 12 };
  const axis = (title: string) => ({
    title: { display: true, text: title, color: colours.ink, font },
    ticks: { color: colours.ink, font },
    border: { color: colours.quiet },
  });
  const asTime = (minute: number) => dayClock(minuteToIso(Math.round(minute), zone));
  return {
    animation: false,
    responsive: true,
    maintainAspectRatio: false,
    interaction: { mode: 'nearest', intersect: false },
    scales: {
      x: {
        type: 'linear',
        min: span.start,
        max: span.end,
        border: { color: colours.quiet },
        grid: { color: colours.line },
        ticks: {
          color: colours.ink,
          font,
          maxRotation: 0,
          autoSkip: true,
          callback: (value) => tickLabel(Number(value), zone),
        },
        // Days and hours of the build's own clock, whatever the machine's zone.
        afterBuildTicks: (scale) => {
          scale.ticks = ticksOf(span, zone, scale.width).map((value) => ({ value }));
        },
      },
      temperature: {
        ...axis('°C'),
        type: 'linear',
        position: 'left',
        grid: { color: colours.line },
        grace: '10%',
        ticks: { color: colours.ink, font, precision: 0, stepSize: stepOf(temperatures) },
      },
      progress: {
        ...axis(CHART_WORDS.toDemould),
        type: 'linear',
        position: 'right',
        min: 0,
        max: 105,
        grid: { drawOnChartArea: false },
        afterBuildTicks: (scale) => {
          scale.ticks = [0, 25, 50, 75, 100].map((value) => ({ value }));
        },
      },
    },
    plugins: {
      // The words beside the picture carry the lines' samples.
      legend: { display: false },
      tooltip: {
        callbacks: {
          title: (items) => (items[0] ? asTime(items[0].parsed.x ?? 0) : ''),
          label: (item) =>
            wordsOf(item.raw) ?? `${item.dataset.label}: ${decimals(item.parsed.y ?? 0, 0)}`,
        },
      },
    },
  };
}

/** Whole degrees, few enough to read. */
function stepOf(points: readonly Point[]): number {
  const values = points.map((point) => point.y);
  return Math.max(1, Math.ceil((Math.max(...values) - Math.min(...values)) / 5));
}

const wordsOf = (raw: unknown): string | null =>
  typeof raw === 'object' && raw !== null && 'words' in raw ? String(raw.words) : null;

/** Midnights, or hours where there is room for them. */
function ticksOf(span: Interval, zone: string, width: number): number[] {
  const unfolded = { ...span, folds: [], stripPx: 0 };
  const scale = timeScale(unfolded, Math.max(1, width) / (span.end - span.start));
  const days = daysIn(span, zone).map((day) => day.start);
  const every = Math.max(1, Math.ceil(TICK_PX / Math.max(1, 1440 * scale.pxPerMinute)));
  const hours = hourTicks(scale, zone, span).map((tick) => tick.minute);
  return [...days.filter((_, i) => i % every === 0), ...hours]
    .filter((minute) => minute >= span.start && minute <= span.end)
    .sort((a, b) => a - b);
}

function tickLabel(minute: number, zone: string): string {
  const iso = minuteToIso(minute, zone);
  return iso.slice(11, 16) === '00:00' ? shortDay(iso) : clock(iso);
}
