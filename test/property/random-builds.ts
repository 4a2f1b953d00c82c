/** Random small builds for property tests: chains with side branches, crews, cures, windows, air. */
import fc from 'fast-check';
import type { AirKind } from '../../app/document/schema.ts';
import type {
  Hold,
  Length,
  Mode,
  Problem,
  Relation,
  StageSpec,
} from '../../app/schedule/problem.ts';
import type { Calendar } from '../../app/time/instant.ts';

export const BASE = 30_000_000 - (30_000_000 % 1440);
const DAYS = 40;

/** Same hours every working day, with a break; a seven-day week leaves the last two days out. */
function shiftCalendar(opens: number, breakAt: number, closes: number, weekend: boolean): Calendar {
  const out: { start: number; end: number }[] = [];
  for (let day = 0; day < DAYS; day++) {
    if (!weekend && day % 7 >= 5) continue;
    const at = BASE + day * 1440;
    out.push({ start: at + opens, end: at + breakAt });
    out.push({ start: at + breakAt + 30, end: at + closes });
  }
  return out;
}

/** A cure whose rate is higher by day: end(start) is the first minute with enough dose. */
export function cureLength(doseMinutes: number): Length {
  const doseAt = (minute: number): number => {
    const whole = Math.floor((minute - BASE) / 1440);
    const rest = minute - BASE - whole * 1440;
    return whole * 960 * 1 + whole * 480 * 2 + Math.min(rest, 480) * 2 + Math.max(0, rest - 480);
  };
  const solve = (dose: number): number => {
    let low = BASE - 10 * 1440;
    let high = BASE + 200 * 1440;
    while (low < high) {
      const middle = Math.floor((low + high) / 2);
      if (doseAt(middle) >= dose) high = middle;
      else low = middle + 1;
    }
    return low;
  };
  return {
    kind: 'function',
    endOf: (start) => solve(doseAt(start) + doseMinutes),
    latestStart: (end) => {
      let low = end - 3 * doseMinutes - 1;
      let high = end;
      while (low < high) {
        const middle = Math.ceil((low + high) / 2);
        if (solve(doseAt(middle) + doseMinutes) <= end) low = middle;
        else high = middle - 1;
      }
      return low;
    },
  };
}

interface Draw {
  readonly kind: number;
  readonly minutes: number;
  readonly people: number;
  readonly link: number;
  readonly lag: number;
  readonly window: number;
  readonly air: number;
  readonly perishable: boolean;
}

const draw: fc.Arbitrary<Draw> = fc.record({
  kind: fc.integer({ min: 0, max: 9 }),
  minutes: fc.integer({ min: 1, max: 16 }),
  people: fc.integer({ min: 0, max: 3 }),
  link: fc.integer({ min: 0, max: 5 }),
  lag: fc.integer({ min: 0, max: 5 }),
  window: fc.integer({ min: 0, max: 9 }),
  air: fc.integer({ min: 0, max: 9 }),
  perishable: fc.boolean(),
});

const AIR: readonly (AirKind | null)[] = ['dust', 'wet', 'release', 'spray', null, null];

function modesOf(d: Draw, a: Calendar, b: Calendar, both: Calendar): Mode[] {
  if (d.kind >= 8) {
    const uses = d.kind === 8 ? [{ resource: 'ports', amount: 1 }] : [];
    return [{ id: 'cure', uses, calendar: null, length: cureLength(d.minutes * 60) }];
  }
  if (d.kind === 7) {
    return [
      {
        id: 'wait',
        uses: [],
        calendar: null,
        length: { kind: 'elapsed', minutes: d.minutes * 45 },
      },
    ];
  }
  const unbroken = d.kind < 3;
  const minutes = unbroken ? Math.min(d.minutes * 15, 210) : d.minutes * 30;
  const one = (id: string, calendar: Calendar): Mode => ({
    id,
    uses: [{ resource: id, amount: 1 }],
    calendar,
    length: { kind: 'work', minutes, unbroken },
  });
  const pair: Mode = {
    id: 'both',
    uses: [
      { resource: 'ann', amount: 1 },
      { resource: 'bo', amount: 1 },
    ],
    calendar: both,
    length: { kind: 'work', minutes: Math.ceil(minutes / 2), unbroken },
  };
  return [
    [one('ann', a)],
    [one('ann', a), one('bo', b)],
    [pair],
    [one('ann', a), one('bo', b), pair],
  ][d.people]!;
}

function relationsOf(draws: readonly Draw[]): Relation[] {
  const out: Relation[] = [];
  draws.forEach((d, i) => {
    if (i === 0) return;
    const from = d.link < 4 ? i - 1 : Math.max(0, i - d.link);
    out.push({
      type: 'at-least',
      from: `s${from}`,
      anchor: 'end',
      to: `s${i}`,
      lag: d.lag === 5 ? 240 : 0,
      why: 'own-order',
    });
    if (d.window >= 8) {
      out.push({
        type: 'at-most',
        from: `s${from}`,
        anchor: d.window === 8 ? 'end' : 'start',
        to: `s${i}`,
        lag: d.window === 8 ? 1800 : 6000,
        why: 'own-order',
      });
    }
  });
  return out;
}

