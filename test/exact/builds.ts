/**
 * Generated small builds as plain data, so that another solver can read them: whole slots of 30
 * minutes, in which every calendar, length and lag is given; cures round up to a slot.
 */
import type { AirKind } from '../../app/document/schema.ts';
import type { Length, Mode, Problem } from '../../app/schedule/problem.ts';
import { seededRandom, type Random } from '../../app/schedule/random.ts';

export const SLOT_MINUTES = 30;
const SLOTS_PER_DAY = 48;
const DAYS = 9;
/** A Monday in minutes of Unix UTC. */
export const BASE_MINUTE = Date.UTC(2027, 3, 19) / 60_000;

export interface SlotMode {
  readonly id: string;
  readonly uses: readonly (readonly [resource: string, amount: number])[];
  /** Open slots as [from, to); null: at any time. */
  readonly calendar: string | null;
  readonly kind: 'elapsed' | 'work' | 'unbroken' | 'cure';
  /** Length in slots, or for a cure the dose. */
  readonly amount: number;
  readonly repair: boolean;
  readonly overtime: number;
}

export interface SlotRelation {
  readonly type: 'at-least' | 'at-most';
  readonly from: string;
  readonly anchor: 'start' | 'end';
  readonly to: string;
  readonly lag: number;
  readonly onlyIf: readonly [stage: string, mode: string] | null;
}

export interface SlotBuild {
  readonly seed: number;
  readonly due: number;
  readonly horizon: number;
  readonly settle: number;
  readonly calendars: Readonly<Record<string, readonly (readonly [number, number])[]>>;
  readonly resources: readonly (readonly [id: string, capacity: number])[];
  readonly stages: readonly {
    readonly id: string;
    readonly air: AirKind | null;
    readonly release: number;
    readonly due: number | null;
    readonly modes: readonly SlotMode[];
  }[];
  readonly relations: readonly SlotRelation[];
  readonly holds: readonly (readonly [resource: string, from: string, to: string])[];
}

/** Dose in a slot of the day: warm from 07:00 to 19:00. */
export const doseRate = (slotOfDay: number): number => (slotOfDay >= 14 && slotOfDay < 38 ? 3 : 2);

/** Slot in which a cure begun at the beginning of a slot is done. */
export function cureEnd(start: number, dose: number): number {
  let reached = 0;
  let slot = start;
  while (reached < dose)
    reached += doseRate(((slot++ % SLOTS_PER_DAY) + SLOTS_PER_DAY) % SLOTS_PER_DAY);
  return slot;
}

type Spans = readonly (readonly [number, number])[];

function shift(spans: Spans, weekend: boolean): Spans {
  return Array.from({ length: DAYS }, (_, day) => day)
    .filter((day) => weekend || day % 7 < 5)
    .flatMap((day) =>
      spans.map(([a, b]) => [a + day * SLOTS_PER_DAY, b + day * SLOTS_PER_DAY] as const),
    );
}

function modesOf(random: Random): SlotMode[] {
  const pick = random.below(10);
  const base = { repair: false, overtime: 0 };
  if (pick < 3) {
    const uses = random.below(2) ? ([['port', 1]] as const) : [];
    const amount = 20 + random.below(80);
    return [{ id: 'cure', uses, calendar: null, kind: 'cure', amount, ...base }];
  }
  const kind = pick < 6 ? 'unbroken' : 'work';
  const amount = kind === 'unbroken' ? 1 + random.below(7) : 1 + random.below(14);
  const one = (who: string): SlotMode => ({
    id: who,
    uses: [[who, 1]],
    calendar: who,
    kind,
    amount,
    ...base,
  });
  const both: SlotMode = {
    id: 'both',
    uses: [
      ['ann', 1],
      ['bo', 1],
    ],
    calendar: 'both',
    kind,
    amount: Math.ceil(amount / 2),
    ...base,
  };
  const late: SlotMode = {
    ...one('ann'),
    id: 'late',
    calendar: 'late',
    overtime: amount * SLOT_MINUTES,
  };
  return [
    [one('ann')],
    [one('ann'), one('bo')],
    [both],
    [one('ann'), one('bo'), both],
    [one('ann'), late],
  ][random.below(5)]!;
}

const AIR: readonly (AirKind | null)[] = ['dust', 'wet', 'spray', null, null, null];

/** The build of a seed; the same seed gives the same build. */
export function makeBuild(seed: number): SlotBuild {
  const random = seededRandom(seed * 7919 + 13);
  const count = 4 + random.below(9);
  const weekend = random.below(3) === 0;
  const day: Spans = [
    [16, 24],
    [25, 33],
  ];
  const stages = Array.from({ length: count }, (_, i) => {
    const modes = modesOf(random);
    const handsOn = modes[0]!.kind !== 'cure';
    return {
      id: `s${i}`,
      air: handsOn ? AIR[random.below(AIR.length)]! : null,
      release: random.below(6) === 0 ? random.below(60) : 0,
      due: random.below(10) === 0 ? 100 + random.below(200) : null,
      modes,
    };
  });
  const relations: SlotRelation[] = [];
  for (let i = 1; i < count; i++) {
    const links = 1 + random.below(2);
    for (let k = 0; k < links; k++) {
      const from = `s${Math.max(0, i - 1 - random.below(k === 0 ? 2 : 4))}`;
      const base = { from, to: `s${i}`, onlyIf: null };
      const lag = random.below(4) === 0 ? random.below(20) : 0;
      relations.push({ type: 'at-least', anchor: 'end', lag, ...base });
      if (k === 0 && random.below(4) === 0) {
        const anchor = random.below(2) ? windowAnchor(stages, from) : 'start';
        relations.push({ type: 'at-most', anchor, lag: 40 + random.below(160), ...base });
      }
    }
  }
  if (random.below(3) === 0) addRepair(stages, relations, random);
  return {
    seed,
    due: 60 + random.below(260),
    horizon: DAYS * SLOTS_PER_DAY,
    settle: random.below(2) * 2,
    calendars: {
      ann: shift(day, weekend),
      bo: shift([[18, 30]], weekend),
      both: shift(
        [
          [18, 24],
          [25, 30],
        ],
        weekend,
      ),
      late: shift(
        [
          [16, 24],
          [25, 40],
        ],
        weekend,
      ),
    },
    resources: [
      ['ann', 1],
      ['bo', 1],
      ['port', 1],
      ['mould', 1],
    ],
    stages,
    relations,
    holds: random.below(2) ? [['mould', 's0', `s${Math.min(3, count - 1)}`]] : [],
  };
}

