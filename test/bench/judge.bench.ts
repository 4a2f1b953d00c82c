/** Closing times, the search over levers and the odds, on the largest sample. */
import { readBuild } from '../../app/document/read.ts';
import { whyImpossible } from '../../app/judge/possible.ts';
import { wetFaultsOf } from '../../app/plan/wetWindows.ts';
import { contextOf } from '../../app/plan/context.ts';
import { judge } from '../../app/answer/judgement.ts';
import { leverSearch } from '../../app/answer/leverSearch.ts';
import { oddsNow } from '../../app/answer/odds.ts';
import { draftRoute, planRoute } from '../../app/plan/routePlan.ts';
import { enumerateRoutes } from '../../app/route/routes.ts';
import { closingTime } from '../support/closing.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { shippedSamples } from '../../main/samples.ts';
import { DEFAULT_NOW } from '../browser/planner.ts';
import type { Suite } from './suite.ts';

export async function bench(suite: Suite): Promise<void> {
  const library = shippedLibrary();
  const now = Date.parse(DEFAULT_NOW) / 60_000;
  const first = { scope: 'first', schedules: 1 } as const;
  const samples = shippedSamples().map(({ name, text }) => {
    const read = readBuild(text(), library);
    if (!read.ok) throw new Error(`${name} cannot be read`);
    const context = contextOf(read.document, library, now);
    return {
      document: read.document,
      context,
      taken: judge(context, read.document, library, first).taken,
    };
  });
  const stages = (one: (typeof samples)[number]) => one.taken.network.problem.stages.length;
  const { document, context, taken } = samples.reduce((a, b) => (stages(b) > stages(a) ? b : a));

  const problems = () =>
    enumerateRoutes(context.part.layups).flatMap((route) => {
      const draft = draftRoute(context, route);
      if (
        whyImpossible(context, draft, wetFaultsOf(context, draft)).some(
          (reason) => reason.severity === 'stop',
        )
      )
        return [];
      return [{ ...planRoute(context, draft, 0).network.problem, from: context.first }];
    });
  await suite.measure('judge-closings-all', { runs: 5, warmUp: 1, targetMs: 300 }, () => {
    for (const problem of problems()) closingTime(problem);
  });
  await suite.measure('judge-closing-first', { runs: 10, warmUp: 1, targetMs: 200 }, () => {
    const draft = draftRoute(context, enumerateRoutes(context.part.layups)[0]!);
    closingTime({ ...planRoute(context, draft, 0).network.problem, from: context.first });
  });
  await suite.measure('judge-odds-10000', { runs: 3, warmUp: 1, targetMs: 5000 }, () => {
    oddsNow(context, taken, { replays: 10_000 });
  });
  await suite.measure('judge-search-front', { runs: 3, targetMs: 3000 }, () => {
    for (const progress of leverSearch(document, library, now))
      if (progress.front.length > 0) break;
  });
  await suite.measure('judge-search-all', { runs: 2, targetMs: 5000 }, () => {
    const run = leverSearch(document, library, now);
    let step = run.next();
    while (!step.done) step = run.next();
    if (step.value.screened < 2000) throw new Error(`${step.value.screened} screened`);
  });
}
