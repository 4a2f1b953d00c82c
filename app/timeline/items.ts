/** What the timeline shows of a plan, before any pixel: lanes, items, marks. */
import type { StageKind, StageResult } from '../document/schema.ts';
import type { PlanOutcome } from '../plan/outcome.ts';
import type { Interval, Minute } from '../time/instant.ts';
import {
  sheetDataOf,
  milestonesOf,
  minuteOf,
  type CureSheetData,
  type MomentKey,
  type SheetData,
  type PlacedStage,
} from '../shop/sheetData.ts';
import { floatWords } from '../shop/words.ts';
import { routeItems } from './routes.ts';
import { spokenStage } from './spoken.ts';

export type ItemType = 'work' | 'cure' | 'wait' | 'outside' | 'end' | 'route';

/** A moment of a cure that has a shape of its own. */
export interface Mark {
  readonly id: string;
  readonly cure: string;
  readonly key: MomentKey;
  readonly label: string;
  readonly at: Minute;
  readonly iso: string;
}

export interface TimelineItem {
  readonly id: string;
  readonly type: ItemType;
  readonly kind: StageKind | null;
  /** Text beside the bar, float included. */
  readonly label: string;
  /** The same without the float, for where there is less room. */
  readonly short: string;
  /** Full name: what, where, start, end, float, state. */
  readonly spoken: string;
  readonly start: Minute;
  readonly end: Minute;
  /** Stretches drawn solid; the rest of the bar is a pause. */
  readonly stretches: readonly Interval[];
  readonly latestStart: Minute | null;
  readonly latestEnd: Minute | null;
  readonly floatHours: number | null;
  readonly critical: boolean;
  /** Short attendance that goes with a cure: its label is removed where others need the room. */
  readonly minor: boolean;
}

export interface Lane {
  readonly id: string;
  readonly name: string;
  readonly items: readonly TimelineItem[];
  readonly marks: readonly Mark[];
}

/**
 * Lanes from top to bottom: hands-on work, cures with their moments, waits and outside jobs, and
 * the closing times of the routes. Empty lanes are left out.
 */
export function lanesOf(outcome: PlanOutcome): Lane[] {
  const facts = sheetDataOf(outcome);
  const items = facts.placed.map((placed) => stageItem(facts, placed));
  const of = (...types: readonly ItemType[]) => items.filter((item) => types.includes(item.type));
  const lanes: Lane[] = [
    { id: 'work', name: 'Hands-on', items: of('work', 'end'), marks: [] },
    { id: 'cures', name: 'Cures', items: of('cure'), marks: facts.cures.flatMap(marksOf) },
    { id: 'else', name: 'Waits, outside', items: of('wait', 'outside'), marks: [] },
    { id: 'routes', name: 'Routes close', items: routeItems(facts), marks: [] },
  ];
  return lanes.filter((lane) => lane.items.length > 0);
}

function stageItem(facts: SheetData, { stage, start, end, hands }: PlacedStage): TimelineItem {
  const { type, minor } = LOOKS[stage.kind];
  return {
    id: stage.id,
    type: type ?? (hands.length > 0 ? 'work' : 'wait'),
    kind: stage.kind,
    ...labelsOf(facts, stage),
    spoken: spokenStage(facts, stage, hands.length),
    start,
    end,
    stretches: hands.length > 0 ? hands : [{ start, end }],
    latestStart: stage.latestStart === null ? null : minuteOf(stage.latestStart),
    latestEnd: stage.latestEnd === null ? null : minuteOf(stage.latestEnd),
    floatHours: stage.floatHours,
    critical: stage.critical,
    minor,
  };
}

interface Look {
  /** null: work where somebody's hands are on it, else a wait. */
  readonly type: ItemType | null;
  readonly minor: boolean;
}
const CURE: Look = { type: 'cure', minor: false };
const OUTSIDE: Look = { type: 'outside', minor: false };
const END: Look = { type: 'end', minor: false };
const BY_HANDS: Look = { type: null, minor: false };
const MINOR: Look = { type: null, minor: true };

const LOOKS: Readonly<Record<StageKind, Look>> = {
  'sign-off': BY_HANDS,
  order: BY_HANDS,
  arrival: BY_HANDS,
  machining: BY_HANDS,
  mould: BY_HANDS,
  seal: BY_HANDS,
  'bag-test': BY_HANDS,
  'test-panel': BY_HANDS,
  release: BY_HANDS,
  'resin-warm': BY_HANDS,
  'mould-heat': BY_HANDS,
  cutting: BY_HANDS,
  'core-fit': BY_HANDS,
  rehearsal: BY_HANDS,
  prepare: MINOR,
  layup: BY_HANDS,
  'watched-vacuum': MINOR,
  cure: CURE,
  'bag-off': MINOR,
  'tap-test': BY_HANDS,
  'heat-setup': BY_HANDS,
  'post-cure': CURE,
  'heat-takedown': BY_HANDS,
  demould: BY_HANDS,
  trim: BY_HANDS,
  closeout: BY_HANDS,
  'fit-check': BY_HANDS,
  fair: BY_HANDS,
  prime: BY_HANDS,
  wait: BY_HANDS,
  outside: OUTSIDE,
  hardware: BY_HANDS,
  'hand-over': END,
  own: BY_HANDS,
};

/** `▲ Lay up outer skin · no float`; the cures' lane says that they cure. */
function labelsOf(facts: SheetData, stage: StageResult): { label: string; short: string } {
  const cure = stage.kind === 'cure' ? facts.cures.find(({ id }) => id === stage.cure) : undefined;
  const short = `${stage.critical ? '▲ ' : ''}${cure?.name ?? stage.name}`;
  if (stage.floatHours === null) return { label: short, short };
  const float = stage.floatHours === 0 ? 'no float' : floatWords(stage.floatHours);
  return { label: `${short} · ${float}`, short };
}

/** Moments with a shape; first mix and full cure are said in words only. */
const IS_DRAWN: Readonly<Record<MomentKey, boolean>> = {
  firstMix: false,
  bagBy: true,
  openUntil: true,
  gel: true,
  gelLatest: true,
  debagFrom: true,
  demouldFrom: true,
  sandFrom: true,
  bondUntil: true,
  fullFrom: false,
};

function marksOf(cure: CureSheetData): Mark[] {
  if (!cure.row) return [];
  return milestonesOf(cure.row).flatMap(({ key, label, at }) =>
    at === null || !IS_DRAWN[key]
      ? []
      : [{ id: `${cure.id}:${key}`, cure: cure.id, key, label, at: minuteOf(at), iso: at }],
  );
}

/** Everything that must lie inside the drawing: items, their tails, now and the deadline. */
export function spansOf(outcome: PlanOutcome, lanes: readonly Lane[]): Interval[] {
  const { now, deadline } = outcome.detail;
  const items = lanes.flatMap((lane) => lane.items);
  return [
    { start: Math.min(now, deadline), end: Math.max(now, deadline) },
    ...items.map((item) => ({ start: item.start, end: item.end })),
  ];
}
