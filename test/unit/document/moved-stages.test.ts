/** Stages that were split or got another name: pins, records, links and printed plans go with them. */
import { describe, expect, it } from 'vitest';
import { withEdgeWay } from '../../../app/document/edit/edge.ts';
import { means } from '../../../app/document/movedStages.ts';
import type { Build } from '../../../app/document/schema.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { plan } from '../../../app/answer/plan.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const ZONE = smallBuild().part.zones[0]!;
const STRIPS = { plies: [{ cloth: 'carbon-twill-200', angleDeg: 45 }] };
const inserts = [{ name: 'Plate', count: 4, areaM2: 0.005, cloth: 'glass-twill-300', plies: 16 }];
const build = (more: Partial<Build>, part: object = {}): Build => ({
  ...smallBuild(),
  part: { ...smallBuild().part, zones: [{ ...ZONE, edgeM: 4, closeout: STRIPS }], ...part },
  ...more,
});
const link = (before: string, after: string) => ({
  ...{ before, after, minHours: 0, maxHours: null },
});

describe('inserts that were one stage and a wait', () => {
  const written = build(
    {
      pins: [{ stage: 'inserts', start: '2027-05-03T09:00' }],
      links: [link('wait:inserts', 'rehearsal'), link('cutting', 'inserts')],
    },
    { inserts },
  );

  it('are read as their layup and its cure', () => {
    const read = contextOf(written, library(), NOW).build;
    expect(read.pins).toEqual([{ stage: 'layup:inserts', start: '2027-05-03T09:00' }]);
    expect(read.links.map(({ before, after }) => [before, after])).toEqual([
      ['cure:inserts', 'rehearsal'],
      ['cutting', 'layup:inserts'],
    ]);
    expect(means('wait:repair', 'cure:repair')).toBe(true);
    expect(means('wait:repair', 'repair')).toBe(false);
  });

  it('keep the pin in the plan, and the link before the rehearsal', () => {
    const { stages } = plan(written, library(), NOW, FIRST_ANSWER).result;
    const of = (id: string) => stages.find((stage) => stage.id === id)!;
    expect(of('layup:inserts').start!.slice(0, 16)).toBe('2027-05-03T09:00');
    expect(of('rehearsal').start! >= of('cure:inserts').end!).toBe(true);
  });
});

describe('an edge that is closed in one stage, and then in two', () => {
  const record = {
    ...{ id: 'r1', stage: 'closeout:closeout', note: '' },
    ...{ start: '2027-03-20T08:00', end: '2027-03-20T10:00' },
  };
  const whole = build({
    records: [record],
    links: [link('closeout:closeout', 'fit-check'), link('dry-fit', 'closeout:closeout')],
    pins: [{ stage: 'closeout:closeout', start: '2027-03-20T08:00' }],
  } as unknown as Partial<Build>);

  it('counts what was done as done in both, and what followed it follows the filling', () => {
    const split = withEdgeWay(whole, 'after-night', 'Edge').document as Build;
    expect(split.records!.map(({ stage, start, end }) => [stage, start, end])).toEqual([
      ['closeout:closeout', '2027-03-20T08:00', '2027-03-20T10:00'],
      ['edge-fill', '2027-03-20T10:00', '2027-03-20T10:00'],
    ]);
    expect(split.links!.map(({ before, after }) => [before, after])).toEqual([
      ['edge-fill', 'fit-check'],
      ['dry-fit', 'closeout:closeout'],
    ]);
    expect(split.pins!.map(({ stage }) => stage)).toEqual(['closeout:closeout']);
  });

  it('is one again on the way back, over when its filling is', () => {
    const split = withEdgeWay(whole, 'at-once', 'Edge').document as Build;
    const back = withEdgeWay(split, 'as-it-comes', 'Edge').document as Build;
    expect(back.records!.map(({ stage, end }) => [stage, end])).toEqual([
      ['closeout:closeout', '2027-03-20T10:00'],
    ]);
    expect(back.links!.map(({ before }) => before)).toEqual(['closeout:closeout', 'dry-fit']);
  });
});
