/** The drawing of an infusion asked about. */
import type { InfusionAnswer } from '../../app/cure/infusion-question.ts';
import { length } from '../../app/time/words.ts';
import { formatBoth } from '../../app/units/convert.ts';
import { minuteTicks } from './batch.ts';
import type { LineDrawing, Series, XY } from './lineChart.ts';

/** The front over time, with the way to fill, the moment it is too thick, and gel. */
export function infusionDrawing(answer: InfusionAnswer): LineDrawing {
  const { course, question, fill, thick } = answer;
  const { points, gelMinutes } = course;
  const end = gelMinutes * 1.04;
  const front = points
    .filter((_, i) => i % 4 === 0 || i === points.length - 1)
    .map(({ minutes, frontM }): XY => {
      const words = `${formatBoth(frontM, 'lengthM')} after ${length(minutes)}`;
      return { x: minutes, y: frontM, words };
    });
  const highest = Math.max(course.gelReachM, question.lengthM) * 1.08;
  const upright = (x: number, name: string, dash: number, words: string): Series => ({
    name,
    tone: 'limit',
    dash,
    points: [
      { x, y: 0, words },
      { x, y: highest * (name === 'gel' ? 0.97 : 0.9), words },
    ],
  });
  return {
    x: { title: 'Time from first contact', min: 0, max: end, ticks: minuteTicks(end) },
    y: { title: 'Front, m', min: 0, max: highest },
    series: [
      { name: 'front', tone: 'cure', points: front },
      {
        name: 'to fill',
        tone: 'ink',
        dash: 2,
        points: [
          { x: 0, y: question.lengthM },
          { x: end, y: question.lengthM },
        ],
      },
      ...(thick ? [upright(thick.minutes, 'too thick', 1, length(thick.minutes))] : []),
      upright(gelMinutes, 'gel', 0, length(gelMinutes)),
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
