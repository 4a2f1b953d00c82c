/** The edge taped wet or after a night, a rim potted in lifts, inserts made beside the chain. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { EDGE_WAYS, edgeWayOf, withEdgeWay } from '../../../app/document/edit/edge.ts';
import type { Build } from '../../../app/document/schema.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';

const ZONE = smallBuild().part.zones[0]!;
const STRIPS = { plies: [{ cloth: 'carbon-twill-200', angleDeg: 45 }] };
const part = (more: object, zone: object = {}): Build => ({
  ...smallBuild(),
  part: {
    ...smallBuild().part,
    zones: [{ ...ZONE, edgeM: 4, closeout: STRIPS, ...zone }],
    ...more,
  },
});
const planned = (document: Build) => {
  const outcome = plan(document, library(), NOW, FIRST_ANSWER);
  const stageOf = (id: string) => outcome.result.stages.find((stage) => stage.id === id);
  const hours = (from: string, to: string) => (Date.parse(to) - Date.parse(from)) / 3_600_000;
  return {
    ...outcome,
    stageOf,
    start: (id: string) => stageOf(id)!.start!,
    end: (id: string) => stageOf(id)!.end!,
    hours,
  };
};

describe('the tape on a filled edge', () => {
  it('goes on while the filler is wet, within an hour and a half', () => {
    const { start, end, hours, stageOf } = planned(part({ edge: { tape: 'at-once' } }));
    expect(stageOf('closeout:closeout')!.name).toBe('Rebate the core at the edge');
    expect(start('edge-fill') >= end('closeout:closeout')).toBe(true);
    const gap = hours(end('edge-fill'), start('layup:closeout'));
    expect(gap).toBeGreaterThanOrEqual(0);
    expect(gap).toBeLessThanOrEqual(1.5);
    expect(stageOf('wait:edge-fill')).toBeUndefined();
  });

  it('or after a night and a sanding, never between the two', () => {
    const { start, end, hours } = planned(part({ edge: { tape: 'after-night' } }));
    expect(hours(end('edge-fill'), start('prepare:closeout'))).toBeGreaterThanOrEqual(14);
    expect(start('prepare:closeout') >= end('wait:edge-fill')).toBe(true);
    expect(start('layup:closeout') >= end('prepare:closeout')).toBe(true);
  });

  it('is left as it was where the build says nothing', () => {
    const { stageOf } = planned(part({}));
    expect(stageOf('edge-fill')).toBeUndefined();
    expect(stageOf('closeout:closeout')!.name).toBe('Rebate core, fill and round the edge');
  });
});

describe('a potted rim', () => {
  const rim = (depthMm: number) =>
    part({ edge: { rim: { widthMm: 15, depthMm } } }, { closeout: { plies: [] } });

  it('is poured in lifts of 15 mm at most, each cold before the next, the last one overnight', () => {
    const { start, end, hours, stageOf } = planned(rim(20));
    expect(stageOf('rim')!.name).toBe(
      'Level on a released flat, set the dam, pot the rim, lift 1 of 2',
    );
    expect(stageOf('rim')!.gear).toContain('bench');
    expect(hours(end('rim'), start('rim:2'))).toBeGreaterThan(4);
    expect(start('rim:2') >= end('wait:rim-1')).toBe(true);
    expect(hours(start('wait:rim-2'), end('wait:rim-2'))).toBeGreaterThan(14);
    expect(start('fair:rim') >= end('wait:rim-2')).toBe(true);
    expect(start('fit-check') >= end('fair:rim')).toBe(true);
    expect(planned(rim(15)).stageOf('rim:2')).toBeUndefined();
    expect(planned(rim(31)).stageOf('rim:3')).toBeDefined();
  });

  it('weighs what its section weighs, and its compound is in the kit in place of edge filler', () => {
    // 4 m x 15 x 20 mm at 750 kg/m3.
    expect(contextOf(rim(20), library(), NOW).part.massKg.closeout).toBeCloseTo(0.9, 6);
    const { kit } = planned(rim(20)).detail;
    const line = (id: string) => kit.find((one) => one.id === id)?.quantity ?? 0;
    expect(line('rim-potting')).toBeCloseTo(1.1, 6);
    expect(line('edge-filler')).toBe(0);
  });
});

describe('the way an edge is closed, as one choice', () => {
  it('is read back as it was picked, and a rim keeps its size', () => {
    const rimmed = part({ edge: { rim: { widthMm: 12, depthMm: 30 } } });
    expect(edgeWayOf(part({}))).toBe('as-it-comes');
    for (const way of EDGE_WAYS) {
      expect(edgeWayOf(withEdgeWay(part({}), way, 'Edge').document)).toBe(way);
    }
    const again = withEdgeWay(rimmed, 'potted', 'Edge').document;
    expect(again.part!.edge).toEqual({ rim: { widthMm: 12, depthMm: 30 } });
  });
});

describe('inserts', () => {
  const inserts = [{ name: 'Plate', count: 4, areaM2: 0.005, cloth: 'glass-twill-300', plies: 16 }];

  it('are a layup of their own beside the chain, with mix, watch, gel and bag-off, let in before the core bond', () => {
    const { start, end, stageOf, detail, result } = planned(part({ inserts }));
    expect(stageOf('layup:inserts')!.name).toBe('Lay up inserts on a flat');
    expect(stageOf('cure:inserts')!.gear).toEqual(['pump']);
    for (const id of ['watched-vacuum:inserts', 'gel-look:inserts', 'bag-off:inserts'])
      expect(stageOf(id)).toBeDefined();
    const mixes = result.mixes.filter(({ cure }) => cure === 'inserts');
    expect(mixes.length).toBeGreaterThan(0);
    // First mix no sooner than half an hour after people come at 07:30.
    expect(start('layup:inserts').slice(11, 16) >= '08:00').toBe(true);
    expect(start('layup:inserts') >= end('resin-warm')).toBe(true);
    expect(start('inserts-fit') >= end('bag-off:inserts')).toBe(true);
    expect(start('inserts-fit') >= end('core-fit')).toBe(true);
    expect(start('layup:core') >= end('inserts-fit')).toBe(true);
    expect(detail.kit.some(({ id }) => id === 'glass-twill-300')).toBe(true);
  });

  it('weigh their plies: 4 of 0.005 m² and 16 plies of 300 g/m² are 96 g of glass', () => {
    const fibre = (document: Build) => contextOf(document, library(), NOW).part.massKg.fibre;
    expect(fibre(part({ inserts })) - fibre(part({}))).toBeCloseTo(0.096, 6);
  });

  it('of a cloth that no row knows are a fault of the document', () => {
    const answer = read(part({ inserts: [{ ...inserts[0]!, cloth: 'nothing' }] }));
    expect(answer.ok).toBe(false);
    if (!answer.ok) expect(answer.faults[0]!.path).toBe('part.inserts[0].cloth');
  });
});

describe('the sample of a flat panel with a potted rim and inserts', () => {
  const document = JSON.parse(readFileSync('samples/marl-quay-hatch.build.json', 'utf8')) as Build;

  it('fits, and does each thing in the order in which a shop does it', () => {
    const { result } = plan(document, library(), NOW, FIRST_ANSWER);
    expect(result.fits).toBe(true);
    const order = [
      'layup:inserts',
      'cure:inserts',
      'inserts-fit',
      'layup:core',
      'tap-test:core',
      'layup:inner',
      'demould',
      'tap-test:demould',
      'repair',
      'trim',
      'dry-fit',
      'closeout:closeout',
      'rim',
      'rim:2',
      'fair:rim',
      'fit-check',
      'fair:1',
      'wrap:paint',
      'drive:paint',
      'outside:paint',
      'drive-back:paint',
      'hardware',
      'hand-over',
    ];
    const starts = order.map((id) => result.stages.find((stage) => stage.id === id)?.start);
    expect(starts).not.toContain(undefined);
    expect(starts).toEqual(starts.toSorted());
    expect(result.findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
  });
});
