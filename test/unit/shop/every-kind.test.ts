/** Every kind of stage: its labour row in three points, its words, its row on the timeline and its place on paper. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { STAGE_KINDS, type Build, type StageKind } from '../../../app/document/schema.ts';
import { cautionsFor } from '../../../app/messages/safety.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { sheetDataOf } from '../../../app/shop/sheetData.ts';
import { sheetsHtml } from '../../../app/shop/sheets.ts';
import { timelineRows } from '../../../app/timeline/items.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

/** Nobody's hands are on these; fairing and priming have a row for each round. */
const WITHOUT_ROW: readonly StageKind[] = [
  ...(['mould-heat', 'cure', 'post-cure', 'wait', 'outside', 'own', 'fair', 'prime'] as const),
];

describe('every kind of stage', () => {
  it('has a row of labour with provenance and three points, or is no work of the shop', () => {
    const { labour, finishing } = library();
    const missing = STAGE_KINDS.filter((kind) => !labour.some(({ stage }) => stage === kind));
    expect(missing.toSorted()).toEqual(WITHOUT_ROW.toSorted());
    for (const row of labour) {
      expect(row.provenance.source).not.toBe('');
      expect((row.low ?? 1 - row.spread) < 1).toBe(true);
      expect((row.high ?? 1 + row.spread) > 1).toBe(true);
    }
    expect(new Set(finishing.map(({ stage }) => stage))).toEqual(new Set(['fair', 'prime']));
  });

  it('has cautions or none, worded; what a full plan holds stands in a row of the timeline and on paper', () => {
    for (const kind of STAGE_KINDS) {
      const said = cautionsFor(kind, [], { heated: true, alone: true });
      expect(said.every((words) => /^[A-Z].*\.$/.test(words))).toBe(true);
    }
    const zone = smallBuild().part.zones[0]!;
    const inserts = [
      { name: 'Plate', count: 2, areaM2: 0.005, cloth: 'glass-twill-300', plies: 8 },
    ];
    const document: Build = {
      ...smallBuild(),
      mould: { ...smallBuild().mould, testPanel: true, draftDeg: 0.5 },
      part: {
        ...smallBuild().part,
        inserts,
        edge: { tape: 'after-night' },
        zones: [{ ...zone, edgeM: 4, closeout: { plies: [{ cloth: 'carbon-twill-200' }] } }],
      },
    };
    const outcome = plan(document, library(), NOW, FIRST_ANSWER);
    const drawn = new Set(timelineRows(outcome).flatMap(({ items }) => items.map(({ id }) => id)));
    const facts = sheetDataOf(outcome);
    const paper = sheetsHtml(outcome).replaceAll('&amp;', '&').replaceAll('&#39;', "'");
    const kinds = new Set<string>();
    for (const { stage } of facts.placed) {
      kinds.add(stage.kind);
      expect(drawn.has(stage.id)).toBe(true);
    }
    expect(kinds.size).toBeGreaterThanOrEqual(28);
    // Orders stand in the list of what to order, under their supplier; a cure is the title of its card.
    const onPaper = ({ kind, name }: (typeof facts.placed)[number]['stage']) =>
      kind === 'order'
        ? paper.toLowerCase().includes(name.replace(/^Order from (.*),.*$/, '$1').toLowerCase())
        : kind === 'cure'
          ? paper.toLowerCase().includes(name.toLowerCase())
          : paper.includes(name);
    const unprinted = facts.placed
      .map(({ stage }) => stage)
      .filter((stage) => !onPaper(stage))
      .map(({ id }) => id);
    expect(unprinted).toEqual([]);
  });
});
