/** Moving a stage along the time axis, by pointer or by keys, before it is fixed. */
import type { Minute } from '../../app/time/instant.ts';
import type { TimelineItem } from '../../app/timeline/items.ts';

/** A press that moves less is a click. */
const LEAST_DRAG_PX = 4;
/** Steps in minutes, the finest that is still seen to move. */
const STEPS = [15, 30, 60, 240, 1440] as const;
const LEAST_STEP_PX = 3;

const stepFor = (pxPerMinute: number): number =>
  STEPS.find((step) => step * pxPerMinute >= LEAST_STEP_PX) ?? 1440;

export class Move {
  item = $state<string | null>(null);
  #from: Minute = 0;
  #to = $state<Minute>(0);
  moved = $state(false);

  /** Px by which an item is drawn away from its place. */
  shiftOf(id: string, pxPerMinute: number): number {
    return id === this.item ? (this.#to - this.#from) * pxPerMinute : 0;
  }

  /** One step of the keyboard; returns the start it would have. */
  nudge(item: TimelineItem, direction: 1 | -1, pxPerMinute: number): Minute {
    if (this.item !== item.id) this.#begin(item);
    this.#to = this.#snap(this.#to + direction * stepFor(pxPerMinute), stepFor(pxPerMinute));
    return this.#to;
  }

  /** Follows the pointer until it is let go; the click that comes after ends the move. */
  grab(event: PointerEvent, item: TimelineItem, pxPerMinute: number): void {
    const target = event.currentTarget as Element;
    const x = event.clientX;
    this.#begin(item);
    target.setPointerCapture(event.pointerId);
    const follow = (now: Event) => {
      const px = (now as PointerEvent).clientX - x;
      if (!this.moved && Math.abs(px) < LEAST_DRAG_PX) return;
      this.moved = true;
      this.#to = this.#snap(this.#from + px / pxPerMinute, stepFor(pxPerMinute));
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
    this.item = null;
    this.moved = false;
  }

  #begin(item: TimelineItem): void {
    this.item = item.id;
    this.#from = item.start;
    this.#to = item.start;
    this.moved = false;
  }

  #snap(minute: Minute, step: number): Minute {
    // A day's step keeps the hour; finer ones fall on the clock.
    if (step >= 1440) return this.#from + Math.round((minute - this.#from) / step) * step;
    return Math.round(minute / step) * step;
  }
}
