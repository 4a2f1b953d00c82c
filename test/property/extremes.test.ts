/**
 * Every range of document, library and practice at its ends: a plan, and outputs that hold only answers.
 * How long each takes and how much memory is measured by `npm run bench -- extremes`.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgedRoutes } from '../../app/answer/routesJudged.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { enumerateRoutes } from '../../app/route/routes.ts';
import { runToEnd } from '../../app/schedule/generators.ts';
import { RICH } from '../trust/extremes/base.ts';
import { ENDS, FIELDS, LISTS, MISSED, type End } from '../trust/extremes/ends.ts';
import { trial } from '../trust/extremes/trial.ts';
import { forAll } from '../support/draws.ts';
import { withValue } from '../support/number-fields.ts';
import { contextFor } from '../unit/judge/builds.ts';

/** What is wrong with the document at these ends; null when it is refused for what two fields say of each other. */
function tried(...ends: readonly End[]): string[] | null {
  const document = ends.reduce((made, { change }) => change(made), RICH);
  const { refused, faults } = trial(document, 'first');
  return refused ? null : faults.map((fault) => `${ends.map(({ name }) => name)}: ${fault}`);
}

function triedAlone(ends: readonly End[]): { readonly faults: string[]; readonly plans: number } {
  const told = ends.flatMap((end) => tried(end) ?? 'refused');
  const plans = ends.length - told.filter((one) => one === 'refused').length;
  return { faults: told.filter((one) => one !== 'refused'), plans };
}

/** Every fifth of them: the bench tries them all, which takes many minutes. */
const fifths = (ends: readonly End[]): End[] => ends.filter((_end, i) => i % 5 === 0);

describe('a range', () => {
  it('has an end: no number goes on for ever', () => {
    expect(
      FIELDS.filter(({ least, most }) => !(Math.abs(least) < 1e13 && Math.abs(most) < 1e13)).map(
        ({ path }) => path.join('.'),
      ),
    ).toEqual([]);
    expect(FIELDS.length).toBeGreaterThan(130);
    // The first consumable goes with every process and has no lift of its own; the hazards hold no number.
    expect([...new Set(MISSED)]).toEqual([
      'library.consumables.0.processes',
      'library.consumables.0.filling',
      'library.consumables.0.hazards',
    ]);
  });

  it('is planned at each of its ends alone', { timeout: 300_000 }, () => {
    const { faults, plans } = triedAlone(fifths(ENDS.filter((end) => !LISTS.includes(end))));
    expect(faults).toEqual([]);
    expect(plans).toBeGreaterThan(50);
  });

  it('of a list is planned at its longest', { timeout: 300_000 }, () => {
    const { faults, plans } = triedAlone(fifths(LISTS));
    expect(faults).toEqual([]);
    expect(plans).toBeGreaterThan(6);
  });

  it('is planned with another one at its end', { timeout: 300_000 }, () => {
    let plans = 0;
    const end = fc.constantFrom(...ENDS);
    forAll(
      fc.property(end, end, (one, other) => {
        const faults = tried(one, other);
        if (faults === null) return;
        plans++;
        expect(faults).toEqual([]);
      }),
      { seed: 1, numRuns: 20 },
    );
    expect(plans).toBeGreaterThan(10);
  });
});

it('a first answer looks at few of the routes that one thing stops', () => {
  const context = contextFor(withValue(RICH, ['gear', 'benches'], 0));
  const routes = enumerateRoutes(context.part.layups).length;
  let networks = 0;
  const part = {
    ...context.part,
    kitFor: (...asked: Parameters<typeof context.part.kitFor>) => {
      networks++;
      return context.part.kitFor(...asked);
    },
  };
  expect(runToEnd(judgedRoutes({ ...context, part }, FIRST_ANSWER))).toEqual([]);
  expect(routes).toBe(27);
  expect(networks).toBeGreaterThan(0);
  // The kit is asked for a few times for each network.
  expect(networks).toBeLessThan(12);
});
