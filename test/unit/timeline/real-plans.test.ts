/** The drawing of plans as the program makes them: samples and drawn builds, at every size. */
import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { plan } from '../../../app/answer/plan.ts';
import { readBuild } from '../../../app/document/read.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER, type PlanOutcome } from '../../../app/plan/outcome.ts';
import { minuteOf } from '../../../app/shop/sheetData.ts';
import { GRAINS } from '../../../app/timeline/captions.ts';
import { wholeDaysAround } from '../../../app/timeline/days.ts';
import { foldsOf } from '../../../app/timeline/folds.ts';
import { spansOf, timelineRows } from '../../../app/timeline/items.ts';
import { layoutTimeline } from '../../../app/timeline/layout.ts';
import { pxPerMinuteOf, timeScale } from '../../../app/timeline/scale.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { shippedSamples } from '../../../main/samples.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';
import { drawnBuilds } from '../../support/drawn-builds.ts';
import { forAll, tally } from '../../support/draws.ts';
import { captionsOf, clashes } from '../../support/timeline-boxes.ts';

const measure = (text: string, bold: boolean): number => text.length * (bold ? 7 : 6.5);

/** Everything that covers what is not its own, at every grain, width and size of text. */
function faultsOf(outcome: PlanOutcome): string[] {
  const { zone } = outcome.result.build;
  const rows = timelineRows(outcome);
  const span = wholeDaysAround(spansOf(outcome, rows), zone);
  const busy = rows.flatMap(({ items }) => items.filter(({ type }) => type !== 'wait'));
  const folds = foldsOf(span, busy, [outcome.detail.now, outcome.detail.deadline], zone);
  const faults: string[] = [];
  for (const grain of GRAINS) {
    for (const [width, unit] of [
      [300, 1],
      [660, 1],
      [1050, 1],
      [700, 2],
    ] as const) {
      const world = { ...span, folds, stripPx: 26 * unit };
      const scale = timeScale(world, pxPerMinuteOf(grain, world, width));
      const options = { scale, grain, measure, zone, unit, selected: null };
      const layout = layoutTimeline(rows, options);
      const out = captionsOf(layout.rows).filter(
        ({ x, width: wide }) => x < 0 || x + wide > scale.width + 1,
      );
      faults.push(
        ...clashes(layout.rows).map((fault) => `${grain} ${width}: ${fault}`),
        ...out.map(({ what }) => `${grain} ${width}: ${what} reaches out`),
      );
    }
  }
  return faults;
}

describe('the samples', () => {
  test.each(shippedSamples().map((sample) => [sample.name, sample] as const))(
    '%s is drawn without anything over anything else',
    (_name, sample) => {
      const build = readBuild(sample.text(), library());
      if (!build.ok) throw new Error('the sample is not read');
      const now = isoToMinute('2027-04-12T06:00+00:00')!;
      const outcome = plan(build.document, library(), now, FIRST_ANSWER);
      expect(faultsOf(outcome)).toEqual([]);
      // Every cure says mix, bag and off in the picture of the whole.
      const rows = timelineRows(outcome);
      const cures = rows.flatMap(({ items }) => items.filter(({ shape }) => shape !== null));
      expect(cures).toHaveLength(outcome.result.cures.length);
    },
  );
});

test('builds drawn at random are drawn so too', () => {
  const seen = tally('placed', 'cured', 'merged');
  forAll(
    fc.property(drawnBuilds, (build: Build) => {
      const outcome = plan(build, library(), NOW, FIRST_ANSWER);
      expect(faultsOf(outcome)).toEqual([]);
      const items = timelineRows(outcome).flatMap((row) => row.items);
      if (items.length > 0) seen.saw('placed');
      if (items.some(({ shape }) => shape)) seen.saw('cured');
      if (items.some(({ rows }) => rows.length > 1)) seen.saw('merged');
    }),
    { seed: 5, numRuns: 15, seen },
  );
});

describe('what a plan hands to its picture', () => {
  const build = read(smallBuild());
  if (!build.ok) throw new Error('the build is not read');
  const outcome = plan(build.document, library(), NOW, FIRST_ANSWER);
  const start = (id: string): number =>
    minuteOf(outcome.result.stages.find((stage) => stage.id === id)!.start!);

  test('a round of filler dries until the next may begin', () => {
    const dry = timelineRows(outcome).find(({ row }) => row.id === 'fair')!.items;
    const waits = dry.filter(({ type }) => type === 'wait').map(({ id }) => id);
    expect(waits).toEqual(['wait:fair-1', 'wait:fair-3', 'wait:prime-1', 'wait:prime-3']);
    const first = dry.find(({ id }) => id === 'wait:fair-1')!;
    expect(first.name).toBe('Key and screed light epoxy filler: dries');
    expect(start('fair:2')).toBeGreaterThanOrEqual(first.end);
  });

  test('wet work and dust are told apart in the air', () => {
    const { air } = outcome.detail.shown!;
    expect(air['layup:skin']).toBe('wet');
    expect(air['fair:2']).toBe('dust');
    expect(air['hand-over']).toBeUndefined();
  });

  test('a stage stands with the layup it is done on; what is tapped or made ready elsewhere', () => {
    const rows = timelineRows(outcome);
    const rowOf = (id: string) =>
      rows.find(({ items }) => items.some((item) => item.id === id))?.row.title;
    expect(rowOf('layup:skin')).toBe('Outer skin');
    expect(rowOf('prepare:core')).toBe('Core');
    expect(rowOf('tap-test:core')).toBe('Core');
    expect(rowOf('tap-test:demould')).toBe('Off the mould');
    expect(rowOf('wait:seal')).toBe('Mould');
    expect(rowOf('cutting')).toBe('Made ready');
    expect(rowOf('hand-over')).toBe('Hand over');
  });
});
