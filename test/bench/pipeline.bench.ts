/** The pipeline on the largest sample: the first answer on the screen's thread, and the full one. */
import { readBuild } from '../../app/document/read.ts';
import type { Build } from '../../app/document/schema.ts';
import { FIRST_ANSWER, FULL_ANSWER } from '../../app/plan/outcome.ts';
import { plan } from '../../app/answer/plan.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { shippedSamples } from '../../main/samples.ts';
import { DEFAULT_NOW } from '../browser/planner.ts';
import type { Suite } from './suite.ts';

export async function bench(suite: Suite): Promise<void> {
  const library = shippedLibrary();
  const now = Date.parse(DEFAULT_NOW) / 60_000;
  const document = largest(
    shippedSamples().map(({ name, text }) => {
      const read = readBuild(text(), library);
      if (!read.ok) throw new Error(`${name} cannot be read`);
      return read.document;
    }),
    (one) => plan(one, library, now, FIRST_ANSWER).result.stages.length,
  );
  await suite.measure('pipeline-first', { runs: 200, warmUp: 20, targetMs: 20 }, () => {
    plan(document, library, now, FIRST_ANSWER);
  });
  // Another question every time, so that nothing remembered from the last run answers it.
  let day = 0;
  await suite.measure('pipeline-first-anew', { runs: 100, targetMs: 20 }, () => {
    day = (day + 1) % 5;
    plan(document, library, now + day * 1440, FIRST_ANSWER);
  });
  await suite.measure('pipeline-full', { runs: 10, warmUp: 1 }, () => {
    plan(document, library, now, FULL_ANSWER);
  });
}

/** The sample with the most stages. */
function largest(documents: readonly Build[], stages: (document: Build) => number): Build {
  const counted = documents.map((document) => ({ document, count: stages(document) }));
  return counted.reduce((best, one) => (one.count > best.count ? one : best)).document;
}
