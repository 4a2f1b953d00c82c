/** The drawing of an infusion asked about. */
import type { InfusionAnswer } from '../../../app/cure/infusion-question.ts';
import { length } from '../../../app/time/words.ts';
import { formatBoth } from '../../../app/units/convert.ts';
import { minuteTicks } from '../batch/batch.ts';
import type { LineDrawing, Series, XY } from '../../charts/lineChart.ts';
import { CHART_WORDS } from '../../words/charts.ts';

/** The front over time, with the way to fill, the moment it is too thick, and gel. */
export function infusionDrawing(answer: InfusionAnswer): LineDrawing {
  const { course, question, fill, thick } = answer;
  const { points, gelMinutes } = course;
  const end = gelMinutes * 1.04;
  const front = points
    .filter((_, i) => i % 4 === 0 || i === points.length - 1)
    .map(({ minutes, frontM }): XY => {
      const words = CHART_WORDS.frontAt(formatBoth(frontM, 'lengthM'), length(minutes));
      return { x: minutes, y: frontM, words };
    });
  const highest = Math.max(course.gelReachM, question.lengthM) * 1.08;
  const upright = (x: number, name: string, dash: number, words: string): Series => ({
    name,
    tone: 'limit',
    dash,
    points: [
      { x, y: 0, words },
      { x, y: highest * (name === CHART_WORDS.gel ? 0.97 : 0.9), words },
    ],
  });
  return {
    x: { title: CHART_WORDS.fromFirstContact, min: 0, max: end, ticks: minuteTicks(end) },
    y: { title: CHART_WORDS.frontAxis, min: 0, max: highest },
    series: [
      { name: CHART_WORDS.frontLine, tone: 'cure', points: front },
      {
        name: CHART_WORDS.toFill,
        tone: 'ink',
        dash: 2,
        points: [
          { x: 0, y: question.lengthM },
          { x: end, y: question.lengthM },
        ],
      },
      ...(thick ? [upright(thick.minutes, CHART_WORDS.tooThick, 1, length(thick.minutes))] : []),
      upright(gelMinutes, CHART_WORDS.gel, 0, length(gelMinutes)),
      ...(fill.fillMinutes === null
        ? []
        : [
            {
              name: '',
              tone: 'cure',
              marks: 'rectRot',
              points: [
                { x: fill.fillMinutes, y: question.lengthM, words: length(fill.fillMinutes) },
              ],
            } satisfies Series,
          ]),
    ],
  };
}
