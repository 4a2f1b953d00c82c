/** For every finding, a build that has it in these very words and numbers, and one that has it not. */
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../app/document/schema.ts';
import { FINDINGS } from '../../../app/messages/findings.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { LIBRARY, NOW, planFor } from '../judge/builds.ts';
import type { FindingCase } from './cases/case.ts';
import { CURE_CASES } from './cases/cure.ts';
import { HEAT_CASES } from './cases/heat.ts';
import { PART_CASES } from './cases/part.ts';
import { ROUTE_CASES } from './cases/route.ts';
import { WORK_CASES } from './cases/work.ts';

const CASES = [...PART_CASES, ...CURE_CASES, ...HEAT_CASES, ...WORK_CASES, ...ROUTE_CASES];

/** Plans already made: many cases share a build that has nothing wrong. */
const planned = new Map<string, readonly Finding[]>();

/** All that is told of a build with the code of the case, of the taken route first. */
function told(one: FindingCase, document: FindingCase['has']): Finding[] {
  const key = one.library ? null : JSON.stringify([document, one.scope, one.now]);
  const all = (key !== null && planned.get(key)) || findingsOf(one, document);
  if (key !== null) planned.set(key, all);
  return all.filter((finding) => finding.code === one.code);
}

function findingsOf(one: FindingCase, document: FindingCase['has']): Finding[] {
  const now = one.now === undefined ? NOW : isoToMinute(one.now)!;
  const { result } = planFor(document, one.scope ?? 'first', now, one.library ?? LIBRARY);
  return [...result.findings, ...result.routes.flatMap((route) => route.findings)];
}

const named = CASES.map((one) => [`${one.code}: ${one.message.slice(0, 50)}`, one] as const);

describe('findings', () => {
  it.each(named)('%s', (_name, one) => {
    const { severity, message, numbers } = one;
    const [finding] = told(one, one.has);
    expect(finding).toMatchObject({ severity, message });
    expect(finding!.numbers).toEqual(numbers);
    expect(told(one, one.hasNot)).toEqual([]);
  });

  it('are each raised by some build here, at every severity that their entry allows', () => {
    const wanted = Object.entries(FINDINGS).flatMap(([code, { severity }]) =>
      [severity].flat().map((one) => `${one} ${code}`),
    );
    const raised = new Set(CASES.map(({ severity, code }) => `${severity} ${code}`));
    expect(wanted.filter((one) => !raised.has(one))).toEqual([]);
  });
});
