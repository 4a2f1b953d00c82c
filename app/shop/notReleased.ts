/** Work that hangs on an open question may not go to the floor: its rows and sheets say so. */
import type { StageResult } from '../document/schema.ts';
import type { CureSheetData, SheetData } from './sheetData.ts';
import { h, type SheetNode } from './tree.ts';

/** Texts of the questions that a stage waits for; empty when it is released. */
const openQuestions = (facts: SheetData, stage: StageResult): string[] =>
  (stage.waitsFor ?? []).map(
    (id) => facts.build.part.questions.find((question) => question.id === id)?.text ?? id,
  );

/** Two words beside the stage's name, where a row is all there is room for. */
export const notReleasedMark = (stage: StageResult): SheetNode | null =>
  stage.waitsFor?.length ? h('small', { class: 'not-released' }, '■ NOT RELEASED') : null;

/** A line under the stage's name: the question that comes first and how many more. */
export function notReleasedLine(facts: SheetData, stage: StageResult): SheetNode | null {
  const [first, ...more] = openQuestions(facts, stage);
  if (first === undefined) return null;
  const rest = more.length > 0 ? ` and ${more.length} more` : '';
  return h('div', { class: 'not-released' }, `■ NOT RELEASED, waits for: ${first}${rest}`);
}

/** A box at the head of a cure's own sheets, where its wet work is held. */
export function notReleasedBox(facts: SheetData, cure: CureSheetData): SheetNode | null {
  const stages = facts.result.stages.filter((stage) => stage.cure === cure.id);
  const questions = [...new Set(stages.flatMap((stage) => openQuestions(facts, stage)))];
  if (questions.length === 0) return null;
  return h(
    'section',
    { class: 'verdict' },
    h('h2', {}, '■ NOT RELEASED: nobody mixes before this is settled'),
    h(
      'ul',
      {},
      questions.map((question) => h('li', {}, question)),
    ),
  );
}
