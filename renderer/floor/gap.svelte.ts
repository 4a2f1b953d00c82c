/** What should have happened since this build was last looked at, and the answers to it. */
import { writeRecords, type FloorEntry } from '../../app/document/edit/records.ts';
import type { Draft } from '../../app/document/edit/path.ts';
import type { RecordDoubt } from '../../app/messages/records.ts';
import { askAbout } from '../../app/plan/records.ts';
import { lastKnownAt, unansweredSince, type Unanswered } from '../../app/shop/floor/gap.ts';
import type { Minute } from '../../app/time/instant.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import { Debounced } from '../state/debounced.svelte.ts';
import type { PlannerState } from '../state/planner.svelte.ts';
import { GAP_WORDS } from '../words/floor.ts';

/** How far one build has been answered for, kept with the window. */
interface Looked {
  readonly at: Minute;
  /** Said to be not done, since then. */
  readonly notDone: readonly string[];
}

const isLooked = (kept: unknown): kept is Looked =>
  typeof kept === 'object' &&
  kept !== null &&
  Number.isInteger((kept as Looked).at) &&
  Array.isArray((kept as Looked).notDone);

/** The build as it was planned when it was last looked at. */
interface Then {
  readonly buildId: string;
  readonly document: Draft;
  readonly since: Minute;
  readonly outcome: PlanOutcome | null;
}

export class GapState {
  readonly #planner: PlannerState;
  /** Made again for another document or moment, and not in the frame of the stamp that made it so. */
  readonly #made: Debounced<Omit<Then, 'outcome'> | null, Then | null>;

  /** Belongs to a component. */
  constructor(planner: PlannerState) {
    this.#planner = planner;
    this.#made = new Debounced(
      () => {
        const { since } = this;
        const { buildId, document } = planner;
        return this.#isPast && since !== null && buildId !== null
          ? { buildId, document, since }
          : null;
      },
      (asked) => asked && { ...asked, outcome: planner.planning.planAt(asked.since) },
    );
  }

  get #all(): Readonly<Record<string, unknown>> {
    return (this.#planner.view['looked'] ?? {}) as Readonly<Record<string, unknown>>;
  }

  /** Null for a build that is looked at for the first time and of which nothing is known. */
  readonly looked = $derived.by((): Looked | null => {
    const { buildId, outcome } = this.#planner;
    if (buildId === null || !outcome) return null;
    const kept = this.#all[buildId];
    if (isLooked(kept)) return kept;
    const at = lastKnownAt(outcome.detail.build);
    return at === null ? null : { at, notDone: [] };
  });

  readonly since = $derived(this.looked?.at ?? null);

  readonly #isPast = $derived.by(() => this.since !== null && this.since < this.#planner.now);

  /**
   * The plan of then, or that of a document or moment before until it is made: what it asks is held against today's
   * records, so that the list stands while it is answered.
   */
  readonly #then = $derived.by((): Then | null => {
    const made = this.#made.value;
    const isOfBuild = made?.buildId === this.#planner.buildId;
    return this.#isPast && isOfBuild ? made : null;
  });

  /** False while the plan of then is still to come. */
  readonly known = $derived.by(
    () =>
      !this.#isPast ||
      (this.#then?.document === this.#planner.document && this.#then.since === this.since),
  );

  /** What that plan has, with what is recorded since taken as it is recorded. */
  readonly list = $derived.by((): readonly Unanswered[] => {
    const planner = this.#planner;
    const then = this.#then?.outcome;
    if (this.looked === null || !planner.outcome || !then) return [];
    const { notDone } = this.looked;
    return unansweredSince(then, planner.outcome.detail.build, planner.now).filter(
      ({ stage }) => !notDone.includes(stage),
    );
  });

  /** Once nothing is left to answer, the build has been looked at now. */
  settle(): void {
    const { buildId, outcome, now } = this.#planner;
    if (buildId === null || !outcome || this.since === now) return;
    if (!this.known || this.list.length > 0) return;
    if (this.since !== null && this.since > now) return;
    this.#keep({ at: now, notDone: [] });
  }

  #keep(looked: Looked): void {
    const { buildId } = this.#planner;
    if (buildId !== null) this.#planner.setView({ looked: { ...this.#all, [buildId]: looked } });
  }

  /** What is wrong with a record, or is asked before it is taken; empty: nothing. */
  doubts(entry: FloorEntry): readonly RecordDoubt[] {
    const { outcome, now } = this.#planner;
    return outcome ? askAbout(outcome, [entry], now)[0]!.doubts : [];
  }

  write(entries: readonly FloorEntry[], what: string): void {
    const planner = this.#planner;
    planner.apply(writeRecords(planner.document, entries, `${what}: ${GAP_WORDS.written}`));
  }

  notDone(stages: readonly string[]): void {
    if (!this.looked) return;
    this.#keep({ ...this.looked, notDone: [...this.looked.notDone, ...stages] });
  }
}
