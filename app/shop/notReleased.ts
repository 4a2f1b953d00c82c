/** Work that depends on an open question may not go to the floor: its sheets say so once, at the head. */
import type { StageResult } from '../document/schema.ts';
import type { CureSheetData, SheetData } from './sheetData.ts';
import { h, type SheetNode } from './tree.ts';

/** Beside the name of a stage that waits for an answer. */
export const HELD_MARK = '■ ';

const isHeld = (stage: StageResult): boolean => (stage.waitsFor?.length ?? 0) > 0;

/** The mark, or nothing where the stage is released. */
export const heldMark = (stage: StageResult): string => (isHeld(stage) ? HELD_MARK : '');

/** The questions that stages wait for, each once, in the order of the build. */
function openQuestions(facts: SheetData, stages: readonly StageResult[]): string[] {
  const ids = new Set(stages.flatMap((stage) => stage.waitsFor ?? []));
  return facts.build.part.questions.filter(({ id }) => ids.has(id)).map(({ text }) => text);
}

/** At the head of a sheet on which some of the stages wait for an answer; null where none does. */
export function notReleasedHead(facts: SheetData, shown: readonly StageResult[]): SheetNode | null {
  const held = shown.filter(isHeld);
  if (held.length === 0) return null;
  return box(
    `NOT RELEASED: what is marked ${HELD_MARK.trim()} waits for an answer`,
    openQuestions(facts, held),
  );
}

/** At the head of a cure's own sheets, where its wet work is held. */
export const notReleasedBox = (facts: SheetData, cure: CureSheetData): SheetNode | null =>
  notReleasedCard(
    facts,
    facts.result.stages.filter((stage) => stage.cure === cure.id),
    'nobody mixes',
  );

/** At the head of a card for some stages. @param who `nobody mixes` */
export function notReleasedCard(
  facts: SheetData,
  stages: readonly StageResult[],
  who: string,
): SheetNode | null {
  const questions = openQuestions(facts, stages);
  if (questions.length === 0) return null;
  return box(`NOT RELEASED: ${who} before this is settled`, questions);
}

const box = (title: string, questions: readonly string[]): SheetNode =>
  h(
    'section',
    { class: 'verdict' },
    h('h2', {}, `■ ${title}`),
    h(
      'ul',
      {},
      questions.map((question) => h('li', {}, question)),
    ),
  );
