/** What pointer, wheel and keys do on the picture. */
import { dayClock } from '../../app/shop/words.ts';
import { minuteToIso } from '../../app/time/zone.ts';
import { isMovable, type TimelineItem } from '../../app/timeline/items.ts';
import { nextItem } from '../../app/timeline/keys.ts';
import type { PlacedItem } from '../../app/timeline/layout.ts';
import { TIMELINE_WORDS } from '../words/timeline.ts';
import type { ChangePreview } from './changePreview.ts';
import { Move } from './move.svelte.ts';
import type { Picture } from './picture.svelte.ts';

interface Given {
  readonly picture: () => Picture;
  readonly selected: () => string | null;
  readonly select: (id: string | null) => void;
  readonly pin: (id: string, localDateTime: string) => void;
  readonly canPin: () => boolean;
  readonly foresee: (id: string, localDateTime: string) => ChangePreview | null;
  readonly scroller: () => HTMLElement | null;
  readonly gutter: () => number;
}

export class Gestures {
  readonly #given: Given;
  focused = $state<string | null>(null);
  said = $state('');
  panning = $state(false);
  /** The plan as the move under way would make it. */
  foreseen = $state.raw<ChangePreview | null>(null);
  readonly move = new Move((id, start) => this.#rested(id, start));

  constructor(given: Given) {
    this.#given = given;
  }

  /** Where the stage in hand would begin, then what that does to the plan. */
  get held(): string | null {
    const { item, held } = this.move;
    const name = this.#picture.placed.get(item ?? '')?.item.name;
    if (held === null || name === undefined) return null;
    const to = TIMELINE_WORDS.movesTo(name, this.#asDay(held));
    return this.foreseen ? `${to} ${this.foreseen.words}` : to;
  }

  get #picture(): Picture {
    return this.#given.picture();
  }

  pick(item: TimelineItem): void {
    this.#given.select(item.id === this.#given.selected() ? null : item.id);
  }

  arrive(one: PlacedItem): void {
    this.focused = one.item.id;
    this.#picture.view.reveal(one.box);
  }

  keyed(event: KeyboardEvent, item: TimelineItem): void {
    if (event.altKey || event.metaKey) return;
    if (event.shiftKey && event.key.startsWith('Arrow') && this.#canMove(item)) {
      const step = event.key === 'ArrowLeft' || event.key === 'ArrowDown' ? -1 : 1;
      const to = this.move.nudge(item, step, this.#picture.scale.pxPerMinute);
      this.said = `${TIMELINE_WORDS.movesTo(item.name, this.#asDay(to))} ${TIMELINE_WORDS.moveHint}`;
    } else if (!this.#ended(event, item) && !this.#navigated(event, item) && !this.#zoomed(event)) {
      return;
    }
    event.preventDefault();
  }

  grab(event: PointerEvent, item: TimelineItem): void {
    if (event.button !== 0) return;
    event.stopPropagation();
    if (this.#canMove(item)) this.move.grab(event, item, this.#picture.scale);
  }

  /** A drag that went nowhere is a click. */
  released(one: PlacedItem): void {
    if (this.move.moved) this.#drop(one.item);
    else this.pick(one.item);
    this.#cancel();
  }

  /** Empty ground is taken hold of and pulled. */
  ground(event: PointerEvent): void {
    if (event.button !== 0) return;
    const target = event.currentTarget as Element;
    let [x, y] = [event.clientX, event.clientY];
    target.setPointerCapture(event.pointerId);
    this.panning = true;
    const follow = (now: Event) => {
      const { clientX, clientY } = now as PointerEvent;
      this.#picture.view.pan(x - clientX, y - clientY);
      [x, y] = [clientX, clientY];
    };
    const stop = () => {
      this.panning = false;
      target.removeEventListener('pointermove', follow);
    };
    target.addEventListener('pointermove', follow);
    target.addEventListener('pointerup', stop, { once: true });
    target.addEventListener('pointercancel', stop, { once: true });
  }

  /** The page's own wheel listeners may not be passive here: a zoom must not scroll. */
  wheel(node: HTMLElement): () => void {
    const wheeled = (event: WheelEvent) => this.#wheeled(event);
    node.addEventListener('wheel', wheeled, { passive: false });
    return () => node.removeEventListener('wheel', wheeled);
  }

  /** With Ctrl, or where nothing is to scroll, the wheel zooms about the pointer; else it scrolls. */
  #wheeled(event: WheelEvent): void {
    const scroller = this.#given.scroller();
    if (!scroller || event.deltaX !== 0 || event.shiftKey) return;
    const canScroll = scroller.scrollHeight > scroller.clientHeight + 1;
    if (canScroll && !event.ctrlKey) return;
    event.preventDefault();
    const { view } = this.#picture;
    const px = event.clientX - scroller.getBoundingClientRect().left - this.#given.gutter();
    view.step(-Math.sign(event.deltaY), Math.min(Math.max(px, 0), view.width));
  }

  /** Enter and Escape end a move that has begun, else they open and close the stage. */
  #ended(event: KeyboardEvent, item: TimelineItem): boolean {
    if (event.key === 'Enter' || event.key === ' ') {
      if (this.move.item === item.id) this.#drop(item);
      else this.pick(item);
      return true;
    }
    if (event.key !== 'Escape') return false;
    if (this.move.item === null && this.#given.selected() !== null) this.#given.select(null);
    this.said = this.move.item === null ? '' : TIMELINE_WORDS.notMoved;
    this.#cancel();
    return true;
  }

  #navigated(event: KeyboardEvent, item: TimelineItem): boolean {
    const next = nextItem(this.#picture.rows, item.id, event.key, event.ctrlKey);
    if (!next) return false;
    this.#cancel();
    // It may be out of the window and not drawn yet: as the one tab stop it is drawn at once.
    this.focused = next.id;
    queueMicrotask(() =>
      document.getElementById(`timeline-${next.id}`)?.focus({ preventScroll: true }),
    );
    return true;
  }

  #zoomed(event: KeyboardEvent): boolean {
    const { view, placed } = this.#picture;
    const keys: Readonly<Record<string, () => void>> = {
      '+': () => view.step(1),
      '=': () => view.step(1),
      '-': () => view.step(-1),
      '0': () => view.show('whole', placed.get(this.focused ?? '')?.item.start ?? 0),
      PageUp: () => view.pan(-view.width * 0.8),
      PageDown: () => view.pan(view.width * 0.8),
    };
    const act = event.ctrlKey ? undefined : keys[event.key];
    act?.();
    return act !== undefined;
  }

  #drop(item: TimelineItem): void {
    const start = this.move.end();
    this.foreseen = null;
    if (start === null || start === item.start) return;
    this.#given.pin(item.id, this.#local(start));
    this.said = TIMELINE_WORDS.fixed(item.name, this.#asDay(start));
  }

  #cancel(): void {
    this.move.cancel();
    this.foreseen = null;
  }

  #rested(id: string, start: number): void {
    if (this.move.item !== id) return;
    this.foreseen = this.#given.foresee(id, this.#local(start));
    if (this.foreseen) this.said = this.foreseen.words;
  }

  #canMove(item: TimelineItem): boolean {
    return this.#given.canPin() && isMovable(item);
  }

  #local(minute: number): string {
    return minuteToIso(minute, this.#picture.zone).slice(0, 16);
  }

  #asDay(minute: number): string {
    return dayClock(minuteToIso(minute, this.#picture.zone));
  }
}
