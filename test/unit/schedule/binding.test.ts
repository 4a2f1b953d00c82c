import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { judge } from '../../../app/answer/judgement.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { relationWords } from '../../../app/messages/relations.ts';
import { relationSlacks, explainStart, type Binding } from '../../../app/schedule/binding.ts';
import { violations } from '../../../app/schedule/check.ts';
import type { Mode, Placed, Problem } from '../../../app/schedule/problem.ts';
import { workBetween } from '../../../app/time/calendar.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, read } from '../../support/builds.ts';
import { after, hour, problem, stage, wait, within, work } from './make-problem.ts';

/** The taken route's problem and plan of a sample, at the first answer. */
function sample(name: string, now: string): { problem: Problem; placed: readonly Placed[] } {
  const answer = read(JSON.parse(readFileSync(`samples/${name}.build.json`, 'utf8')));
  if (!answer.ok) throw new Error(JSON.stringify(answer.faults));
  const context = contextOf(answer.document, library(), isoToMinute(now)!);
  const { taken } = judge(context, answer.document, library(), FIRST_ANSWER);
  return { problem: taken.network.problem, placed: taken.schedule.placed };
}

/** End by counting minutes: not the way the code under test does it. */
function endByCounting({ length, calendar }: Mode, start: number): number | null {
  if (length.kind === 'function') return length.endOf(start);
  if (length.kind === 'elapsed' || length.unbroken || !calendar) return start + length.minutes;
  for (let end = start; end <= start + 60 * 1440; end += 1) {
    if (workBetween(calendar, start, end) === length.minutes) return end;
  }
  return null;
}

/** What the checker says of the plan with one stage moved, that it does not say of the plan. */
function brokenByMoving(p: Problem, placed: readonly Placed[], id: string, start: number) {
  const spot = placed.find((one) => one.stage === id)!;
  const mode = p.stages.find((one) => one.id === id)!.modes.find((one) => one.id === spot.mode)!;
  const end = endByCounting(mode, start);
  if (end === null) return ['never ends'];
  const moved = placed.map((one) => (one.stage === id ? { ...one, start, end } : one));
  const known = violations(p, placed);
  return violations(p, moved).filter((line) => !known.includes(line));
}

/** The checker's sentence for a binding, as far as it names what binds. */
function sentenceOf(binding: Binding, id: string): RegExp {
  const plain = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  switch (binding.kind) {
    case 'now':
      return /starts before the plan does$/;
    case 'release':
      return /starts before its release$/;
    case 'hours':
      return /starts while nobody is in$|is broken by a pause$/;
    case 'start-window':
      return new RegExp(`starts against "${plain(relationWords(binding.why))}"$`);
    case 'never-ends':
      return /^never ends$/;
    case 'relation': {
      const { why, from, to } = binding.relation;
      return new RegExp(
        `^"${plain(relationWords(why))}" is broken between ${plain(from)} and ${plain(to)}$`,
      );
    }
    case 'resource':
      return new RegExp(`^${plain(binding.resource)} is used`);
    case 'air':
      return new RegExp(
        `^(${plain(id)} and ${plain(binding.other)}|${plain(binding.other)} and ${plain(id)}) share`,
      );
  }
}

describe.each([
  ['low-water-canopy', '2027-04-19T08:00-07:00'],
  ['harbour-gate-sign', '2027-04-19T08:00+01:00'],
])('each stage of %s', (name, now) => {
  const { problem: p, placed } = sample(name, now);

  it('is part of a plan that keeps every rule', () => {
    expect(violations(p, placed)).toEqual([]);
  });

  it('is held by just what the checker misses when it starts a minute earlier', () => {
    const met = new Set<string>();
    let free = 0;
    for (const { stage: id } of placed) {
      const { fixed, minuteBefore, lastOpenBefore } = explainStart(p, placed, id);
      if (fixed !== null) continue;
      for (const earlier of [minuteBefore, lastOpenBefore]) {
        if (earlier === null) continue;
        const broken = brokenByMoving(p, placed, id, earlier.start);
        const sentences = earlier.bindings.map((binding) => sentenceOf(binding, id));
        const missed = broken.filter((line) => !sentences.some((one) => one.test(line)));
        const invented = sentences.filter((one) => !broken.some((line) => one.test(line)));
        expect({ id, missed, invented }).toEqual({ id, missed: [], invented: [] });
        for (const binding of earlier.bindings) met.add(binding.kind);
        if (broken.length === 0) free += 1;
      }
    }
    expect(placed.length).toBeGreaterThan(10);
    expect([...met].toSorted()).toEqual(expect.arrayContaining(['hours', 'relation', 'resource']));
    expect(free).toBeLessThan(placed.length);
  });

  it('keeps every relation in force, some of them with no minute to spare', () => {
    const slacks = relationSlacks(p, placed).filter((one) => one.inForce);
    const minutes = slacks.flatMap((one) => one.slackMinutes ?? []);
    expect(minutes.length).toBeGreaterThan(10);
    expect(Math.min(...minutes)).toBe(0);
  });
});

