/** The edge closed before the part leaves the shop, or after the painter's first visit. */
import { describe, expect, it } from 'vitest';
import { readBuild } from '../../../app/document/read.ts';
import type { Build } from '../../../app/document/schema.ts';
import { leverEdits } from '../../../app/judge/levers.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { draftRoute, planRoute } from '../../../app/plan/routePlan.ts';
import { routeOf } from '../../../app/route/routes.ts';
import { violations } from '../../../app/schedule/check.ts';
import { contextFor, LIBRARY, planFor, ROOMY, withPart, withZone } from '../judge/builds.ts';

const TAPE = { cloth: 'glass-twill-300', angleDeg: 45 };
const EDGED = withZone(ROOMY, { closeout: { widthMm: 60, plies: [TAPE, TAPE] } });
const BLOCKS: NonNullable<Build['outside']>[number] = {
  id: 'first-visit',
  name: 'Slipway paint, first visit',
  kind: 'paint',
  workingDays: 1,
};
const PAINTS = { id: 'paint', name: 'Slipway paint', kind: 'paint' as const, workingDays: 5 };
const TWICE: Build = { ...EDGED, outside: [BLOCKS, PAINTS] };
const LATE: Build = { ...TWICE, closeoutAfter: 'first-visit' };

function planned(document: Build) {
  const context = contextFor(document);
  const plan = planRoute(context, draftRoute(context, routeOf(context.part.layups, {})), 40);
  expect(violations(plan.network.problem, plan.schedule.placed)).toEqual([]);
  const at = new Map(plan.schedule.placed.map((one) => [one.stage, one]));
  return { plan, at: (id: string) => at.get(id)! };
}

describe('the edge', () => {
  it('is closed before anything leaves the shop unless the build says otherwise', () => {
    const { at } = planned(TWICE);
    expect(at('cure:closeout').end).toBeLessThanOrEqual(at('outside:first-visit').start);
    expect(at('outside:first-visit').end).toBeLessThanOrEqual(at('outside:paint').start);
  });
  it('is closed and faired between the two visits where the build says so', () => {
    const { at } = planned(LATE);
    const first = at('outside:first-visit');
    for (const id of ['closeout:closeout', 'layup:closeout', 'cure:closeout', 'fair:edge']) {
      expect(at(id).start).toBeGreaterThanOrEqual(first.end);
      expect(at(id).end).toBeLessThanOrEqual(at('outside:paint').start);
    }
    expect(at('wait:edge').end).toBeLessThanOrEqual(at('outside:paint').start);
    // The part goes to its first visit sooner by the whole of the edge.
    expect(first.start).toBeLessThan(planned(TWICE).at('outside:first-visit').start);
  });
  it('takes more work when it is faired on its own, and none of that where nothing is seen', () => {
    const hours = (document: Build) => planned(document).plan.labourHours;
    expect(hours(LATE)).toBeGreaterThan(hours(TWICE));
    const hidden = (document: Build) => withPart(document, { finish: 'hidden' });
    expect(hours(hidden(LATE))).toBeCloseTo(hours(hidden(TWICE)), 6);
    expect(planned(hidden(LATE)).at('fair:edge')).toBeUndefined();
  });
});

describe('the levers of the edge', () => {
  const ids = (document: Build) =>
    leverEdits(document, LIBRARY, LOOKUPS)
      .map((edit) => edit.id)
      .filter((id) => id.startsWith('closeout-'));
  it('go both ways where a painter is visited twice', () => {
    expect(ids(TWICE)).toEqual(['closeout-after-first-visit']);
    expect(ids(LATE)).toEqual(['closeout-first']);
  });
  it('are not there with one visit, without an edge, or for the carrier', () => {
    expect(ids({ ...EDGED, outside: [PAINTS] })).toEqual([]);
    expect(ids({ ...ROOMY, outside: [BLOCKS, PAINTS] })).toEqual([]);
    const carrier = { id: 'van', name: 'Carrier', kind: 'transport' as const, workingDays: 1 };
    expect(ids({ ...EDGED, outside: [PAINTS, carrier] })).toEqual([]);
  });
  it('make a booked first visit that the edge would miss', () => {
    // Days after the part is there without its edge, and before it is there with it.
    const ready = planned(LATE).at('outside:first-visit').start;
    const day = new Date((ready + 3 * 1440) * 60_000);
    const slot = day.toISOString().slice(0, 10);
    const booked = (document: Build): Build => ({
      ...document,
      outside: [{ ...BLOCKS, slot }, PAINTS],
    });
    const missed = (document: Build) =>
      planFor({ ...document, route: { joints: {} } }).result.findings.filter(
        (finding) => finding.code === 'slot-missed',
      );
    expect(missed(booked(TWICE))).toHaveLength(1);
    expect(missed(booked(LATE))).toEqual([]);
  });
});

describe('a visit that is not there', () => {
  const faults = (closeoutAfter: string) => {
    const machining = { ...PAINTS, id: 'mill', kind: 'machining' as const };
    const document = { ...TWICE, outside: [machining, BLOCKS, PAINTS], closeoutAfter };
    const read = readBuild(JSON.stringify(document), LIBRARY);
    return read.ok ? [] : read.faults;
  };
  it('is a fault that names those that are', () => {
    expect(faults('first-visit')).toEqual([]);
    for (const id of ['nobody', 'mill']) {
      const [fault] = faults(id);
      expect(fault).toMatchObject({ path: 'closeoutAfter', found: expect.stringContaining(id) });
      expect(fault!.expected).toContain('first-visit, paint');
    }
  });
});
