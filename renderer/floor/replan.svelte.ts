/** The printed plan beside the one from now, and what is done about it: accept it, or keep the old. */
import { change } from '../../app/document/edit/change.ts';
import type { Build } from '../../app/document/schema.ts';
import {
  hasMoved,
  heldAtPrint,
  keepPrinted,
  replannedSincePrint,
  type Replanned,
} from '../../app/shop/floor/replanned.ts';
import type { PlannerState } from '../state/planner.svelte.ts';
import { EDIT_NAMES } from '../words/news.ts';

/** What the build would be with the old moments kept. */
export interface Kept {
  /** Names of stages that can stand where they stood, and of those that cannot. */
  readonly holds: readonly string[];
  readonly cannot: readonly string[];
  readonly lateMinutes: number | null;
  readonly document: Build;
}

export class ReplanState {
  readonly #planner: PlannerState;
  /** What was put off, as text: another move is told again. */
  putOff = $state('');

  constructor(planner: PlannerState) {
    this.#planner = planner;
  }

  readonly replanned = $derived.by((): Replanned | null => {
    const { outcome, planning } = this.#planner;
    return outcome && planning.ready ? replannedSincePrint(outcome) : null;
  });
  readonly #key = $derived(
    JSON.stringify(this.replanned?.moved.map(({ stage, to }) => [stage, to])),
  );
  readonly tells = $derived(hasMoved(this.replanned) && this.putOff !== this.#key);

  later(): void {
    this.putOff = this.#key;
  }

  /** Planned with the old moments kept, to be shown before it is done. */
  foreseeKept(): Kept | null {
    const planner = this.#planner;
    const { replanned } = this;
    const zone = planner.outcome?.detail.build.zone;
    if (!replanned || zone === undefined) return null;
    const { now } = planner;
    const build = planner.document as Build;
    const foreseen = (only?: ReadonlySet<string>) => {
      const pins = keepPrinted(build, replanned, { now, zone, ...(only ? { only } : {}) });
      const document = { ...build, pins };
      return { document, outcome: planner.planning.foresee(document) };
    };
    const all = foreseen().outcome;
    if (!all) return null;
    const held = heldAtPrint(replanned, all);
    const { document, outcome } = foreseen(held);
    if (!outcome || held.size === 0) return null;
    const named = (holds: boolean): string[] =>
      replanned.moved.filter(({ stage }) => held.has(stage) === holds).map(({ name }) => name);
    const lateMinutes = outcome.result.lateMinutes ?? null;
    return { holds: named(true), cannot: named(false), lateMinutes, document };
  }

  accept(): void {
    this.#planner.printing.accept();
  }

  keep({ document }: Kept): void {
    this.#planner.apply(change(EDIT_NAMES.keepPlan, document));
  }
}