describe('a stage of a small plan', () => {
  const spot = (id: string, mode: string, start: number, end: number): Placed => ({
    stage: id,
    mode,
    start,
    end,
  });
  const kinds = (p: Problem, placed: Placed[], id: string) =>
    explainStart(p, placed, id).minuteBefore!.bindings.map((binding) => binding.kind);

  it('is held by now, by its release, or by the stage before it', () => {
    const p = problem(
      [
        stage('a', [wait(2)]),
        stage('b', [wait(1)]),
        stage('c', [wait(1)], { release: hour(0, 13) }),
      ],
      [after('a', 'b', 1)],
    );
    const placed = [
      spot('a', 'wait', hour(0, 8), hour(0, 10)),
      spot('b', 'wait', hour(0, 11), hour(0, 12)),
      spot('c', 'wait', hour(0, 13), hour(0, 14)),
    ];
    expect(kinds(p, placed, 'a')).toEqual(['now']);
    expect(kinds(p, placed, 'b')).toEqual(['relation']);
    expect(kinds(p, placed, 'c')).toEqual(['release']);
    expect(relationSlacks(p, placed)[0]!.slackMinutes).toBe(0);
  });

  it('is held by a window behind it: earlier, the next would come too late', () => {
    const p = problem([stage('a', [wait(1)]), stage('b', [wait(1)])], [within('a', 'b', 2)]);
    const placed = [
      spot('a', 'wait', hour(1, 9), hour(1, 10)),
      spot('b', 'wait', hour(1, 12), hour(1, 13)),
    ];
    expect(explainStart(p, placed, 'a').minuteBefore!.bindings).toMatchObject([
      { kind: 'relation', other: 'b' },
    ]);
  });

  it('in the morning is held by the hours, and behind them by who had the hands last evening', () => {
    const p = problem([stage('a', [work(8)]), stage('b', [work(2, 'ann', true)])]);
    const placed = [
      spot('a', 'ann', hour(0, 8), hour(0, 16)),
      spot('b', 'ann', hour(1, 8), hour(1, 10)),
    ];
    const { minuteBefore, lastOpenBefore } = explainStart(p, placed, 'b');
    expect(minuteBefore!.bindings).toEqual([{ kind: 'hours' }]);
    expect(lastOpenBefore).toEqual({
      start: hour(0, 14),
      bindings: [{ kind: 'resource', resource: 'ann', others: ['a'] }],
    });
  });

  it('is held by a hold of another and by the air that has not settled', () => {
    const p = problem(
      [
        stage('a', [wait(1)], { air: 'dust' }),
        stage('b', [wait(1)]),
        stage('c', [wait(1, [{ resource: 'port', amount: 1 }])], { air: 'wet' }),
      ],
      [],
      { holds: [{ resource: 'port', amount: 1, from: 'a', to: 'b' }] },
    );
    const placed = [
      spot('a', 'wait', hour(0, 8), hour(0, 9)),
      spot('b', 'wait', hour(0, 9), hour(0, 10)),
      spot('c', 'wait', hour(0, 10), hour(0, 11)),
    ];
    expect(explainStart(p, placed, 'c').minuteBefore!.bindings).toEqual([
      { kind: 'resource', resource: 'port', others: ['a'] },
      { kind: 'air', other: 'a' },
    ]);
  });

  it('that is recorded or fixed stands where it was put', () => {
    const p = problem([
      stage('a', [wait(1)], { fixedStart: hour(0, 7), fixedEnd: hour(0, 8) }),
      stage('b', [wait(1)], { fixedStart: hour(0, 9) }),
    ]);
    const placed = [
      spot('a', 'wait', hour(0, 7), hour(0, 8)),
      spot('b', 'wait', hour(0, 9), hour(0, 10)),
    ];
    expect(explainStart(p, placed, 'a')).toMatchObject({ fixed: 'recorded', minuteBefore: null });
    expect(explainStart(p, placed, 'b')).toMatchObject({ fixed: 'pinned', minuteBefore: null });
    expect(() => explainStart(p, placed, 'z')).toThrow('z is not in the plan');
  });
});
