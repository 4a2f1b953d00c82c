/** A plain chart of lines and marks, each named at its own end; the words beside it say the same. */
import {
  Chart,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
  Tooltip,
  type ChartDataset,
  type Plugin,
  type PointStyle,
} from 'chart.js';

Chart.register(LinearScale, LineController, LineElement, PointElement, Tooltip);

/** Colours by what the line is of. */
const TONES = {
  temperature: '--note',
  cure: '--stage-cure',
  limit: '--stop',
  other: '--accent',
  ink: '--ink',
} as const;
export type Tone = keyof typeof TONES;

export interface XY {
  readonly x: number;
  readonly y: number;
  /** Said when it is pointed at. */
  readonly words?: string;
}

export interface Series {
  /** Short: it stands at the end of the line; empty: nothing stands there. */
  readonly name: string;
  readonly tone: Tone;
  /** Told apart without colour. */
  readonly dash?: number;
  /** Marks instead of a line. */
  readonly marks?: PointStyle;
  readonly stepped?: boolean;
  readonly points: readonly XY[];
}

export interface Tick {
  readonly value: number;
  readonly label: string;
}

export interface Axis {
  readonly title: string;
  readonly min?: number;
  readonly max?: number;
  /** Chosen by the chart when absent. */
  readonly ticks?: readonly Tick[];
}

export interface LineDrawing {
  readonly x: Axis;
  readonly y: Axis;
  readonly series: readonly Series[];
}

/** The page's own; without `system-ui`, whose bold is another face on some machines. */
const FONT = {
  family: "'Segoe UI', 'Noto Sans', 'Open Sans', 'DejaVu Sans', sans-serif",
  size: 12,
};
const DASHES: readonly (readonly number[])[] = [[], [8, 3], [2, 3], [8, 3, 2, 3], [14, 4]];
const LABEL_PX = 14;
const LABEL_ROOM_PX = 96;

export type Colour = (name: string) => string;
type LineChart = Chart<'line', XY[]>;

export function makeLineChart(canvas: HTMLCanvasElement): LineChart | null {
  // No drawing where there is no canvas to draw on; the words beside it remain.
  if (!canvas.getContext('2d')) return null;
  return new Chart<'line', XY[]>(canvas, {
    type: 'line',
    data: { datasets: [] },
    plugins: [endNames],
  });
}

export function drawLines(chart: LineChart, drawing: LineDrawing, colour: Colour): void {
  chart.data = { datasets: drawing.series.map((series) => datasetOf(series, colour)) };
  const axis = ({ title, min, max, ticks }: Axis) => ({
    type: 'linear' as const,
    ...(min === undefined ? {} : { min }),
    ...(max === undefined ? {} : { max }),
    title: { display: true, text: title, color: colour('--ink'), font: FONT },
    border: { color: colour('--line-strong') },
    grid: { color: colour('--line') },
    ticks: {
      color: colour('--ink'),
      font: FONT,
      maxRotation: 0,
      autoSkip: ticks === undefined,
      maxTicksLimit: 8,
      ...(ticks && {
        callback: (value: number | string) =>
          ticks.find((tick) => tick.value === Number(value))?.label ?? '',
      }),
    },
    ...(ticks && {
      afterBuildTicks: (scale: { ticks: { value: number }[] }) => {
        scale.ticks = ticks.map(({ value }) => ({ value }));
      },
    }),
  });
  chart.options = {
    animation: false,
    responsive: true,
    maintainAspectRatio: false,
    layout: { padding: { right: LABEL_ROOM_PX, top: 6 } },
    interaction: { mode: 'nearest', intersect: false },
    scales: { x: axis(drawing.x), y: axis(drawing.y) },
    plugins: {
      tooltip: {
        callbacks: {
          title: () => '',
          label: ({ raw, dataset }) => `${dataset.label}${wordsOf(raw)}`,
        },
      },
    },
  };
  chart.update('none');
}

const wordsOf = (raw: unknown): string =>
  typeof raw === 'object' && raw !== null && 'words' in raw ? `: ${String(raw.words)}` : '';

function datasetOf(series: Series, colour: Colour): ChartDataset<'line', XY[]> {
  const tone = colour(TONES[series.tone]);
  return {
    label: series.name,
    data: [...series.points],
    borderColor: tone,
    backgroundColor: tone,
    borderWidth: series.marks ? 1.6 : 2.2,
    borderDash: [...(DASHES[(series.dash ?? 0) % DASHES.length] ?? [])],
    showLine: series.marks === undefined,
    stepped: series.stepped ? 'before' : false,
    pointRadius: series.marks ? 5 : 0,
    pointHoverRadius: series.marks ? 7 : 4,
    pointStyle: series.marks ?? 'circle',
    clip: series.marks ? false : 0,
  };
}

/** Names at the right end of the lines, pushed apart where they would lie on each other. */
const endNames: Plugin<'line'> = {
  id: 'end-names',
  afterDatasetsDraw(chart) {
    const { ctx, chartArea } = chart;
    const names = chart.data.datasets
      .flatMap((dataset, i) => {
        const shown = dataset.showLine !== false && dataset.label !== '';
        const last = chart.getDatasetMeta(i).data.at(-1);
        if (!shown || !last) return [];
        const y = Math.min(chartArea.bottom, Math.max(chartArea.top, last.y));
        return [{ text: String(dataset.label), y, x: last.x, colour: String(dataset.borderColor) }];
      })
      .sort((a, b) => a.y - b.y);
    let lowest = -Infinity;
    for (const name of names) {
      name.y = Math.max(name.y, lowest + LABEL_PX);
      lowest = name.y;
    }
    const over = lowest - chartArea.bottom;
    if (over > 0) {
      let highest = Infinity;
      for (const name of names.toReversed()) {
        name.y = Math.min(name.y, chartArea.bottom, highest - LABEL_PX);
        highest = name.y;
      }
    }
    ctx.save();
    ctx.font = `600 12px ${FONT.family}`;
    ctx.textBaseline = 'middle';
    for (const { text, y, x, colour } of names) {
      ctx.fillStyle = colour;
      ctx.fillText(text, Math.min(x, chartArea.right) + 6, y);
    }
    ctx.restore();
  },
};
