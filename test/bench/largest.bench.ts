/** The largest build that the document takes in: a crew of 12, 200 zones, 60 outside parties. */
import { readBuild } from '../../app/document/read.ts';
import type { Build, Library } from '../../app/document/schema.ts';
import { plan } from '../../app/answer/plan.ts';
import { FIRST_ANSWER, FULL_ANSWER } from '../../app/plan/outcome.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { shippedSamples } from '../../main/samples.ts';
import { DEFAULT_NOW } from '../browser/planner.ts';
import type { Suite } from './suite.ts';

const PEOPLE = 12;
const ZONES = 200;
const PARTIES = 60;

export async function bench(suite: Suite): Promise<void> {
  const library = shippedLibrary();
  const now = Date.parse(DEFAULT_NOW) / 60_000;
  const document = enlarged(library);
  // A new copy every time, so that nothing kept of the last one answers.
  await suite.measure('largest-first', { runs: 3, warmUp: 0, targetMs: 1000 }, () => {
    plan(structuredClone(document), library, now, FIRST_ANSWER);
  });
  await suite.measure('largest-full', { runs: 1, warmUp: 0, targetMs: 15_000 }, () => {
    plan(structuredClone(document), library, now, FULL_ANSWER);
  });
}

/** A sample whose people, zones and outside parties are repeated under names of their own. */
function enlarged(library: Library): Build {
  const sample = shippedSamples().find(({ name }) => name.startsWith('low-water-canopy'));
  if (!sample) throw new Error('the sample is gone');
  const small = JSON.parse(sample.text()) as Build;
  const document = {
    ...small,
    crew: repeated(small.crew, PEOPLE),
    outside: repeated(small.outside ?? [], PARTIES),
    part: { ...small.part, zones: repeated(small.part.zones, ZONES) },
  };
  const read = readBuild(JSON.stringify(document), library);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.document;
}

/** So many of a list's entries, over and over, each with an id and a name of its own. */
const repeated = <
  T extends { readonly id?: string | undefined; readonly name?: string | undefined },
>(
  list: readonly T[],
  count: number,
): T[] =>
  Array.from({ length: count }, (_, k) => {
    const one = list[k % list.length]!;
    const round = Math.floor(k / list.length);
    if (round === 0) return one;
    return { ...one, id: `${one.id ?? k}-${round}`, name: `${one.name} ${round + 1}` };
  });
