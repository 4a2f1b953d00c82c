/** The state of the bench view: its clock, what is picked, what was stamped, which alarms were heard. */
import { counterEntry, writeRecords, type FloorEntry } from '../../app/document/edit/records.ts';
import { recordsInForce } from '../../app/document/records.ts';
import type { Build } from '../../app/document/schema.ts';
import { askAbout, canBeTaken, impliedEntries, type AskedEntry } from '../../app/plan/records.ts';
import { benchAt, withStamps, type Bench } from '../../app/shop/floor/bench.ts';
import {
  alarmsOf,
  soundingAlarms,
  type Alarm,
  type Answered,
} from '../../app/shop/floor/clocks.ts';
import { IS_HELD, stampEntries, type Step } from '../../app/shop/floor/steps.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import type { PlannerState } from '../state/planner.svelte.ts';
import { BENCH_WORDS, stepWords } from '../words/floor.ts';
import { Awake } from './awake.ts';
import { Notifier } from './notify.ts';
import { Speaker } from './sound.ts';

const MS_PER_MINUTE = 60_000;
/** A key that matters for safety is held so long. */
export const HOLD_MS = 1200;
/** A plan older than this is made again: the machine may have slept. */
const REPLAN_MINUTES = 5;
/** A sounding alarm is heard again after so long. */
const SOUND_AGAIN_MS = 3_000;

/** What a stamp is about to write down, and what has to be said yes to before. */
export interface Asking {
  readonly label: string;
  readonly implied: readonly FloorEntry[];
  readonly asked: readonly AskedEntry[];
  readonly entries: readonly FloorEntry[];
  readonly refused: boolean;
}

/** A stamp that can be taken back: its label, and what held of each stage before. */
interface Stamped {
  readonly label: string;
  readonly counter: readonly FloorEntry[];
}

export class BenchState {
  readonly #planner: PlannerState;
  readonly #speaker = new Speaker();
  readonly #awake: Awake;
  readonly #notifier: Notifier;
  #soundedMs = 0;
  #holdTimer: ReturnType<typeof setTimeout> | null = null;
  /** Writes the stamp that is shown and not written down yet. */
  #waiting: (() => void) | null = null;

  /** Milliseconds of Unix UTC by the planner's clock. */
  nowMs = $state(0);
  picked = $state<string | null>(null);
  /** The step whose cautions are read in full, in place of the clocks. */
  read = $state<string | null>(null);
  answered = $state.raw<Answered>({});
  asking = $state.raw<Asking | null>(null);
  stamped = $state.raw<readonly Stamped[]>([]);
  holding = $state(false);
  awake = $state(false);
  canSound = $state(false);

  constructor(planner: PlannerState) {
    this.#planner = planner;
    const electron = planner.runtime === 'electron';
    this.#awake = new Awake(planner.session.call, electron);
    this.#notifier = new Notifier(planner.session.call, electron);
    this.nowMs = planner.session.nowMs();
  }

  readonly now = $derived(Math.floor(this.nowMs / MS_PER_MINUTE));
  /** The plan with a stamp that is not planned yet; null: every stamp is. */
  ahead = $state.raw<PlanOutcome | null>(null);
  readonly outcome = $derived.by(() => this.ahead ?? this.#planner.outcome);
  readonly bench = $derived.by((): Bench | null => {
    const { outcome } = this;
    return outcome ? benchAt(outcome, this.now, this.picked) : null;
  });
  readonly alarms = $derived.by((): readonly Alarm[] => {
    const { outcome } = this;
    return outcome && this.bench ? alarmsOf(outcome, this.bench.choices) : [];
  });
  readonly sounding = $derived(soundingAlarms(this.alarms, this.answered, this.now));

  /** Moves the clock on, sounds what is due, keeps the machine awake. */
  tick(): void {
    this.nowMs = this.#planner.session.nowMs();
    if (this.now - this.#planner.now >= REPLAN_MINUTES) this.#planner.tick();
    this.canSound = this.#speaker.ready;
    if (this.sounding.length > 0 && this.nowMs - this.#soundedMs >= SOUND_AGAIN_MS) {
      if (this.#speaker.alarm()) this.#soundedMs = this.nowMs;
    }
    this.#notifier.tell(this.#standing(), this.sounding, this.nowMs);
    const wanted = this.bench?.curing === true || this.sounding.length > 0;
    void this.#awake.set(wanted).then((on) => (this.awake = on));
  }

  /** Alarms at the minute from which each goes off, answers counted in. */
  #standing(): Alarm[] {
    return this.alarms.map((alarm) => {
      const heard = this.answered[alarm.id];
      return heard === undefined
        ? alarm
        : { ...alarm, at: Math.max(alarm.at, heard + alarm.againMinutes) };
    });
  }

  /** Any key or press: sound and notifications want one before they may be used. */
  touched(): void {
    this.#speaker.unlock();
    this.#notifier.askLeave();
  }

  pick(by: 1 | -1): void {
    const { bench } = this;
    if (!bench?.current || bench.choices.length < 2) return;
    const keys = bench.choices.map(({ key }) => key);
    const at = keys.indexOf(bench.current.key);
    this.picked = keys[(at + by + keys.length) % keys.length]!;
  }

  /** The key goes down: an alarm is answered, a question said yes to, or the stamp begins. */
  down(): void {
    if (this.sounding.length > 0) this.#answer();
    else if (this.asking) this.confirm();
    else if (this.bench?.current) this.#begin(this.bench.current);
  }

  /** The key comes up: a hold that was too short stamps nothing. */
  up(): void {
    if (this.#holdTimer !== null) clearTimeout(this.#holdTimer);
    this.#holdTimer = null;
    this.holding = false;
  }

  /** The one key back: out of a question, or the last stamp taken back. */
  back(): void {
    if (this.asking) this.asking = null;
    else this.#takeBack();
  }

  #answer(): void {
    const heard = this.sounding.map(({ id }) => [id, this.now] as const);
    this.answered = { ...this.answered, ...Object.fromEntries(heard) };
    this.tick();
  }

  #begin(step: Step): void {
    if (!IS_HELD[step.stamp]) {
      this.#stamp(step);
      return;
    }
    if (this.#holdTimer !== null) return;
    this.holding = true;
    this.#holdTimer = setTimeout(() => {
      this.up();
      this.#stamp(step);
    }, HOLD_MS);
  }