/** A stage that mends a missed window: its first mode costs nothing and holds the window. */
function addRepair(stages: StageSpec[], relations: Relation[], base: StageSpec, a: Calendar): void {
  const last = stages[stages.length - 1]!;
  stages.push({
    ...base,
    id: 'mend',
    name: 'mend',
    modes: [
      { id: 'none', uses: [], calendar: null, length: { kind: 'elapsed', minutes: 0 } },
      {
        id: 'abrade',
        uses: [{ resource: 'ann', amount: 1 }],
        calendar: a,
        length: { kind: 'work', minutes: 45, unbroken: true },
      },
    ],
    fixedStart: null,
    fixedEnd: null,
    air: null,
    perishable: false,
  });
  relations.push(
    { type: 'at-least', from: 's0', anchor: 'end', to: 'mend', lag: 0, why: 'own-order' },
    { type: 'at-least', from: 'mend', anchor: 'end', to: last.id, lag: 0, why: 'own-order' },
    {
      type: 'at-most',
      from: 's0',
      anchor: 'end',
      to: last.id,
      lag: 1440,
      onlyIf: { stage: 'mend', mode: 'none' },
      why: 'own-order',
    },
  );
}

/** What is recorded lies before the plan begins; one later stage may be pinned by hand. */
function fixedOf(i: number, shape: { begun: number; pinned: number }) {
  if (i < shape.begun - 1) {
    const start = BASE - 900 + i * 300;
    return { fixedStart: start, fixedEnd: start + 240 };
  }
  const pinned = shape.pinned === i && i >= shape.begun;
  return { fixedStart: pinned ? BASE + (i + 1) * 1440 + 600 : null, fixedEnd: null };
}

export interface BuildShape {
  readonly minStages: number;
  readonly maxStages: number;
}

/** A random build; every one of them has a plan within its horizon unless its windows forbid it. */
export function randomBuild({ minStages, maxStages }: BuildShape): fc.Arbitrary<Problem> {
  return fc
    .record({
      draws: fc.array(draw, { minLength: minStages, maxLength: maxStages }),
      opens: fc.integer({ min: 6, max: 9 }),
      weekend: fc.boolean(),
      ports: fc.integer({ min: 1, max: 2 }),
      slack: fc.integer({ min: 3, max: 20 }),
      settle: fc.constantFrom(0, 60),
      hold: fc.boolean(),
      repair: fc.boolean(),
      begun: fc.integer({ min: 0, max: 3 }),
      pinned: fc.integer({ min: 0, max: 60 }),
      released: fc.integer({ min: 0, max: 30 }),
    })
    .map((shape) => {
      const { draws, opens, weekend, ports, slack, settle, hold, repair } = shape;
      const a = shiftCalendar(opens * 60, 720, 990, weekend);
      const b = shiftCalendar(480, 750, 1020, weekend);
      const both = a.flatMap((x) =>
        b.flatMap((y) => {
          const start = Math.max(x.start, y.start);
          const end = Math.min(x.end, y.end);
          return start < end ? [{ start, end }] : [];
        }),
      );
      const stages = draws.map((d, i): StageSpec => ({
        id: `s${i}`,
        name: `Stage ${i}`,
        kind: 'own',
        cure: null,
        modes: modesOf(d, a, b, both).map((mode, m) =>
          i % 3 === 0 && m === 0 ? { ...mode, keepsAirClean: true } : mode,
        ),
        release: shape.released === i ? BASE + 2 * 1440 + 600 : null,
        due: shape.released === i + 1 ? BASE + 8 * 1440 : null,
        ...fixedOf(i, shape),
        air: d.kind < 7 ? (AIR[d.air] ?? null) : null,
        perishable: d.perishable && d.kind < 7,
      }));
      const relations = relationsOf(draws);
      if (repair && stages.length > 2) addRepair(stages, relations, stages[0]!, a);
      const holds: Hold[] =
        hold && stages.length > 3
          ? [{ resource: 'mould', amount: 1, from: 's0', to: `s${Math.min(3, draws.length - 1)}` }]
          : [];
      return {
        from: BASE,
        due: BASE + slack * 1440 + 960,
        horizon: BASE + DAYS * 1440,
        resources: [
          { id: 'ann', name: 'Ann', capacity: 1 },
          { id: 'bo', name: 'Bo', capacity: 1 },
          { id: 'ports', name: 'Pump ports', capacity: ports },
          { id: 'mould', name: 'Mould', capacity: 1 },
        ],
        stages,
        relations,
        airSettleMinutes: settle,
        holds,
      };
    });
}
