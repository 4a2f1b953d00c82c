/** The odds of the plan that a document gets, as one job of its own. */
import type { Build, Library } from '../document/schema.ts';
import type { Odds } from '../judge/odds.ts';
import type { Minute } from '../time/instant.ts';
import { contextOf } from '../plan/context.ts';
import { judge } from './judgement.ts';
import { replayOdds, type OddsProgress } from './odds.ts';

/** Replays of an odds job. */
const ODDS_JOB_REPLAYS = 10_000;

/**
 * Plans the document and replays its plan, with what each stage costs. Yields after every few hundred
 * replays; leaving it is a way to stop. Null when nothing could be placed.
 * @param ownBuilds finished builds of the shop's own behind its records
 */
export function* oddsJob(
  document: Build,
  shipped: Library,
  now: Minute,
  ownBuilds = 0,
): Generator<OddsProgress, Odds | null, void> {
  const context = contextOf(document, shipped, now);
  const { taken } = judge(context, document, shipped, { scope: 'first', schedules: 1 });
  return yield* replayOdds(context, taken, {
    replays: ODDS_JOB_REPLAYS,
    ownBuilds,
    costs: true,
  });
}
