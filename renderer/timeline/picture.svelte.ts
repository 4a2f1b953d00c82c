/** Everything of the picture that follows from the plan, the zoom and what is unfolded. */
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import { dayClock } from '../../app/shop/words.ts';
import { clockAt } from '../../app/timeline/clockWords.ts';
import { wholeDaysAround } from '../../app/timeline/days.ts';
import { foldsOf } from '../../app/timeline/folds.ts';
import { placeInLines, type LineWish } from '../../app/timeline/inLine.ts';
import { spansOf, timelineRows, type TimelineItem } from '../../app/timeline/items.ts';
import { lanesOf, roomLane } from '../../app/timeline/lanes.ts';
import { layoutTimeline, placedById } from '../../app/timeline/layout.ts';
import { limitsOf } from '../../app/timeline/limits.ts';
import { dayTicks, shadesOf } from '../../app/timeline/shade.ts';
import { TIMELINE_WORDS } from '../words/timeline.ts';
import { textMeasure, textUnit } from './measure.ts';
import { TimelineView } from './view.svelte.ts';

const STRIP = 26;
const LANE = 20;
const ROOM = 30;
const FOLD_HEAD = 32;

interface Given {
  readonly outcome: () => PlanOutcome;
  readonly selected: () => string | null;
  readonly shopOpen: () => boolean;
  readonly scroller: () => HTMLElement | null;
}

export class Picture {
  readonly #given: Given;
  /** How large the page's text is; it may be changed while the picture stands. */
  unit = $state(textUnit());
  readonly measure = $derived.by(() => textMeasure(this.unit));
  readonly view: TimelineView;
  /** Folds that a person has unfolded. */
  opened = $state.raw<readonly string[]>([]);

  constructor(given: Given) {
    this.#given = given;
    this.view = new TimelineView(
      () => this.world,
      () => this.unit,
      given.scroller,
    );
  }

  readonly outcome = $derived.by(() => this.#given.outcome());
  readonly zone = $derived.by(() => this.outcome.result.build.zone);
  readonly rows = $derived.by(() => timelineRows(this.outcome));
  readonly limits = $derived.by(() => limitsOf(this.outcome));
  readonly stripPx = $derived.by(() => STRIP * this.unit);

  readonly world = $derived.by(() => {
    const { zone } = this;
    const { now, deadline } = this.outcome.detail;
    const span = wholeDaysAround(spansOf(this.outcome, this.rows), zone);
    const busy = this.rows.flatMap(({ items }) => items.filter(({ type }) => type !== 'wait'));
    const folds = foldsOf(span, busy, [now, deadline], zone, this.opened);
    return { ...span, folds, stripPx: this.stripPx };
  });

  readonly scale = $derived.by(() => this.view.scale);
  readonly grain = $derived.by(() => this.view.grain);

  readonly layout = $derived.by(() =>
    layoutTimeline(this.rows, {
      ...{ scale: this.scale, grain: this.grain, measure: this.measure, zone: this.zone },
      ...{ selected: this.#given.selected(), unit: this.unit },
    }),
  );

  readonly placed = $derived.by(() => placedById(this.layout));

  readonly lanes = $derived.by(() => lanesOf(this.outcome));
  readonly room = $derived.by(() => roomLane(this.outcome, this.world));
  readonly laneHeight = $derived.by(() => LANE * this.unit);
  readonly roomHeight = $derived.by(() => ROOM * this.unit);
  readonly foldHeight = $derived.by(() => Math.max(FOLD_HEAD, 24 * this.unit));
  readonly lanesY = $derived.by(() => this.layout.height + this.foldHeight);
  readonly height = $derived.by(() => {
    if (!this.#given.shopOpen()) return this.lanesY;
    return this.lanesY + this.lanes.length * this.laneHeight + (this.room ? this.roomHeight : 0);
  });

  readonly days = $derived.by(() => dayTicks(this.scale, this.zone, this.unit));
  readonly shades = $derived.by(() =>
    shadesOf(this.scale, this.outcome.detail.shopHours, this.zone),
  );
  readonly axisHeight = $derived.by(() => (this.grain === 'whole' ? 80 : 90) * this.unit);

  /** Now, the unveiling and the limits, as far as there is room for their sentences. */
  readonly sentences = $derived.by(() => {
    const { now, deadline } = this.outcome.detail;
    const x = (at: number) => this.scale.x(at);
    const wishes: LineWish[] = [
      {
        ...{ id: 'now', x: x(now), worth: 9, bold: true },
        texts: [`${TIMELINE_WORDS.now} ${clockAt(now, this.zone)}`, TIMELINE_WORDS.now],
      },
      {
        ...{ id: 'deadline', x: x(deadline), worth: 10, bold: true },
        texts: [
          `${TIMELINE_WORDS.shown} ${dayClock(this.outcome.result.deadline)}`,
          TIMELINE_WORDS.shown,
        ],
      },
      ...this.limits.map(({ id, at, words, taken }): LineWish => ({
        ...{ id, x: x(at), texts: [words], worth: taken ? 8 : 1, bold: taken },
      })),
    ];
    const { measure, unit } = this;
    return placeInLines(wishes, {
      ...{ width: this.scale.width, lines: 2, gap: 6 * unit, measure },
    });
  });

  readonly kinds = $derived.by(() =>
    Object.fromEntries<'now' | 'deadline' | 'limit'>([
      ...this.limits.map(({ id }) => [id, 'limit'] as const),
      ['now', 'now'],
      ['deadline', 'deadline'],
    ]),
  );

  /** Lines for those that say what they are; the rest stands in the list for a screen reader. */
  readonly saidLimits = $derived.by(() =>
    this.limits.filter((limit) => this.sentences.some(({ id }) => id === limit.id)),
  );

  /** Follows the page's text as it is made larger or smaller. @param node as wide as a letter, in rem */
  readonly follow = (node: HTMLElement): (() => void) => {
    const observer = new ResizeObserver(() => {
      const unit = textUnit();
      if (unit !== this.unit) this.unit = unit;
    });
    observer.observe(node);
    return () => observer.disconnect();
  };

  first(): TimelineItem | undefined {
    return this.rows.find(({ items }) => items.length > 0)?.items[0];
  }

  unfold(id: string): void {
    this.opened = [...this.opened, id];
  }

  foldAgain(): void {
    this.opened = [];
  }
}
