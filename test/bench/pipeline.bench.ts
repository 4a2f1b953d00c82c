/** The pipeline on the largest sample: the first answer on the screen's thread, the full one, and the paper. */
import { readBuild } from '../../app/document/read.ts';
import type { Build } from '../../app/document/schema.ts';
import { FIRST_ANSWER, FULL_ANSWER } from '../../app/plan/outcome.ts';
import { plan } from '../../app/answer/plan.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { shippedSamples } from '../../main/samples.ts';
import { DEFAULT_NOW } from '../browser/planner.ts';
import { sheetsHtml } from '../../app/shop/sheets.ts';
import { printPdf } from '../../main/pdf/print.ts';
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
  await suite.measure('pipeline-first', { runs: 200, warmUp: 20, targetMs: 10 }, () => {
    plan(document, library, now, FIRST_ANSWER);
  });
  // Another question every time, so that nothing remembered from the last run answers it.
  let day = 0;
  await suite.measure('pipeline-first-anew', { runs: 100, targetMs: 10 }, () => {
    day = (day + 1) % 5;
    plan(document, library, now + day * 1440, FIRST_ANSWER);
  });
  // A zone of another size every time, as after an edit: the part is measured and cut again.
  let edits = 0;
  await suite.measure('pipeline-first-edited', { runs: 100, targetMs: 10 }, () => {
    edits += 1;
    plan(resized(document, 1 + edits / 10_000), library, now, FIRST_ANSWER);
  });
  // The paper of the largest sample: as a page, and printed by a browser that is started for it.
  const outcome = plan(document, library, now, FIRST_ANSWER);
  await suite.measure('pipeline-paper-html', { runs: 20, targetMs: 500 }, () => {
    sheetsHtml(outcome);
  });
  if (suite.wanted('pipeline-paper-pdf')) {
    const html = sheetsHtml(outcome);
    await suite.measure('pipeline-paper-pdf', { runs: 5, warmUp: 1, targetMs: 4000 }, async () => {
      await printPdf(html, 0);
    });
  }
  await suite.measure('pipeline-full', { runs: 10, warmUp: 1, targetMs: 500 }, () => {
    plan(structuredClone(document), library, now, FULL_ANSWER);
  });
}

/** The build with its first zone so many times as large. */
const resized = (document: Build, factor: number): Build => ({
  ...document,
  part: {
    ...document.part,
    zones: document.part.zones.map((zone, i) =>
      i === 0 ? { ...zone, areaM2: zone.areaM2 * factor } : zone,
    ),
  },
});

/** The sample with the most stages. */
function largest(documents: readonly Build[], stages: (document: Build) => number): Build {
  const counted = documents.map((document) => ({ document, count: stages(document) }));
  return counted.reduce((best, one) => (one.count > best.count ? one : best)).document;
}
