/** Zoom and place of the timeline's window, kept over replanning. */
import type { Minute } from '../../app/time/instant.ts';
import { GRAINS, type Grain } from '../../app/timeline/captions.ts';
import {
  clampZoom,
  grainAt,
  pxPerMinuteOf,
  timeScale,
  type FoldedWorld,
} from '../../app/timeline/scale.ts';

const ZOOM_STEP = 1.4;

interface Reveal {
  readonly x: number;
  readonly width: number;
  readonly y: number;
  readonly height: number;
}

export class TimelineView {
  /** Width and height of the window on the plot, px. */
  width = $state(760);
  height = $state(320);
  scrollLeft = $state(0);
  scrollTop = $state(0);
  /** Null: the whole build fits the window, also after it changes. */
  #pxPerMinute = $state<number | null>(null);
  #world: () => FoldedWorld;
  #unit: () => number;
  #scroller: () => HTMLElement | null;

  constructor(world: () => FoldedWorld, unit: () => number, scroller: () => HTMLElement | null) {
    this.#world = world;
    this.#unit = unit;
    this.#scroller = scroller;
  }

  readonly scale = $derived.by(() => {
    const world = this.#world();
    const px =
      this.#pxPerMinute === null
        ? pxPerMinuteOf('whole', world, this.width)
        : clampZoom(this.#pxPerMinute, world, this.width);
    return timeScale(world, px);
  });

  /** What is written depends on how close one is. */
  readonly grain = $derived.by((): Grain => {
    if (this.#pxPerMinute === null) return 'whole';
    return grainAt(this.scale.pxPerMinute, this.#unit());
  });

  /** The grain whose button is lit; null between them. */
  readonly lit = $derived.by((): Grain | null => {
    if (this.#pxPerMinute === null) return 'whole';
    const world = this.#world();
    const is = (grain: Grain) =>
      Math.abs(pxPerMinuteOf(grain, world, this.width) / this.scale.pxPerMinute - 1) < 0.01;
    return GRAINS.slice(1).find(is) ?? null;
  });

  /**
   * What is drawn: the window and as much again on every side, in steps of half a window, so that
   * scrolling draws anew only now and then.
   */
  readonly drawn = $derived.by(() => {
    const [stepX, stepY] = [Math.max(1, this.width / 2), Math.max(1, this.height / 2)];
    const left = Math.floor(this.scrollLeft / stepX) * stepX;
    const top = Math.floor(this.scrollTop / stepY) * stepY;
    return {
      left: left - this.width,
      right: left + 2 * this.width + stepX,
      top: top - this.height,
      bottom: top + 2 * this.height + stepY,
    };
  });

  show(grain: Grain, around: Minute): void {
    if (grain === 'whole') {
      this.#pxPerMinute = null;
      this.#scrollTo(0);
      return;
    }
    this.#pxPerMinute = pxPerMinuteOf(grain, this.#world(), this.width);
    this.#scrollTo(this.scale.x(around) - this.width / 12);
  }

  /** One step closer (1) or wider (-1), keeping the minute at `px` where it is. */
  step(direction: number, px = this.width / 2): void {
    const minute = this.scale.minute(this.scrollLeft + px);
    const wanted = this.scale.pxPerMinute * ZOOM_STEP ** direction;
    const next = clampZoom(wanted, this.#world(), this.width);
    const fit = pxPerMinuteOf('whole', this.#world(), this.width);
    this.#pxPerMinute = next <= fit * 1.001 ? null : next;
    this.#scrollTo(this.scale.x(minute) - px);
  }

  pan(px: number, py = 0): void {
    this.#scrollTo(this.scrollLeft + px);
    const scroller = this.#scroller();
    if (scroller && py !== 0) scroller.scrollTop += py;
  }

  /** Scrolls so that the stretch is in the window, its start first. */
  reveal({ x, width, y, height }: Reveal): void {
    const scroller = this.#scroller();
    if (!scroller) return;
    const margin = 24;
    if (x < this.scrollLeft + margin || x + width > this.scrollLeft + this.width - margin) {
      const before = x + width > this.scrollLeft + this.width - margin && width < this.width / 2;
      this.#scrollTo(before ? x + width - this.width + 4 * margin : x - 4 * margin);
    }
    // Asking the page where it is scrolled to would have it laid out first; the last scroll said so.
    let top = Math.min(this.scrollTop, y);
    const below = y + height - this.height;
    // What belongs to it stands below: there is to be room for that as well.
    if (below > top) top = Math.max(below, y - this.height / 4);
    if (top !== this.scrollTop) scroller.scrollTop = top;
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
