/** Zoom and place of the timeline's window, kept over replanning. */
import type { Interval, Minute } from '../../app/time/instant.ts';
import { clampZoom, pxPerMinuteOf, timeScale, type Zoom } from '../../app/timeline/scale.ts';

const ZOOM_STEP = 1.4;

export class TimelineView {
  /** Width and height of the window on the plot, px. */
  width = $state(760);
  height = $state(320);
  scrollLeft = $state(0);
  /** Null: the whole build fits the window, also after it changes. */
  #pxPerMinute = $state<number | null>(null);
  #world: () => Interval;
  #scroller: () => HTMLElement | null;

  constructor(world: () => Interval, scroller: () => HTMLElement | null) {
    this.#world = world;
    this.#scroller = scroller;
  }

  readonly scale = $derived.by(() => {
    const world = this.#world();
    const px =
      this.#pxPerMinute === null
        ? pxPerMinuteOf('fit', world, this.width)
        : clampZoom(this.#pxPerMinute, world, this.width);
    return timeScale(world, px);
  });

  /** The zoom whose button is lit; null between them. */
  readonly zoom = $derived.by((): Zoom | null => {
    const world = this.#world();
    const is = (zoom: Zoom) =>
      Math.abs(pxPerMinuteOf(zoom, world, this.width) / this.scale.pxPerMinute - 1) < 0.01;
    return (['fit', 'week', 'day'] as const).find(is) ?? null;
  });

  /** The stretch of time in the window. */
  readonly seen = $derived.by(() => ({
    start: this.scale.minute(this.scrollLeft),
    end: this.scale.minute(this.scrollLeft + this.width),
  }));

  show(zoom: Zoom, around: Minute): void {
    if (zoom === 'fit') {
      this.#pxPerMinute = null;
      this.#scrollTo(0);
      return;
    }
    this.#pxPerMinute = pxPerMinuteOf(zoom, this.#world(), this.width);
    this.#scrollTo(this.scale.x(around) - this.width / 3);
  }

  /** One step closer (1) or wider (-1), or by a factor, keeping the minute at `px` where it is. */
  step(direction: number, px = this.width / 2): void {
    const minute = this.scale.minute(this.scrollLeft + px);
    const wanted = this.scale.pxPerMinute * ZOOM_STEP ** direction;
    const next = clampZoom(wanted, this.#world(), this.width);
    const fit = pxPerMinuteOf('fit', this.#world(), this.width);
    this.#pxPerMinute = next <= fit * 1.001 ? null : next;
    this.#scrollTo(this.scale.x(minute) - px);
  }

  pan(px: number): void {
    this.#scrollTo(this.scrollLeft + px);
  }

  /** Scrolls so that the stretch is in the window, its start first. */
  reveal(x: number, width: number, y: number, height: number): void {
    const scroller = this.#scroller();
    if (!scroller) return;
    const margin = 24;
    if (x < this.scrollLeft + margin || x + width > this.scrollLeft + this.width - margin) {
      const before = x + width > this.scrollLeft + this.width - margin && width < this.width / 2;
      this.#scrollTo(before ? x + width - this.width + 4 * margin : x - 4 * margin);
    }
    if (y < scroller.scrollTop) scroller.scrollTop = y;
    const below = y + height - this.height;
    if (below > scroller.scrollTop) scroller.scrollTop = below;
  }

  #scrollTo(left: number): void {
    const scroller = this.#scroller();
    const most = Math.max(0, this.scale.width - this.width);
    const wanted = Math.min(Math.max(0, left), most);
    this.scrollLeft = wanted;
    // The drawing takes its new width after this turn; only then can it be scrolled that far.
    queueMicrotask(() => {
      if (scroller) scroller.scrollLeft = wanted;
    });
  }
}
