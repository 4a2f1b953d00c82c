/** The drawing of a log beside the room as the build has it. */
import type { TemperatureProfile } from '../../../app/cure/types.ts';
import { dayAndTime } from '../../../app/messages/words.ts';
import type { LogCompare } from '../../../app/plan/logCompare.ts';
import { plain } from '../../../app/units/words.ts';
import type { LineDrawing, XY } from '../../charts/lineChart.ts';
import { dayTicks } from '../../charts/timeTicks.ts';
import { CHART_WORDS } from '../../words/charts.ts';

const TICKS = 6;

/** The log over the room, both by the build's clock. */
export function logDrawing(
  log: TemperatureProfile,
  { span, room }: LogCompare,
  zone: string,
): LineDrawing {
  const every = Math.max(1, Math.ceil(log.length / 700));
  const points = (profile: TemperatureProfile, step: number): XY[] => {
    const kept = profile.filter((_, i) => i % step === 0);
    const xy = kept.map(({ start: x, temperatureC: y }) => ({
      x,
      y,
      words: CHART_WORDS.temperatureAt(plain(y), dayAndTime(x, zone)),
    }));
    const last = profile.at(-1)!;
    return [...xy, { x: last.end, y: last.temperatureC }];
  };
  return {
    x: {
      title: '',
      min: span.start,
      max: span.end,
      ticks: dayTicks(span.start, span.end, zone, TICKS),
    },
    y: { title: '°C' },
    series: [
      { name: CHART_WORDS.logLine, tone: 'cure', points: points(log, every) },
      {
        name: CHART_WORDS.roomLine,
        tone: 'temperature',
        dash: 1,
        stepped: true,
        points: points(room, 1),
      },
    ],
  };
}