type Stages = SlotBuild['stages'][number][];

/**
 * Work that pauses may end a minute after opening; only in slots it cannot. A window after it is
 * counted from its start, so that whole slots hold the best plan.
 */
function windowAnchor(stages: Stages, id: string): 'start' | 'end' {
  const { modes } = stages.find((stage) => stage.id === id)!;
  return modes.some((mode) => mode.kind === 'work') ? 'start' : 'end';
}

/** A window from the first stage to the last that lapses where the mend is done instead. */
function addRepair(stages: Stages, relations: SlotRelation[], random: Random): void {
  const last = stages[stages.length - 1]!.id;
  const nothing = { uses: [], calendar: null, amount: 0, overtime: 0 } as const;
  stages.push({
    id: 'mend',
    air: null,
    release: 0,
    due: null,
    modes: [
      { id: 'none', kind: 'elapsed', repair: false, ...nothing },
      {
        id: 'abrade',
        uses: [['ann', 1]],
        calendar: 'ann',
        kind: 'unbroken',
        amount: 2,
        repair: true,
        overtime: 0,
      },
    ],
  });
  const link = (from: string, to: string): SlotRelation => ({
    type: 'at-least',
    from,
    anchor: 'end',
    to,
    lag: 0,
    onlyIf: null,
  });
  relations.push(link('s0', 'mend'), link('mend', last), {
    type: 'at-most',
    from: 's0',
    anchor: windowAnchor(stages, 's0'),
    to: last,
    lag: 20 + random.below(150),
    onlyIf: ['mend', 'none'],
  });
}

const minuteOf = (slot: number): number => BASE_MINUTE + slot * SLOT_MINUTES;
const slotUp = (minute: number): number => Math.ceil((minute - BASE_MINUTE) / SLOT_MINUTES);

function lengthOf(mode: SlotMode): Length {
  if (mode.kind === 'elapsed') return { kind: 'elapsed', minutes: mode.amount * SLOT_MINUTES };
  if (mode.kind !== 'cure') {
    const unbroken = mode.kind === 'unbroken';
    return { kind: 'work', minutes: mode.amount * SLOT_MINUTES, unbroken };
  }
  const endOf = (start: number): number => minuteOf(cureEnd(slotUp(start), mode.amount));
  return {
    kind: 'function',
    endOf,
    latestStart: (end) => {
      let start = minuteOf(Math.floor((end - BASE_MINUTE) / SLOT_MINUTES));
      while (endOf(start) > end) start -= SLOT_MINUTES;
      return start;
    },
  };
}

/** The same build as the planner's problem. */
export function problemOfBuild(build: SlotBuild): Problem {
  const calendars = Object.fromEntries(
    Object.entries(build.calendars).map(([name, spans]) => [
      name,
      spans.map(([a, b]) => ({ start: minuteOf(a), end: minuteOf(b) })),
    ]),
  );
  const modeOf = (mode: SlotMode): Mode => ({
    id: mode.id,
    uses: mode.uses.map(([resource, amount]) => ({ resource, amount })),
    calendar: mode.calendar === null ? null : calendars[mode.calendar]!,
    length: lengthOf(mode),
    repair: mode.repair,
    overtimeMinutes: mode.overtime,
  });
  return {
    from: minuteOf(0),
    due: minuteOf(build.due),
    horizon: minuteOf(build.horizon),
    resources: build.resources.map(([id, capacity]) => ({ id, name: id, capacity })),
    stages: build.stages.map((stage) => ({
      id: stage.id,
      name: stage.id,
      kind: 'own',
      cure: null,
      modes: stage.modes.map(modeOf),
      release: minuteOf(stage.release),
      due: stage.due === null ? null : minuteOf(stage.due),
      fixedStart: null,
      fixedEnd: null,
      air: stage.air,
      perishable: false,
    })),
    relations: build.relations.map((r) => ({
      type: r.type,
      from: r.from,
      anchor: r.anchor,
      to: r.to,
      lag: r.lag * SLOT_MINUTES,
      ...(r.onlyIf ? { onlyIf: { stage: r.onlyIf[0], mode: r.onlyIf[1] } } : {}),
      why: 'own-order',
    })),
    airSettleMinutes: build.settle * SLOT_MINUTES,
    holds: build.holds.map(([resource, from, to]) => ({ resource, amount: 1, from, to })),
  };
}
