/** Full names of timeline items, as a screen reader says them and a tooltip shows them. */
import type { StageResult } from '../document/schema.ts';
import { fixedByWords } from '../messages/stages.ts';
import { COURSE_WORDS, courseOf } from '../shop/course.ts';
import { milestonesOf, type SheetData } from '../shop/sheetData.ts';
import { dayClock, floatWords } from '../shop/words.ts';

/** What, who, start, end, spare time, latest start, state. */
export function spokenStage(facts: SheetData, stage: StageResult, stretches: number): string {
  const course = COURSE_WORDS[courseOf(stage)];
  const parts = [course === '' ? `${stage.name}.` : `${stage.name}, ${course}.`];
  if (stage.start !== null && stage.end !== null) {
    parts.push(`${dayClock(stage.start)} to ${dayClock(stage.end)}.`);
  }
  if (stage.people.length > 0) parts.push(`By ${facts.personNames(stage.people)}.`);
  if (stretches > 1) parts.push(`${stretches} stretches of work.`);
  parts.push(...floatParts(stage));
  const pinned = pinnedCause(facts, stage.id);
  if (pinned !== null) parts.push(fixedByWords(pinned));
  if (stage.kind === 'cure') parts.push(...milestoneParts(facts, stage));
  for (const finding of facts.result.findings) {
    if (finding.stage === stage.id && finding.severity !== 'note') parts.push(finding.message);
  }
  return parts.join(' ');
}

/** Name of the stage fixed by hand that keeps this one from starting sooner. */
export function pinnedCause(
  { detail, result }: Pick<SheetData, 'detail' | 'result'>,
  id: string,
): string | null {
  const cause = detail.shown?.fixedBy?.[id];
  return result.stages.find((stage) => stage.id === cause)?.name ?? null;
}

function floatParts(stage: StageResult): string[] {
  const parts: string[] = [];
  if (stage.floatHours !== null) {
    const words = floatWords(stage.floatHours);
    parts.push(
      stage.floatHours < 0
        ? `${words}.`
        : stage.floatHours === 0
          ? 'Nothing to spare.'
          : `${words} to spare.`,
    );
  }
  if (stage.latestStart !== null) parts.push(`Latest start ${dayClock(stage.latestStart)}.`);
  if (stage.critical) parts.push('A delay here delays the end.');
  return parts;
}

function milestoneParts(facts: SheetData, stage: StageResult): string[] {
  const row = facts.cures.find((cure) => cure.id === stage.cure)?.row;
  if (!row) return [];
  return milestonesOf(row)
    .filter(({ key }) => key !== 'firstMix')
    .map(({ label, at, key }) =>
      at === null
        ? key === 'bondUntil'
          ? ''
          : `${label}: ${key === 'gelLatest' ? 'not known in this cold' : 'not reached'}.`
        : `${label} ${dayClock(at)}.`,
    )
    .filter((text) => text !== '');
}
