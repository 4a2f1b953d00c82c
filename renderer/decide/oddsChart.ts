/** The chance of being done by each day, as bars; the unveiling's day stands out by its outline. */
import { BarController, BarElement, CategoryScale, Chart, LinearScale, Tooltip } from 'chart.js';
import type { Odds } from '../../app/judge/odds.ts';
import { CHART_WORDS } from '../words/charts.ts';

Chart.register(BarController, BarElement, CategoryScale, LinearScale, Tooltip);

export interface OddsColours {
  readonly ink: string;
  readonly line: string;
  readonly bar: string;
  readonly mark: string;
}

export type OddsChart = Chart<'bar', number[], string>;

export function makeOddsChart(canvas: HTMLCanvasElement): OddsChart | null {
  // No drawing where there is no canvas to draw on; the table beside it remains.
  if (!canvas.getContext('2d')) return null;
  return new Chart<'bar', number[], string>(canvas, {
    type: 'bar',
    data: { labels: [], datasets: [] },
  });
}

/** @param unveiling the day of the unveiling, YYYY-MM-DD */
export function showOdds(
  chart: OddsChart,
  odds: Odds,
  unveiling: string,
  dayLabel: (day: string) => string,
  colours: OddsColours,
): void {
  const marked = odds.days.map(({ day }) => day === unveiling);
  chart.data = {
    labels: odds.days.map(({ day }) => dayLabel(day)),
    datasets: [
      {
        label: CHART_WORDS.doneByDay,
        data: odds.days.map(({ chance }) => Math.round(chance * 100)),
        backgroundColor: colours.bar,
        borderColor: marked.map((mark) => (mark ? colours.mark : colours.bar)),
        borderWidth: marked.map((mark) => (mark ? 4 : 1)),
      },
    ],
  };
  const ticks = { color: colours.ink };
  const grid = { color: colours.line };
  chart.options = {
    animation: false,
    maintainAspectRatio: false,
    plugins: { legend: { display: false } },
    scales: {
      x: { ticks: { ...ticks, maxRotation: 60 }, grid: { display: false } },
      y: {
        min: 0,
        max: 100,
        ticks: { ...ticks, stepSize: 25 },
        grid,
        title: { display: true, text: CHART_WORDS.doneBy, color: colours.ink },
      },
    },
  };
  chart.update('none');
}
