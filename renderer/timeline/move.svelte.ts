/** Moving a stage along the time axis, by pointer or by keys, before it is fixed. */
import type { Minute } from '../../app/time/instant.ts';
import type { TimelineItem } from '../../app/timeline/items.ts';
import type { TimeScale } from '../../app/timeline/scale.ts';

/** A press that moves less is a click. */
const LEAST_DRAG_PX = 4;
/** Steps in minutes, the finest that is still seen to move. */
const STEPS = [15, 30, 60, 240, 1440] as const;
const LEAST_STEP_PX = 3;
/** The plan is made again once the pointer rests so long. */
const REST_MS = 140;

const stepFor = (pxPerMinute: number): number =>
  STEPS.find((step) => step * pxPerMinute >= LEAST_STEP_PX) ?? 1440;

export class Move {
  item = $state<string | null>(null);
  #from: Minute = 0;
  #to = $state<Minute>(0);
  moved = $state(false);
  #rest: ReturnType<typeof setTimeout> | undefined;
  readonly #rested: (id: string, start: Minute) => void;

  /** @param rested told where a stage would begin, when it is held still */
  constructor(rested: (id: string, start: Minute) => void) {
    this.#rested = rested;
  }

  /** Where the stage that is moved would begin; null while none is moved away. */
  get held(): Minute | null {
    return this.item !== null && this.#to !== this.#from ? this.#to : null;
  }

  /** Px by which an item is drawn away from its place. */
  shiftOf(id: string, scale: TimeScale): number {
    return id === this.item ? scale.x(this.#to) - scale.x(this.#from) : 0;
  }

  /** One step of the keyboard; returns the start it would have. */
  nudge(item: TimelineItem, direction: 1 | -1, pxPerMinute: number): Minute {
    if (this.item !== item.id) this.#begin(item);
    this.#moveTo(this.#to + direction * stepFor(pxPerMinute), stepFor(pxPerMinute));
    return this.#to;
  }

  /** Follows the pointer until it is let go; the click that comes after ends the move. */
  grab(event: PointerEvent, item: TimelineItem, scale: TimeScale): void {
    const target = event.currentTarget as Element;
    const x = event.clientX;
    this.#begin(item);
    target.setPointerCapture(event.pointerId);
    const follow = (now: Event) => {
      const px = (now as PointerEvent).clientX - x;
      if (!this.moved && Math.abs(px) < LEAST_DRAG_PX) return;
      this.moved = true;
      this.#moveTo(scale.minute(scale.x(this.#from) + px), stepFor(scale.pxPerMinute));
    };
    const stop = (end: Event) => {
      target.removeEventListener('pointermove', follow);
      if (end.type === 'pointercancel') this.cancel();
    };
    target.addEventListener('pointermove', follow);
    target.addEventListener('pointerup', stop, { once: true });
    target.addEventListener('pointercancel', stop, { once: true });
  }

  /** Ends the move and gives the new start; null when nothing was being moved. */
  end(): Minute | null {
    const to = this.item === null ? null : this.#to;
    this.cancel();
    return to;
  }

  cancel(): void {
    clearTimeout(this.#rest);
    this.item = null;
    this.moved = false;
  }

  #begin(item: TimelineItem): void {
    clearTimeout(this.#rest);
    this.item = item.id;
    this.#from = item.start;
    this.#to = item.start;
    this.moved = false;
  }

  #moveTo(minute: Minute, step: number): void {
    const next = this.#snap(minute, step);
    if (next === this.#to) return;
    this.#to = next;
    clearTimeout(this.#rest);
    const id = this.item;
    if (id !== null) this.#rest = setTimeout(() => this.#rested(id, next), REST_MS);
  }

  #snap(minute: Minute, step: number): Minute {
    // A day's step keeps the hour; finer ones fall on the clock.
    if (step >= 1440) return this.#from + Math.round((minute - this.#from) / step) * step;
    return Math.round(minute / step) * step;
  }
}
