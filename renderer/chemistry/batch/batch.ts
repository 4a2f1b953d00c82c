/** The drawing of a batch asked about. */
import type { BatchAnswer, BatchOutcome } from '../../../app/cure/batch-question.ts';
import { length } from '../../../app/time/words.ts';
import type { LineDrawing, Series, Tick } from '../../charts/lineChart.ts';
import { CHART_WORDS } from '../../words/charts.ts';
import { decimals } from '../../../app/units/formats.ts';

/** `800 g, cup` */
export const batchName = ({ case: { massG, vessel } }: BatchOutcome): string =>
  `${Math.round(massG)} g, ${vessel ?? 'cup'}`;

/** Temperatures until all is over, with the end of each pot life marked. */
export function batchDrawing({ outcomes, hottestC }: BatchAnswer, roomC: number): LineDrawing {
  const end = Math.max(
    30,
    ...outcomes.map(({ result }) => 1.6 * Math.max(result.potLifeMinutes ?? 0, result.peakMinutes)),
  );
  const shown = (minutes: number): boolean => minutes <= end;
  const series = outcomes.flatMap((outcome, i): Series[] => {
    const { result } = outcome;
    const tone = i === 0 ? 'cure' : 'other';
    const points = thin(result.curve.filter(({ minutes }) => shown(minutes))).map((point) => ({
      x: point.minutes,
      y: point.temperatureC,
      words: CHART_WORDS.temperatureAfter(decimals(point.temperatureC, 0), length(point.minutes)),
    }));
    const life = result.potLifeMinutes;
    const over = life === null ? undefined : result.curve.find(({ minutes }) => minutes >= life);
    return [
      { name: batchName(outcome), tone, dash: i, points },
      ...(life !== null && over && shown(life)
        ? [
            {
              name: '',
              tone,
              marks: 'rectRot',
              points: [
                { x: life, y: over.temperatureC, words: CHART_WORDS.potLifeEnds(length(life)) },
              ],
            } satisfies Series,
          ]
        : []),
    ];
  });
  const level = (y: number, name: string, tone: Series['tone']): Series => ({
    name,
    tone,
    dash: 2,
    points: [
      { x: 0, y },
      { x: end, y },
    ],
  });
  return {
    x: { title: CHART_WORDS.fromFirstContact, min: 0, max: end, ticks: minuteTicks(end) },
    y: { title: CHART_WORDS.inVessel },
    series: [
      ...series,
      level(hottestC, CHART_WORDS.tooHot, 'limit'),
      level(roomC, CHART_WORDS.roomLine, 'ink'),
    ],
  };
}

/** Few enough points to draw, the first and last kept. */
function thin<T>(points: readonly T[], most = 300): T[] {
  const every = Math.ceil(points.length / most);
  return points.filter((_, i) => i % every === 0 || i === points.length - 1);
}

const TICKS = 5;
const STEPS = [5, 10, 15, 30, 60, 120, 240, 480, 1440];

export function minuteTicks(end: number): Tick[] {
  const step = STEPS.find((s) => end / s <= TICKS) ?? 1440;
  return Array.from({ length: Math.floor(end / step) + 1 }, (_, i) => {
    const value = i * step;
    return { value, label: value === 0 ? '0' : length(value) };
  });
}
