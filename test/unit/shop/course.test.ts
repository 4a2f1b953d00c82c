/** Done, running and to come look different: in the picture, in its words, on day sheets and on the wall. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { sheetsHtml } from '../../../app/shop/sheets.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { timelineRows } from '../../../app/timeline/items.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';
import { printedSheets } from '../../support/paper.ts';

const build: Build = {
  ...smallBuild(),
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
};
const before = plan(build, library(), NOW, FIRST_ANSWER);
const planned = (id: string) => before.result.stages.find((stage) => stage.id === id)!;
const at = isoToMinute(planned('release').start!)! + 30;
const records = before.result.stages
  .filter(({ kind, end }) => kind !== 'wait' && isoToMinute(end!)! < at)
  .map(({ id, start, end }) => ({ stage: id, start: start!.slice(0, 16), end: end!.slice(0, 16) }));
const begun = { stage: 'release', start: planned('release').start!.slice(0, 16), end: null };
const outcome = plan({ ...build, records: [...records, begun] }, library(), at, FIRST_ANSWER);
const items = timelineRows(outcome).flatMap((row) => row.items);
const item = (id: string) => items.find((one) => one.id === id)!;
const html = sheetsHtml(outcome);
const sheets = printedSheets(html);
const rowOf = (name: string) =>
  sheets
    .filter(({ id }) => id.startsWith('day-'))
    .flatMap(({ rows }) => rows.map((cells) => cells.join(' | ')))
    .find((row) => row.includes(name))!;

describe('what is done, what runs and what is to come', () => {
  it('are told apart in the picture, by shape and in words', () => {
    expect(item('seal')).toMatchObject({ course: 'done' });
    expect(item('seal').spoken).toContain('Seal mould, done.');
    expect(item('release')).toMatchObject({ course: 'running' });
    expect(item('release').spoken).toMatch(/^Release: [^.]*, running\./);
    expect(item('layup:skin')).toMatchObject({ course: 'to-come' });
    expect(item('layup:skin').spoken).toMatch(/^Lay up outer skin\./);
  });

  it('are told apart on the day sheets, where a stage to come alone has a latest start', () => {
    expect(rowOf('Seal mould')).toContain('✓ Seal mould');
    expect(rowOf('Seal mould')).toMatch(/done/);
    expect(rowOf('Release: ')).toContain('▶ Release: ');
    expect(rowOf('Release: ')).toMatch(/running/);
    expect(rowOf('Lay up outer skin')).not.toMatch(/[✓▶]|done|running/);
    expect(rowOf('Lay up outer skin')).toMatch(/(by|▲) /);
  });

  it('are told apart on the wall, in the bars and in the lines below them', () => {
    for (const course of ['done', 'running', 'to-come']) {
      expect(html, course).toMatch(new RegExp(`class="work ${course}`));
    }
    const week = sheets.find(({ id, text }) => id.startsWith('week-') && text.includes('Seal'))!;
    expect(week.text).toContain('✓ Seal mould');
    expect(week.text).not.toContain('✓ Lay up outer skin');
  });
});
