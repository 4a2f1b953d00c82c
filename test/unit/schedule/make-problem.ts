/** Short ways to write a small scheduling problem in a test. */
import type { Mode, Problem, Relation, StageSpec } from '../../../app/schedule/problem.ts';
import type { Calendar } from '../../../app/time/instant.ts';

/** A Monday, 00:00 UTC. */
export const MONDAY = Date.UTC(2027, 3, 19) / 60_000;
export const hour = (day: number, hours: number): number => MONDAY + day * 1440 + hours * 60;

/** 08:00 to 16:00, Monday to Friday, for some weeks. */
export const SHIFT: Calendar = Array.from({ length: 28 }, (_, day) => day)
  .filter((day) => day % 7 < 5)
  .map((day) => ({ start: hour(day, 8), end: hour(day, 16) }));

export const work = (hours: number, who = 'ann', unbroken = false): Mode => ({
  id: who,
  uses: [{ resource: who, amount: 1 }],
  calendar: SHIFT,
  length: { kind: 'work', minutes: hours * 60, unbroken },
});

export const wait = (hours: number, uses: Mode['uses'] = []): Mode => ({
  id: 'wait',
  uses,
  calendar: null,
  length: { kind: 'elapsed', minutes: hours * 60 },
});

export const stage = (id: string, modes: Mode[], more: Partial<StageSpec> = {}): StageSpec => ({
  id,
  name: id,
  kind: 'own',
  cure: null,
  modes,
  release: null,
  due: null,
  fixedStart: null,
  fixedEnd: null,
  air: null,
  perishable: false,
  ...more,
});

export const after = (from: string, to: string, hours = 0): Relation => ({
  type: 'at-least',
  from,
  anchor: 'end',
  to,
  lag: hours * 60,
  why: 'own-order',
});

export const within = (from: string, to: string, hours: number): Relation => ({
  type: 'at-most',
  from,
  anchor: 'end',
  to,
  lag: hours * 60,
  why: 'own-order',
});

export const problem = (
  stages: StageSpec[],
  relations: Relation[] = [],
  more: Partial<Problem> = {},
): Problem => ({
  from: hour(0, 8),
  due: hour(18, 18),
  horizon: hour(28, 0),
  resources: [
    { id: 'ann', name: 'Ann', capacity: 1 },
    { id: 'bo', name: 'Bo', capacity: 1 },
    { id: 'port', name: 'Pump port', capacity: 1 },
  ],
  stages,
  relations,
  airSettleMinutes: 60,
  ...more,
});
