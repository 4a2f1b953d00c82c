/** The drawing of a cure's temperature and Tg over time. */
import { progressCurve } from '../../../app/cure/curves.ts';
import { dayAndTime } from '../../../app/messages/words.ts';
import type { CureStory } from '../../../app/plan/cureStory.ts';
import { plain } from '../../../app/units/words.ts';
import type { LineDrawing } from '../../charts/lineChart.ts';
import { dayTicks } from '../../charts/timeTicks.ts';
import { CHART_WORDS } from '../../words/charts.ts';

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
        name: CHART_WORDS.partLine,
        tone: 'temperature',
        stepped: true,
        points: points.map(({ minute: x, temperatureC: y }) => ({
          x,
          y,
          words: CHART_WORDS.temperatureAt(plain(y), dayAndTime(x, zone)),
        })),
      },
      {
        name: CHART_WORDS.tgLine,
        tone: 'cure',
        points: points.flatMap(({ minute: x, tgC }) =>
          tgC === null
            ? []
            : [{ x, y: tgC, words: CHART_WORDS.tgAt(plain(tgC, 0), dayAndTime(x, zone)) }],
        ),
      },
      {
        name: CHART_WORDS.tgNeeded,
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
