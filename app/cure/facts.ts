/** What the chemistry knows that a plan must hear of: typed facts, no sentences. */
import type { CoreRow, Milestone, MouldRow, ResinRow } from '../build/schema.ts';
import type { Calendar, Minute } from '../time/instant.ts';
import { largestBatchFor, batchCurve, type BatchCase } from './pot.ts';
import { postCureByCurve, type CurvePostCureNeed } from './post-cure.ts';
import type { PracticeLookup } from './practice.ts';
import type { StatefulClock } from './clock.ts';
import type { StackResult } from './stack.ts';
import type { PostCurePlan } from './tg.ts';
import type { CureModel } from './types.ts';

export type CureFact =
  /** Never comes within the profile; Tg stands where it stopped. */
  | {
      readonly fact: 'never-reached';
      readonly milestone: Milestone;
      readonly tgC: number | null;
      readonly slowed: boolean;
    }
  | {
      readonly fact: 'tg-short';
      readonly tgC: number;
      readonly neededTgC: number;
      readonly postCure: PostCurePlan;
    }
  | {
      readonly fact: 'gel-unattended';
      readonly gel: Minute;
      /** Nearest start within the float whose gel is seen; null when there is none. */
      readonly start: Minute | null;
    }
  | {
      readonly fact: 'cup-hot';
      readonly massG: number;
      readonly peakC: number;
      readonly runsAway: boolean;
      readonly potLifeMinutes: number | null;
      /** Largest batch that lives long enough to spread that slowly; 0 when none does. */
      readonly largestG: number;
    }
  | {
      readonly fact: 'too-hot';
      readonly cause: 'exotherm' | 'post-cure';
      readonly layer: string;
      readonly peakC: number;
      readonly limitC: number;
    }
  | { readonly fact: 'eaten'; readonly what: 'core' | 'mould'; readonly name: string }
  | {
      readonly fact: 'vacuum-high';
      readonly cause: 'core' | 'styrene';
      readonly name: string;
      readonly vacuumKPa: number;
      readonly mostKPa: number;
    };

/** Milestones that a cure started at `start` never comes to within the clock's profile, with why. */
export function unreachedFacts(
  clock: StatefulClock,
  start: Minute,
  until: Minute,
  milestones: readonly Milestone[],
): CureFact[] {
  const missing = milestones.filter((milestone) => {
    const reached = clock.reached(start, milestone);
    return reached === null || reached > until;
  });
  if (missing.length === 0) return [];
  const { tgC, slowed } = clock.stateAt(start, until);
  return missing.map((milestone) => ({ fact: 'never-reached', milestone, tgC, slowed }));
}

/** The part's Tg against what bake and service need, with the post-cure that would mend it. */
export function tgFacts(
  tgC: number,
  need: CurvePostCureNeed,
  practice: PracticeLookup,
): CureFact[] {
  if (tgC >= need.neededTgC) return [];
  const postCure = postCureByCurve(need, practice);
  return [{ fact: 'tg-short', tgC, neededTgC: need.neededTgC, postCure }];
}

/**
 * A gel that falls outside the hours in which somebody is there, with the nearest start inside the
 * float whose gel is seen. The first mix is taken to be made in the same hours.
 */
export function gelFacts(
  clock: StatefulClock,
  start: Minute,
  float: { readonly earliest: Minute; readonly latest: Minute },
  shopHours: Calendar,
): CureFact[] {
  const gel = clock.reached(start, 'gel');
  if (gel === null || shopHours.some((hours) => hours.start <= gel && gel < hours.end)) return [];
  let best: Minute | null = null;
  for (const hours of shopHours) {
    const from = clock.earliestStart(hours.start, 'gel');
    const to = clock.latestStart(hours.end - 1, 'gel');
    if (from === null || to === null) continue;
    // The first mix itself is made by somebody: inside working hours, and inside the float.
    for (const working of shopHours) {
      const low = Math.max(from, float.earliest, working.start);
      const high = Math.min(to, float.latest, working.end - 1);
      if (low > high) continue;
      const near = Math.min(high, Math.max(low, start));
      if (best === null || Math.abs(near - start) < Math.abs(best - start)) best = near;
    }
  }
  return [{ fact: 'gel-unattended', gel, start: best }];
}

/**
 * A batch that does not live as long as its spreading wants (time to spread over practice's share of
 * pot life): what is left in the cup goes on to the peak. With the largest batch that would do.
 */
export function cupFacts(
  model: CureModel,
  batch: BatchCase,
  wantedMinutes: number,
  practice: PracticeLookup,
): CureFact[] {
  const { peakC, runsAway, potLifeMinutes } = batchCurve(model, batch, practice);
  if (potLifeMinutes === null || potLifeMinutes >= wantedMinutes) return [];
  const largestG = largestBatchFor(model, wantedMinutes, batch, practice);
  return [{ fact: 'cup-hot', massG: batch.massG, peakC, runsAway, potLifeMinutes, largestG }];
}

/** Layers of a stack that reaction heat takes past their limit. */
export function stackFacts(stack: StackResult): CureFact[] {
  return stack.layers.flatMap(({ name, peakC, limitC }) =>
    limitC !== null && peakC > limitC
      ? [{ fact: 'too-hot' as const, cause: 'exotherm' as const, layer: name, peakC, limitC }]
      : [],
  );
}

export interface MaterialCase {
  readonly resin: Pick<ResinRow, 'name' | 'chemistry'>;
  readonly cores: readonly Pick<CoreRow, 'name' | 'takesStyrene' | 'maxVacuumKPa' | 'maxC'>[];
  readonly mould: Pick<MouldRow, 'name' | 'takesStyrene' | 'maxC'>;
  /** A sealed mould keeps styrene off. */
  readonly mouldSealed: boolean;
  readonly vacuumKPa: number;
  /** Hottest hold of a post-cure; null without one. */
  readonly postCureC: number | null;
}

/** Resin against core and mould: what it eats, what vacuum crushes, what heat softens. */
export function materialFacts(materials: MaterialCase, practice: PracticeLookup): CureFact[] {
  const { resin, cores, mould, mouldSealed, vacuumKPa, postCureC } = materials;
  const facts: CureFact[] = [];
  const styrene = resin.chemistry !== 'epoxy';
  for (const core of cores) {
    if (styrene && !core.takesStyrene) facts.push({ fact: 'eaten', what: 'core', name: core.name });
    if (vacuumKPa > core.maxVacuumKPa) {
      const { name, maxVacuumKPa: mostKPa } = core;
      facts.push({ fact: 'vacuum-high', cause: 'core', name, vacuumKPa, mostKPa });
    }
    if (postCureC !== null && postCureC > core.maxC) {
      facts.push(heatOver(core.name, postCureC, core.maxC));
    }
  }
  if (styrene && !mould.takesStyrene && !mouldSealed) {
    facts.push({ fact: 'eaten', what: 'mould', name: mould.name });
  }
  const mostKPa = practice('styrene-vacuum-kpa');
  if (styrene && vacuumKPa > mostKPa) {
    facts.push({ fact: 'vacuum-high', cause: 'styrene', name: resin.name, vacuumKPa, mostKPa });
  }
  if (postCureC !== null && postCureC > mould.maxC) {
    facts.push(heatOver(mould.name, postCureC, mould.maxC));
  }
  return facts;
}

const heatOver = (layer: string, peakC: number, limitC: number): CureFact => ({
  fact: 'too-hot',
  cause: 'post-cure',
  layer,
  peakC,
  limitC,
});