  #stamp(step: Step): void {
    const planner = this.#planner;
    this.#settle();
    // The clock moves on without the plan: that is made again once, with the stamp in it.
    planner.session.tick();
    this.nowMs = planner.session.nowMs();
    const { outcome } = planner;
    if (!outcome) return;
    const entries = stampEntries(outcome, step, this.now);
    const implied = impliedEntries(outcome, entries);
    const asked = askAbout(outcome, entries, this.now).filter(({ doubts }) => doubts.length > 0);
    const label = stepWords(step);
    const refused = asked.some(({ doubts }) => !canBeTaken(doubts));
    const asking = { label, implied, asked, entries, refused };
    if (implied.length > 0 || asked.length > 0) this.asking = asking;
    else this.#write(asking);
  }

  confirm(): void {
    const { asking } = this;
    this.asking = null;
    if (asking && !asking.refused) this.#write(asking);
  }

  #write({ label, implied, entries }: Asking): void {
    const { outcome } = this.#planner;
    if (!outcome) return;
    const inForce = recordsInForce(outcome.detail.build);
    const all = [...implied, ...entries];
    const counter = all.map((entry) => counterEntry(entry, inForce.get(entry.stage) ?? null));
    const before = this.stamped;
    this.#put(all, label, [...before, { label, counter }]);
  }

  #takeBack(): void {
    this.#settle();
    const planner = this.#planner;
    const last = this.stamped.at(-1) ?? lastOf(planner.document as Build);
    if (!last) return;
    const label = `${BENCH_WORDS.takenBack}: ${last.label}`;
    this.#put(last.counter, label, this.stamped.slice(0, -1));
  }

  /** Shows a stamp at once, and writes it down and plans it as soon as that is on the screen. */
  #put(entries: readonly FloorEntry[], label: string, stamped: readonly Stamped[]): void {
    const planner = this.#planner;
    const before = this.stamped;
    this.ahead = planner.outcome && withStamps(planner.outcome, entries);
    this.stamped = stamped;
    this.picked = null;
    this.#waiting = () => {
      this.#waiting = null;
      const faults = planner.apply(writeRecords(planner.document, entries, label));
      if (faults.length > 0) this.stamped = before;
      this.ahead = null;
      this.tick();
    };
    afterPaint(() => this.#settle());
  }

  #settle(): void {
    this.#waiting?.();
  }

  close(): void {
    this.up();
    this.#settle();
    this.#speaker.close();
    this.#notifier.tell([], [], this.nowMs);
    void this.#awake.set(false);
  }
}

/** A page that is hidden paints nothing: it waits no longer than this, ms. */
const PAINT_AT_LATEST_MS = 60;

/** Runs something once what has changed is on the screen. */
function afterPaint(run: () => void): void {
  let done = false;
  const once = () => {
    if (done) return;
    done = true;
    run();
  };
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, PAINT_AT_LATEST_MS);
}

/** The newest record of a build as a stamp, for a view that has stamped nothing itself. */
function lastOf({ records = [] }: Pick<Build, 'records'>): Stamped | null {
  const last = records.at(-1);
  if (!last || last.takenBack) return null;
  const before = records.slice(0, -1).findLast(({ stage }) => stage === last.stage);
  const held = before && !before.takenBack ? before : null;
  return { label: last.stage, counter: [counterEntry(last, held)] };
}
