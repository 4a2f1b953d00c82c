/** A batch that outlasts its cup: more and smaller ones, at the price of their mixing. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { plan } from '../../../app/answer/plan.ts';
import { applyLever } from '../../../app/judge/levers.ts';
import { FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { tally } from '../../support/draws.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';

const alone = (dayC: number, hardener: string, areaM2: number): Build => ({
  ...smallBuild(),
  part: { zones: [{ areaM2, outer: [{ cloth: 'carbon-twill-200' }], inner: [] }] },
  room: { temperatureC: { day: dayC, night: dayC - 2 } },
  resin: { system: 'orrin-40', hardener },
  crew: [{ name: 'Mina Vale' }],
  unveiling: '2027-12-01T10:00',
});

const told = (document: Build) => {
  const { result } = plan(document, library(), NOW, FULL_ANSWER);
  return { result, hot: result.findings.filter(({ code }) => code === 'pot-runaway') };
};

const seen = tally('a way out', 'none');

describe('batches that outlast their cups', () => {
  it.each([
    [20, 'slow', 0.6, 'small-batches:78:1'],
    [28, 'slow', 0.9, 'small-batches:57:3'],
    [20, 'medium', 1.3, 'small-batches:54:4'],
    [22, 'medium', 2.4, 'small-batches:58:7'],
    // Five more cups would take the wet work past its open time: a stop more.
    [20, 'medium', 2, null],
    // Not even 50 g are spread in time.
    [24, 'fast', 0.9, null],
  ] as const)('at %s C with %s hardener over %s m2: %s', (dayC, hardener, areaM2, id) => {
    const document = alone(dayC, hardener, areaM2);
    const before = told(document);
    expect(before.hot).toHaveLength(1);
    const [{ levers, message, numbers }] = before.hot as [(typeof before.hot)[0]];
    expect(levers.map((one) => one.id)).toEqual(id === null ? [] : [id]);
    seen.saw(id === null ? 'none' : 'a way out');
    const [lever] = levers;
    if (!lever) return;
    const more = Number(numbers['moreBatches']);
    expect(message).toMatch(
      new RegExp(`Batches of \\d+ g, ${more} more of them, are spread in time; or take more hands`),
    );
    const changed = applyLever(document, lever.id, library(), LOOKUPS)!;
    expect(read(changed).ok).toBe(true);
    const after = told(changed);
    expect(after.hot).toEqual([]);
    expect(lever.clears).toEqual(['pot-runaway']);
    expect(after.result.mixes).toHaveLength(before.result.mixes.length + more);
    const stops = (result: typeof after.result) =>
      result.findings.filter(({ severity }) => severity === 'stop').map(({ code }) => code);
    expect(stops(after.result)).toEqual(stops(before.result));
    // 5 min of mixing each at 42.00 an hour, and what the cups keep.
    const material = after.result.totals.materialCost - before.result.totals.materialCost;
    expect(lever.cost).toBe(Math.round((more * 5 * 4200) / 60) + material);
    expect(applyLever(changed, lever.id, library(), LOOKUPS)).toBeNull();
  });

  it('were of both kinds', () => seen.expectEach(2));
});
