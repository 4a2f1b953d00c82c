/** Ways out on the wall: the best two of each stop and warning, and never for a side more. */
import { describe, expect, it } from 'vitest';
import type { Finding, Lever } from '../../../app/document/schema.ts';
import { wayOutInShort } from '../../../app/messages/levers.ts';
import type { PlanOutcome } from '../../../app/plan/outcome.ts';
import type { Paper } from '../../../app/shop/flow/paper.ts';
import { paperwork } from '../../../app/shop/sheets.ts';
import { textOf } from '../../../app/shop/tree.ts';
import { handMadeOutcome } from './outcome.ts';

const ROUTE = ['Outer skin', 'Core bond'];
const NOW = { fits: false, lateMinutes: 240, stops: 1, route: ROUTE, cost: 700 };
const way = (label: string, cost: number, changes: Partial<Lever> = {}): Lever => ({
  id: label,
  label,
  hoursGained: 7,
  cost,
  sideEffects: ['Overtime; tired hands mix badly.'],
  clears: ['date-missed'],
  before: NOW,
  after: { fits: true, lateMinutes: -180, stops: 0, route: ROUTE, cost: 700 + cost },
  ...changes,
});
const SATURDAYS = way('Work Saturdays 08:00 to 13:00', 9000);
const NIGHTS = way('Hold 19 °C through the night', 1200, {
  hoursGained: 0,
  after: { ...NOW, stops: 0, lateMinutes: 60, route: ['Outer skin with core bond'] },
});
const finding = (
  code: string,
  severity: Finding['severity'],
  message: string,
  levers: readonly Lever[],
): Finding => ({ code, severity, stage: null, message, numbers: {}, levers: [...levers] });
const LATE = finding('date-missed', 'stop', 'The end comes 4 h late.', [
  SATURDAYS,
  NIGHTS,
  way('Make less of it', 0),
]);
const STALE = finding('bond-window-missed', 'warn', 'The surface goes stale.', [NIGHTS]);

function saying(...findings: readonly Finding[]): PlanOutcome {
  const outcome = handMadeOutcome();
  return { ...outcome, result: { ...outcome.result, fits: false, findings: [...findings] } };
}
const without = (findings: readonly Finding[]): Finding[] =>
  findings.map((one) => ({ ...one, levers: [] }));
const wallOf = (outcome: PlanOutcome, paper: Paper = 'a4'): string =>
  paperwork(outcome, { paper, kind: 'week' })
    .packs.flatMap(({ sheets }) => sheets.map(({ body }) => textOf(body)))
    .join('\n');
const sidesOf = (...findings: readonly Finding[]): number[] =>
  (['a4', 'letter'] as const).map(
    (paper) => paperwork(saying(...findings), { paper, kind: 'week' }).sides,
  );

/** What the heading says of those that are not there: the planner has three for the stop. */
const LEFT_OFF = {
  all: 'In time, but not to be built so (more ways out stand in the planner, under Findings)',
  stops:
    'In time, but not to be built so (more ways out, and those of warnings, stand in the planner, under Findings)',
  none: 'In time, but not to be built so (no room here for ways out: they stand in the planner, under Findings)',
} as const;

describe('ways out on the wall', () => {
  it('are the best two, with what they cost, now and then, in a line each', () => {
    const wall = wallOf(saying(LATE));
    expect(wall).toContain(
      'Way out: Work Saturdays 08:00 to 13:00: gains 7 h, costs €90. ' +
        'Now: 4 h late, one stop. Then: fits, 3 h to spare.',
    );
    expect(wall).toContain(
      'Way out: Hold 19 °C through the night: gains no time, costs €12. ' +
        'Now: 4 h late, one stop. Then: 1 h late; Outer skin with core bond.',
    );
    expect(wall).not.toContain('Make less of it');
    expect(wall).not.toContain('tired hands');
    expect(wall).toContain(LEFT_OFF.all);
    expect(wallOf(saying({ ...LATE, levers: [SATURDAYS] }))).not.toContain('under Findings');
  });

  it('stand under warnings as well, by name alone where they are said above', () => {
    const wall = wallOf(saying(LATE, STALE));
    expect(wall).toMatch(
      /The surface goes stale\.\s*Way out: Hold 19 °C through the night, as above/,
    );
    expect(wallOf(saying(STALE), 'letter')).toContain(`Way out: ${wayOutInShort(NIGHTS, 'EUR')}`);
    expect(wallOf(saying(...without([STALE])))).not.toContain('goes stale');
  });

  it('of a forced merge belong to another route and stay off the wall', () => {
    expect(wallOf(saying({ ...STALE, code: 'merge-forced' }))).not.toContain('goes stale');
  });

  it('take no side more: those of warnings give way first, then all', () => {
    const told = { all: 0, stops: 0, none: 0 };
    const stale = [1, 2, 3].map((i) => ({
      ...STALE,
      message: `Surface ${i} goes stale. `.repeat(9),
    }));
    for (let many = 0; many < 8; many++) {
      const others = Array.from({ length: many }, (_, i) =>
        finding('slot-missed', 'stop', `Slot ${i} is missed.`, []),
      );
      const findings = [...others, LATE, ...stale];
      expect(sidesOf(...findings), `${many}`).toEqual(sidesOf(...without(findings)));
      const wall = wallOf(saying(...findings), 'letter');
      const isTold = wall.includes('Way out: Work Saturdays');
      const kind = !isTold ? 'none' : wall.includes('Surface 1 goes stale') ? 'all' : 'stops';
      expect(wall, `${many}: ${kind}`).toContain(LEFT_OFF[kind]);
      told[kind] += 1;
    }
    const kinds = Object.entries(told).filter(([, count]) => count > 0);
    expect(kinds.map(([kind]) => kind)).toEqual(['all', 'stops', 'none']);
  });
});
