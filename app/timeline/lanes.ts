/** Under the part, the shop: who works when, what is taken, what is in the air, how warm the room is. */
import { resourceId } from '../document/ids.ts';
import type { StageKind } from '../document/schema.ts';
import type { PlanOutcome } from '../plan/outcome.ts';
import { sheetDataOf, type PlacedStage, type SheetData } from '../shop/sheetData.ts';
import { unite } from '../time/calendar.ts';
import type { Interval } from '../time/instant.ts';
import { dayAt } from './clockWords.ts';
import { exact } from '../units/words.ts';

/** A stretch of a lane with what it is there for. */
export interface Use extends Interval {
  readonly look: 'hands' | 'taken' | 'dust' | 'wet' | 'release' | 'spray';
  readonly words: string;
}

export interface Lane {
  readonly id: string;
  readonly name: string;
  /** Right of the name: hours, when it is free again. */
  readonly note: string;
  readonly uses: readonly Use[];
  /** When the person is there; null: no person. */
  readonly hours: readonly Interval[] | null;
}

/** A lane for each person with work, for gear that is taken and for the room's air. */
export function lanesOf(outcome: PlanOutcome): Lane[] {
  const facts = sheetDataOf(outcome);
  const people = facts.build.crew.map(({ id, name }) => personLane(facts, id ?? name, name));
  const gear = GEAR.map(({ id, name }) => gearLane(facts, id, name));
  return [...people, ...gear, airLane(facts)].filter(
    ({ uses, hours }) => uses.length > 0 || hours !== null,
  );
}

function personLane(facts: SheetData, id: string, name: string): Lane {
  const own = facts.placed.filter(({ stage }) => stage.people.includes(id));
  const uses = own.flatMap((placed) =>
    placed.hands.map((hand): Use => ({ ...hand, look: 'hands', words: placed.stage.name })),
  );
  const minutes = uses.reduce((sum, use) => sum + use.end - use.start, 0);
  return {
    id: resourceId({ kind: 'person', person: id }),
    name,
    note: `${Math.round(minutes / 60)} h`,
    uses,
    hours: facts.detail.personHours[id] ?? [],
  };
}

const GEAR = [
  { id: 'mould', name: 'Mould' },
  { id: 'pump', name: 'Pump' },
  { id: 'tent', name: 'Tent' },
] as const;

function gearLane(facts: SheetData, id: string, name: string): Lane {
  const own = facts.placed.filter(({ stage }) => stage.gear.includes(id));
  const taken = id === 'mould' ? mouldHeld(facts, own) : together(own);
  const last = taken.at(-1)?.end;
  return {
    ...{ id, name, hours: null },
    note: last === undefined ? '' : `free ${dayAt(last, facts.zone).replace(/ \w+$/, '')}`,
    uses: taken.map((span) => ({ ...span, look: 'taken', words: namesIn(own, span) })),
  };
}

/** From the first work on it until the part has left it: between its cures nobody else has it. */
function mouldHeld(facts: SheetData, own: readonly PlacedStage[]): readonly Interval[] {
  const on = facts.placed.filter(({ stage }) => ON_MOULD.has(stage.kind));
  const all = [...own, ...on];
  if (own.length === 0) return [];
  return [
    {
      start: Math.min(...all.map(({ start }) => start)),
      end: Math.max(...all.map(({ end }) => end)),
    },
  ];
}
const ON_MOULD: ReadonlySet<StageKind> = new Set([
  ...(['mould', 'seal', 'bag-test', 'release', 'mould-heat', 'demould'] as const),
]);

const together = (placed: readonly PlacedStage[]): readonly Interval[] =>
  placed.reduce<readonly Interval[]>((all, { start, end }) => unite(all, [{ start, end }]), []);

const namesIn = (placed: readonly PlacedStage[], { start, end }: Interval): string =>
  placed
    .filter((one) => one.start >= start && one.end <= end)
    .map(({ stage }) => stage.name)
    .join(', ');

/** What a stage does to the air of the room; kinds exclude each other. */
function airLane(facts: SheetData): Lane {
  const air = facts.detail.shown?.air ?? {};
  const uses = facts.placed.flatMap(({ stage, start, end, hands }): Use[] => {
    const look = air[stage.id];
    if (!look) return [];
    const spans = hands.length > 0 ? hands : [{ start, end }];
    return spans.map((span) => ({ ...span, look, words: `${AIR_WORDS[look]}: ${stage.name}` }));
  });
  return { id: 'air', name: 'Air', note: 'dust, wet, spray', uses, hours: null };
}

export const AIR_WORDS = {
  dust: 'dust',
  wet: 'open resin',
  release: 'release',
  spray: 'spray',
} as const;

/** The room's temperature as steps, with the least that a hardener stands. */
export interface RoomLane {
  readonly steps: readonly (Interval & { readonly temperatureC: number })[];
  readonly leastC: number | null;
  readonly lowC: number;
  readonly highC: number;
  /** `night 16 to day 21 °C, least 15 °C` */
  readonly note: string;
}

export function roomLane({ detail }: PlanOutcome, world: Interval): RoomLane | null {
  const steps = detail.air.filter(({ start, end }) => end > world.start && start < world.end);
  if (steps.length === 0) return null;
  const used = new Set(Object.values(detail.cures).map(({ hardener }) => hardener));
  const leasts = detail.library.resins
    .find(({ id }) => id === detail.build.resin.system)
    ?.hardeners.filter(({ id }) => used.has(id))
    .map(({ minimumC }) => minimumC);
  const leastC = leasts && leasts.length > 0 ? Math.max(...leasts) : null;
  const all = steps.map(({ temperatureC }) => temperatureC);
  const [lowC, highC] = [Math.min(...all), Math.max(...all)];
  const range =
    lowC === highC ? exact(round(lowC)) : `${exact(round(lowC))} to ${exact(round(highC))}`;
  const least = leastC === null ? '' : `, least ${exact(round(leastC))}`;
  return { steps, leastC, lowC, highC, note: `${range}${least} °C` };
}

const round = (celsius: number): number => Math.round(celsius);
