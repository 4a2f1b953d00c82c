/** The drawing of a cure's temperature and Tg over time. */
import { progressCurve } from '../../app/cure/curves.ts';
import { dayAndTime } from '../../app/messages/words.ts';
import type { CureStory } from '../../app/plan/cureStory.ts';
import { plain } from '../../app/units/words.ts';
import type { LineDrawing } from './lineChart.ts';
import { dayTicks } from './timeTicks.ts';

/** As many days as a narrow drawing can name. */
const TICKS = 4;

/** Temperature of the part and its Tg from first contact, with what the paint needs. */
export function tgDrawing(story: CureStory, zone: string): LineDrawing {
  const last = story.profile.at(-1)!.end;
  const demould = story.moments.find(({ milestone }) => milestone === 'demould')?.at ?? null;
  const end = Math.min(last, Math.max(demould ?? 0, story.mixed + 2 * 1440) + 1440);
  const points = progressCurve(story.clock, story.profile, story.mixed, end, 120);
  const needed = story.glass.neededC;
  return {
    x: { title: '', min: story.mixed, max: end, ticks: dayTicks(story.mixed, end, zone, TICKS) },
    y: { title: '°C' },
    series: [
      {
        name: 'part',
        tone: 'temperature',
        stepped: true,
        points: points.map(({ minute: x, temperatureC: y }) => ({
          x,
          y,
          words: `${plain(y)} °C, ${dayAndTime(x, zone)}`,
        })),
      },
      {
        name: 'Tg',
        tone: 'cure',
        points: points.flatMap(({ minute: x, tgC }) =>
          tgC === null
            ? []
            : [{ x, y: tgC, words: `Tg ${plain(tgC, 0)} °C, ${dayAndTime(x, zone)}` }],
        ),
      },
      {
        name: 'Tg needed',
        tone: 'limit',
        dash: 2,
        points: [
          { x: story.mixed, y: needed },
          { x: end, y: needed },
        ],
      },
    ],
  };
}
