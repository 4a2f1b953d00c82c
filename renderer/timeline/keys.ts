/** Which item the keyboard goes to next. */
import { nearestIn } from '../../app/timeline/layout.ts';
import type { Lane, TimelineItem } from '../../app/timeline/items.ts';

const inTime = (lane: Lane): TimelineItem[] =>
  [...lane.items].sort((a, b) => a.start - b.start || a.end - b.end);

/**
 * The item to focus after an arrow, Home or End; null when the key is none of these or there is
 * nothing further that way. Left and right go along the lane, up and down to the nearest in time.
 */
export function nextItem(
  lanes: readonly Lane[],
  current: string | null,
  key: string,
  whole: boolean,
): TimelineItem | null {
  const laneIndex = lanes.findIndex((lane) => lane.items.some((item) => item.id === current));
  if (laneIndex < 0) return lanes[0] ? (inTime(lanes[0])[0] ?? null) : null;
  const items = inTime(lanes[laneIndex]!);
  const index = items.findIndex((item) => item.id === current);
  switch (key) {
    case 'ArrowLeft':
      return items[index - 1] ?? null;
    case 'ArrowRight':
      return items[index + 1] ?? null;
    case 'ArrowUp':
    case 'ArrowDown': {
      const lane = lanes[laneIndex + (key === 'ArrowUp' ? -1 : 1)];
      return lane ? nearestIn(lane, items[index]!.start) : null;
    }
    case 'Home':
      return inTime(whole ? lanes[0]! : lanes[laneIndex]!)[0] ?? null;
    case 'End':
      return inTime(whole ? lanes.at(-1)! : lanes[laneIndex]!).at(-1) ?? null;
    default:
      return null;
  }
}
