/**
 * One figure, one place: what the chemistry screen says of a cure is what the result says of it, in
 * every sample and in drawn builds with heat, tents, logged rooms and hardeners of single layups.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plan } from '../../app/answer/plan.ts';
import { askSmear } from '../../app/cure/bench-question.ts';
import { mixedC, potLifeOf } from '../../app/cure/pot.ts';
import { practiceOf } from '../../app/document/library.ts';
import type { Build, CureResult, Milestone } from '../../app/document/schema.ts';
import { cureStory, placedCures, type CureStory } from '../../app/plan/cureStory.ts';
import { FIRST_ANSWER, FULL_ANSWER, type PlanOutcome } from '../../app/plan/outcome.ts';
import { stackHeat } from '../../app/plan/reactionHeat.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { projectRoot } from '../../main/root.ts';
import { library, NOW, read, smallBuild } from '../support/builds.ts';
import { drawnBuilds } from '../support/drawn-builds.ts';
import { forAll } from '../support/draws.ts';

const SAMPLES = join(projectRoot(), 'samples');
const samples = readdirSync(SAMPLES)
  .filter((name) => name.endsWith('.build.json'))
  .map((name): [string, Build] => {
    const answer = read(JSON.parse(readFileSync(join(SAMPLES, name), 'utf8')));
    if (!answer.ok) throw new Error(`${name} cannot be read`);
    return [name, answer.document];
  });

const counted = { cures: 0, heated: 0, stalled: 0, postCured: 0, smears: 0, peaks: 0, mixes: 0 };

const minute = (iso: string | null) => (iso === null ? null : isoToMinute(iso));

/** The result's moments by the milestone that they are of; tack-free is no part of it. */
const published = (row: CureResult): Partial<Record<Milestone, number | null>> => ({
  open: minute(row.openUntil),
  gel: minute(row.gel),
  debag: minute(row.debagFrom),
  demould: minute(row.demouldFrom),
  sand: minute(row.sandFrom),
  bondUntil: minute(row.bondUntil),
  full: minute(row.fullFrom),
});

function holds(outcome: PlanOutcome): void {
  for (const row of placedCures(outcome)) {
    const story = cureStory(outcome, row.id);
    if (!story) throw new Error(`no story of ${row.id}`);
    counted.cures += 1;
    const said = Object.fromEntries(story.moments.map(({ milestone, at }) => [milestone, at]));
    expect(said).toMatchObject(published(row));
    glassHolds(outcome, row, story);
    heatHolds(outcome, row, story);
    smearHolds(outcome, story);
  }
  mixesHold(outcome);
}

function glassHolds({ result, detail }: PlanOutcome, row: CureResult, { glass, id }: CureStory) {
  expect(Math.abs(glass.tgC - row.tgC!)).toBeLessThanOrEqual(0.051);
  if (glass.slowed) counted.stalled += 1;
  if (detail.cures[id]!.heat) counted.heated += 1;
  const member = detail.tg!.members.find((one) => one.id === id)!;
  expect([glass.restC, glass.tgC]).toEqual([member.withoutC, member.withC]);
  if (glass.postCurePlace === null) {
    expect(glass.tgC).toBe(glass.restC);
    return;
  }
  counted.postCured += 1;
  const { postCure } = glass;
  if (!postCure?.possible) throw new Error('planned, so it can be done');
  expect(glass.tgC).toBeGreaterThanOrEqual(glass.neededC - 0.5);
  const stage = result.stages.find(({ kind }) => kind === 'post-cure')!;
  const worked = detail.workMinutes[stage.id];
  if (worked !== undefined) expect(Math.abs(worked - postCure.minutes)).toBeLessThanOrEqual(1);
}

/** The hottest layer is the result's peak. */
function heatHolds(outcome: PlanOutcome, row: CureResult, story: CureStory) {
  const heat = stackHeat(outcome, story);
  if (!heat?.matters || row.peakC === null) return;
  counted.peaks += 1;
  const hottest = Math.max(...heat.layers.map(({ peakC }) => peakC));
  expect(Math.abs(hottest - row.peakC)).toBeLessThanOrEqual(0.06);
}

/** A smear's "before" is the plan. Gel under heat is planned by the least time to the sealed bag. */
function smearHolds(outcome: PlanOutcome, story: CureStory) {
  const at = new Map(story.moments.map(({ milestone, at: moment }) => [milestone, moment]));
  const gel = at.get('gel');
  if (gel == null || outcome.detail.cures[story.id]!.heat) return;
  const wetMinutes = story.sealed - story.mixed;
  const question = { mixed: story.mixed, gel, wetMinutes, flangeC: null };
  const answer = askSmear(story, question, outcome.detail.library);
  if (answer.trouble !== null) return;
  counted.smears += 1;
  expect(answer.none).toBe(true);
  for (const { milestone, before } of answer.rows) expect(before).toBe(at.get(milestone));
}

/** Pot life of a mix is that of the pot question for its mass, in the room and hardener of its cure. */
function mixesHold({ result, detail }: PlanOutcome) {
  const practice = practiceOf(detail.library);
  const roomC = detail.build.room.temperatureC.day;
  for (const mix of result.mixes) {
    const { model } = detail.cures[mix.cure]!;
    if (mix.potLifeMin === null || !model.pot) continue;
    counted.mixes += 1;
    const lives = potLifeOf(model, practice)(mix.totalG, roomC, mixedC(roomC, practice));
    expect(Math.abs(lives - mix.potLifeMin) / lives).toBeLessThan(0.02);
  }
}

describe('the story of a cure says what the plan says', () => {
  it.each(samples)('%s', (_, build) => {
    holds(plan(build, library(), NOW, FIRST_ANSWER));
  });

  it('a laminate thick enough to heat itself', () => {
    const build = smallBuild();
    const [zone] = build.part.zones;
    const outer = Array.from({ length: 20 }, () => ({ cloth: 'carbon-twill-200' }));
    const zones = [{ ...zone!, areaM2: 0.1, outer }];
    const resin = { system: 'orrin-40', hardener: 'slow' };
    const thick = { ...build, resin, part: { ...build.part, zones } };
    holds(plan(thick, library(), NOW, { ...FULL_ANSWER, schedules: 20 }));
  });

  it('in drawn builds', () => {
    forAll(
      fc.property(drawnBuilds, (build) => holds(plan(build, library(), NOW, FIRST_ANSWER))),
      { numRuns: 20, seed: 20_270_419 },
    );
  });

  it('over cures of every sort', () => {
    for (const [what, count] of Object.entries(counted)) {
      expect(count, `cures with ${what}`).toBeGreaterThan(0);
    }
  });
});
