/** A pasted text of ticks: what it says, what of it is taken, and what is still asked. */
import { writeRecords } from '../../app/document/edit/records.ts';
import { beforePackWords, ticksFaultWords } from '../../app/messages/phone.ts';
import { doubtWords } from '../../app/messages/records.ts';
import {
  isAsked,
  isRefused,
  reviewTicks,
  type Review,
  type TickRow,
} from '../../app/shop/phone/review.ts';
import { readTicks } from '../../app/shop/phone/text.ts';
import type { PlannerState } from '../state/planner.svelte.ts';
import { HalfTyped } from '../state/halfTyped.svelte.ts';
import { PHONE_WORDS as WORDS } from '../words/phone.ts';

export class PhoneTicksState {
  readonly #planner: PlannerState;

  readonly #typed: HalfTyped;
  /** Keys of ticks that are left out. */
  left = $state.raw<readonly string[]>([]);
  /** Keys of ticks whose questions were said yes to. */
  agreed = $state.raw<readonly string[]>([]);
  olderAgreed = $state(false);
  /** How many stages were written down last; null: none yet. */
  written = $state<number | null>(null);

  constructor(planner: PlannerState) {
    this.#planner = planner;
    this.#typed = new HalfTyped(planner, 'phone');
  }

  get text(): string {
    return this.#typed.text ?? '';
  }

  readonly read = $derived(this.text.trim() === '' ? null : readTicks(this.text));
  readonly fault = $derived(this.read && !this.read.ok ? ticksFaultWords(this.read.fault) : null);
  readonly ticks = $derived(this.read?.ok ? this.read.value : null);
  readonly review = $derived.by((): Review | null => {
    const { outcome, now } = this.#planner;
    return outcome && this.ticks ? reviewTicks(outcome, this.ticks, now, this.left) : null;
  });

  /** Every question is answered, nothing that is taken is refused, and something is taken. */
  readonly ready = $derived.by((): boolean => {
    const { review } = this;
    if (!review || review.otherBuild || review.entries.length === 0) return false;
    if (review.olderPlan && !this.olderAgreed) return false;
    return review.rows.every(
      (row) =>
        this.left.includes(row.tick.key) ||
        row.fault !== null ||
        (!isRefused(row) && (!isAsked(row) || this.agreed.includes(row.tick.key))),
    );
  });

  /** What is asked of a row, in sentences. */
  questions({ doubts, beforePack, name, tick }: TickRow): string[] {
    const { outcome } = this.#planner;
    if (!outcome || !this.ticks) return [];
    const { zone } = outcome.detail.build;
    return [
      ...(beforePack ? [beforePackWords(tick.at, this.ticks.planAt, zone)] : []),
      ...doubts.map((doubt) => doubtWords(doubt, name, zone)),
    ];
  }

  paste(text: string): void {
    this.#typed.put(text === '' ? null : text);
    this.left = [];
    this.agreed = [];
    this.olderAgreed = false;
    this.written = null;
    this.#planner.tick();
  }

  take(key: string, on: boolean): void {
    this.left = toggled(this.left, key, !on);
  }

  agree(key: string, on: boolean): void {
    this.agreed = toggled(this.agreed, key, on);
  }

  write(): void {
    const planner = this.#planner;
    if (!this.ready || !this.review) return;
    const { implied, entries } = this.review;
    const label = `${WORDS.label}: ${WORDS.written(entries.length)}`;
    const refused = planner.apply(writeRecords(planner.document, [...implied, ...entries], label));
    if (refused.length > 0) return;
    this.#typed.put(null);
    this.written = entries.length;
  }
}

const toggled = (keys: readonly string[], key: string, on: boolean): readonly string[] => [
  ...keys.filter((one) => one !== key),
  ...(on ? [key] : []),
];
