/** Rows that a build has not got are offered; taking them is one edit, and the shop's own rows stay. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { offeredRows, acceptOfferedRows } from '../../../app/document/edit/offeredRows.ts';
import { freezeRows } from '../../../app/document/library.ts';
import { readBuild } from '../../../app/document/read.ts';
import type { Build, Library, PracticeRow } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { setLabour } from '../../../app/part/rate-edit.ts';
import { jsonOf, textOf, type Indexed } from '../../fixtures/read.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const kinds = (document: Build): Set<string> =>
  new Set(plan(document, library(), NOW, FIRST_ANSWER).result.stages.map(({ kind }) => kind));

describe('rows of the library', () => {
  const entry = jsonOf<Indexed[]>('index.json').find(({ document }) =>
    document.includes('frozen-library'),
  )!;
  const read = readBuild(textOf(entry.document), library());
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const old = read.document;

  it('that a frozen build of before lacks, or has in an older state, are offered', () => {
    const offered = offeredRows(old as never, library());
    const state = (id: string) => offered.find((row) => row.id === id)?.is;
    expect(state('tap-test')).toBe('new');
    expect(state('core-fit-mould')).toBe('new');
    expect(state('dull-core')).toBe('new');
    expect(state('mould-sealer')).toBe('new');
    expect(state('bag-off')).toBe('newer');
    expect(state('pvc-80')).toBe('newer');
    expect(state('demould')).toBeUndefined();
  });

  it('say how long a working day is: eight hours as before, until another figure is taken', () => {
    expect(offeredRows(old as never, library()).map(({ id }) => id)).toContain('work-day-hours');
    const sign = JSON.parse(readFileSync('samples/harbour-gate-sign.build.json', 'utf8')) as Build;
    const rows = (edit: (row: PracticeRow) => PracticeRow[]): Library => ({
      ...library(),
      practice: library().practice.flatMap((row) =>
        row.id === 'work-day-hours' ? edit(row) : [row],
      ),
    });
    const spare = (of: Library) =>
      plan(sign, of, NOW, FIRST_ANSWER).result.findings.find(({ code }) => code === 'no-spare-day');
    // Not four hours of work lie between the end of the plan and the unveiling.
    expect(spare(rows((row) => [row]))?.message).toMatch(/^Only 3\.\d h of working time/);
    expect(spare(rows(() => []))).toEqual(spare(rows((row) => [row])));
    expect(spare(rows((row) => [{ ...row, value: 3 }]))).toBeUndefined();
  });

  it('bring their stages once they are taken, and are offered no more', () => {
    expect(kinds(old)).not.toContain('tap-test');
    const { document, label } = acceptOfferedRows(old as never, library());
    expect(label).toMatch(/^Take \d+ rows of the library$/);
    const taken = kinds(document as Build);
    expect(taken).toContain('tap-test');
    expect(taken).toContain('arrival');
    expect(offeredRows(document, library())).toEqual([]);
    expect(readBuild(JSON.stringify(document), library()).ok).toBe(true);
  });

  it('never take the place of what the shop has set itself', () => {
    const { document } = setLabour(
      old as never,
      { ...library(), labour: old.library!.labour as never },
      'bag-off',
      'setupMinutes',
      99,
    );
    expect(offeredRows(document, library()).map(({ id }) => id)).not.toContain('bag-off');
  });

  it('are not offered to a build that has frozen the library of today, nor to one that froze none', () => {
    const small = readBuild(JSON.stringify(smallBuild()), library());
    if (!small.ok) throw new Error('not read');
    expect(offeredRows(small.document as never, library())).toEqual([]);
    const frozen = freezeRows(small.document, small.build, library());
    expect(offeredRows(frozen as never, library())).toEqual([]);
  });
});
