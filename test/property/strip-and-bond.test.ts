/** Peel ply is stripped on the day of its bond: in every plan, of the samples and of drawn builds. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judge } from '../../app/answer/judgement.ts';
import type { Build } from '../../app/document/schema.ts';
import { contextOf } from '../../app/plan/context.ts';
import { layupStageId } from '../../app/document/ids.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { draftRoute, problemOf } from '../../app/plan/routePlan.ts';
import { enumerateRoutes } from '../../app/route/routes.ts';
import { localDayNumber } from '../../app/time/zone.ts';
import { library, NOW } from '../support/builds.ts';
import { drawnBuilds } from '../support/drawn-builds.ts';
import { forAll, tally } from '../support/draws.ts';

const samples = () => readdirSync('samples').filter((name) => name.endsWith('.build.json'));
const sample = (file: string) => JSON.parse(readFileSync(`samples/${file}`, 'utf8')) as Build;

const seenKinds = () => tally('stripped and bonded', 'covered', 'bare core', 'abraded again');

/** Holds the surfaces of one plan against the rule, counted from the plan's own moments. */
function holdToTheDay(document: Build, { saw }: ReturnType<typeof seenKinds>): void {
  const context = contextOf(document, library(), NOW);
  const { taken } = judge(context, document, library(), FIRST_ANSWER);
  const day = (minute: number) => localDayNumber(minute, context.build.zone);
  const { stages, relations } = taken.network.problem;
  for (const stage of stages.filter(({ kind }) => kind === 'prepare')) {
    const spot = taken.placed.get(stage.id);
    // The filler of an edge is sanded: there is no peel ply on it.
    if (!spot || stage.id === layupStageId('prepare', 'closeout')) continue;
    const mode = stage.modes.find(({ id }) => id === spot.mode)!;
    expect(/abrade/.test(stage.name), `'${stage.name}' names what is done`).toBe(
      mode.abrades ?? false,
    );
    if (mode.abrades) {
      saw('abraded again');
      continue;
    }
    const bonded = relations.find(({ from, why }) => from === stage.id && why === 'clean-surface')!;
    const { start } = taken.placed.get(bonded.to)!;
    const keepsMinutes = context.practice('strip-to-bond-hours') * 60;
    expect(day(start), `${stage.id} is stripped on the day of its bond`).toBe(day(spot.start));
    // Bare core has no peel ply: it is vacuumed, and keeps from the end of that.
    const isCore = relations.some(({ from, why }) => from === stage.id && why === 'core-vacuumed');
    const keptFrom = mode.covered || isCore ? spot.end : spot.start;
    expect(start - keptFrom).toBeLessThanOrEqual(keepsMinutes);
    saw(isCore ? 'bare core' : mode.covered ? 'covered' : 'stripped and bonded');
  }
}

describe('a stripped surface', () => {
  it('is bonded that same day, in time from the first pull, or abraded again', () => {
    const seen = seenKinds();
    for (const file of samples()) holdToTheDay(sample(file), seen);
    forAll(
      fc.property(drawnBuilds, fc.integer({ min: 1, max: 6 }), (document, times) => {
        const { part } = document;
        const zones = part.zones.map((zone) => ({ ...zone, areaM2: zone.areaM2! * times }));
        const joints = { 'skin-core': 'apart', 'core-inner': 'apart', 'skin-inner': 'apart' };
        holdToTheDay({ ...document, part: { ...part, zones }, route: { joints } } as Build, seen);
      }),
      { numRuns: 120, seed: 20270423, seen },
    );
  });
});

describe('bare core', () => {
  it('has no peel ply to strip, in any way of doing it, in every route of the samples', () => {
    const seen = tally('on bare core', 'on a skin');
    for (const file of samples()) {
      const context = contextOf(sample(file), library(), NOW);
      for (const route of enumerateRoutes(context.part.layups)) {
        const { stages } = problemOf(context, draftRoute(context, route));
        const chain = route.cures.filter(({ place }) => place === 'chain');
        for (const [i, cure] of chain.entries()) {
          const prepared = stages.find(
            ({ id }) => i > 0 && id === layupStageId('prepare', cure.layups[0]!.id),
          );
          if (!prepared) continue;
          const onCore = chain[i - 1]!.layups.at(-1)!.hasCore;
          for (const name of [
            prepared.name,
            ...prepared.modes.flatMap((mode) => mode.name ?? []),
          ]) {
            expect(name.includes('peel ply'), `${file} ${route.id}: ${name}`).toBe(!onCore);
            expect(name.includes('bare core')).toBe(onCore);
            seen.saw(onCore ? 'on bare core' : 'on a skin');
          }
        }
      }
    }
    seen.expectEach(20);
  });
});
