/** The three answers of the header: does it fit, what cannot move next, what must be merged or bought. */
import type { PlanResult, RouteResult, StageKind, StageResult } from '../document/schema.ts';
import { elapsed } from '../messages/words.ts';
import { withoutLength } from '../messages/stages.ts';
import { wayOutAtGlance } from './wayOutAtGlance.ts';
import { byRoom, dayClock, spareDate, spareWords } from './words.ts';
import { span } from '../time/words.ts';
import { plural } from '../units/words.ts';

export interface Answer {
  readonly tone: 'good' | 'warn' | 'stop' | 'plain';
  readonly headline: string;
  readonly detail: string;
  /** The stage that the answer is about, shown when it is picked. */
  readonly stage: string | null;
}

export interface Glance {
  readonly fit: Answer;
  readonly next: Answer;
  readonly force: Answer;
}

const instant = (iso: string): number => Date.parse(iso);
const HOUR_MS = 3_600_000;

/** Everything the header says, from the contract's result alone. */
export function glanceAt(result: PlanResult): Glance {
  return { fit: fitOf(result), next: nextOf(result), force: forceOf(result) };
}

function lastOf(stages: readonly StageResult[]): StageResult | null {
  let last: StageResult | null = null;
  for (const stage of stages) {
    if (stage.end === null) continue;
    if (last === null || instant(stage.end) > instant(last.end!)) last = stage;
  }
  return last;
}

function fitOf(result: PlanResult): Answer {
  const last = lastOf(result.stages);
  if (!last) {
    const stop = result.findings.find((f) => f.severity === 'stop');
    const detail = stop?.message ?? 'No order of the stages can be placed.';
    return { tone: 'stop', headline: 'No plan', detail, stage: stop?.stage ?? null };
  }
  const ready = `Ready ${dayClock(last.end!)}, shown ${dayClock(result.deadline)}.`;
  const late = result.lateMinutes ?? 0;
  if (late > 0) {
    return {
      tone: 'stop',
      headline: `Late by ${elapsed(late)}`,
      detail: ready,
      stage: last.id,
    };
  }
  if (!result.fits) {
    const stop = result.findings.find((f) => f.severity === 'stop');
    return {
      tone: 'stop',
      headline: stop ? 'In time, but not to be built so' : 'Does not fit',
      detail: stop
        ? `${firstClause(stop.message)}. Findings say why${stop.levers.length > 0 ? ', and what would mend it' : ''}.`
        : ready,
      stage: stop?.stage ?? null,
    };
  }
  const least = leastSpare(result);
  if (!least) return { tone: 'good', headline: 'Fits', detail: ready, stage: null };
  const none = least.workDays === 0 && least.workMinutes < 1;
  const tightest = result.stages.find(({ id }) => id === least.tightest)?.name ?? least.tightest;
  const before = least.before === null ? '' : ` before ${spareDate(least, result.stages)}`;
  return {
    tone: least.workDays === 0 && least.workMinutes < SHORT_SPARE_MINUTES ? 'warn' : 'good',
    headline: none ? 'Fits, nothing to spare' : `Fits, ${spareWords(least)} to spare`,
    detail: `${ready} Tightest${before}: ${tightest}.`,
    stage: least.tightest,
  };
}

/** Of a message whose whole stands elsewhere. */
const firstClause = (message: string): string => message.split(/[;.]\s/)[0]!.replace(/\.$/, '');

/** Half a working day, minutes: one bag that leaks can take so much. */
const SHORT_SPARE_MINUTES = 4 * 60;

/** What is to spare before the date that leaves the least. */
const leastSpare = ({ spare = [] }: PlanResult) => [...spare].sort(byRoom)[0];

function nextOf(result: PlanResult): Answer {
  const next = result.nextDeadline;
  if (!next) {
    return {
      tone: 'plain',
      headline: dayClock(result.deadline),
      detail: 'The unveiling: nothing before it is left to start.',
      stage: null,
    };
  }
  const stage = result.stages.find(({ id }) => id === next.stage);
  const name = shortName(stage, next.stage);
  const about = { headline: `${name} by ${dayClock(next.at)}`, stage: next.stage };
  const left = (instant(next.at) - instant(result.now)) / HOUR_MS;
  if (left < 0) {
    return {
      ...about,
      tone: 'stop',
      headline: `${name}: too late`,
      detail: `It had to begin ${dayClock(next.at)}, ${span(left)} ago.`,
    };
  }
  const earliest = stage?.earliestStart ?? null;
  if (earliest !== null && instant(earliest) > instant(next.at)) {
    const detail = `It can begin ${dayClock(earliest)} at the earliest.`;
    return { ...about, tone: 'stop', detail };
  }
  const after =
    next.by === 'closing'
      ? 'Later than that, this way of building does not make the date.'
      : 'Later than that, the plan has to change.';
  const detail = `In ${span(left)}. ${after}`;
  return { ...about, tone: left < 24 ? 'warn' : 'plain', detail };
}

/** Stages whose names end with how long others take for them, which says nothing beside a moment. */
const NAMED_WITH_LENGTH: ReadonlySet<StageKind> = new Set(['order', 'outside']);

export const shortName = (stage: StageResult | undefined, id: string): string =>
  stage && NAMED_WITH_LENGTH.has(stage.kind) ? withoutLength(stage.name) : (stage?.name ?? id);

function forceOf(result: PlanResult): Answer {
  const merge = result.findings.find((f) => f.code === 'merge-forced');
  if (merge && result.fits) {
    return {
      tone: 'warn',
      headline: 'Merge forced',
      detail: firstSentence(merge.message),
      stage: merge.stage,
    };
  }
  if (!result.fits) return wayOutAtGlance(result.findings);
  const closing = nextToClose(result.routes, result.now);
  return closing
    ? {
        tone: 'plain',
        headline: 'Nothing forced',
        detail: `The first way of building to close is that of ${plural(closing.cures.length, 'cure')}: ${dayClock(closing.closes!)}.`,
        stage: null,
      }
    : {
        tone: 'good',
        headline: 'Nothing forced',
        detail: 'No merge and no purchase.',
        stage: null,
      };
}

/** The rest stands in full under Findings. */
const firstSentence = (text: string): string => /^.*?[.:](?=\s|$)/.exec(text)?.[0] ?? text;

function nextToClose(routes: readonly RouteResult[], now: string): RouteResult | null {
  const open = routes.filter(
    (r) => r.possible && r.open && r.closes !== null && instant(r.closes) >= instant(now),
  );
  return open.sort((a, b) => instant(a.closes!) - instant(b.closes!))[0] ?? null;
}
