/** The ticks of a phone as a short text: its form, and reading it without trusting any of it. */
import type { TicksFault } from '../../messages/phone.ts';
import { STAMPS, type Stamp } from '../floor/steps.ts';
import type { Minute } from '../../time/instant.ts';
import { checkSum } from './sum.ts';

/** First line of the text; its number goes up when the form changes. */
export const TICKS_HEAD = 'BACKCURE TICKS 1';
/** What is longer is not looked at. */
export const MOST_CHARACTERS = 100_000;
export const MOST_TICKS = 1000;

export interface Tick {
  readonly key: string;
  readonly stage: string;
  readonly stamp: Stamp;
  readonly batch: number | null;
  readonly at: Minute;
}

export interface Ticks {
  readonly build: string;
  /** Moment of the plan that the phone shows. */
  readonly planAt: Minute;
  /** What `planSum` said of that plan. */
  readonly planSum: string;
  /** In order of time; ties as they were sent. */
  readonly ticks: readonly Tick[];
}

export type ReadTicks =
  { readonly ok: true; readonly value: Ticks } | { readonly ok: false; readonly fault: TicksFault };

const PLAN_LINE = /^plan (\d{4}-\d\d-\d\dT\d\d:\d\dZ) ([0-9a-f]{8})$/;
const BUILD_LINE = /^build ([A-Za-z0-9._:+~/-]{1,300})$/;
const TICK_LINE = /^([A-Za-z0-9._:+~/-]{1,300}) (\d{4}-\d\d-\d\dT\d\d:\d\dZ)$/;

const fault = (of: TicksFault): ReadTicks => ({ ok: false, fault: of });

/** Minute of `2027-04-21T08:05Z`; null where there is no such moment. */
function minuteOf(text: string): Minute | null {
  const ms = Date.parse(text);
  return Number.isNaN(ms) || new Date(ms).toISOString().slice(0, 16) !== text.slice(0, 16)
    ? null
    : ms / 60_000;
}

/**
 * Reads what was pasted, in one pass. Lines before its head and after its sum are left out: a message often
 * comes with a greeting. Nothing is known yet of whether the build has such stages.
 */
export function readTicks(pasted: string): ReadTicks {
  if (pasted.length > MOST_CHARACTERS) return fault({ code: 'too-long' });
  const all = pasted.split(/\r\n|\r|\n/).map((line) => line.trim());
  const head = all.findIndex((line) => line.startsWith('BACKCURE TICKS'));
  if (head < 0) return fault({ code: 'no-ticks' });
  if (all[head] !== TICKS_HEAD) {
    return fault({ code: 'other-version', found: all[head]!.slice(0, 40) });
  }
  const end = all.findIndex((line, i) => i > head && line.startsWith('sum '));
  if (end < 0) return fault({ code: 'cut-off' });
  const lines = all.slice(head, end).filter((line) => line !== '');
  if (all[end] !== `sum ${checkSum(lines.join('\n'))}`) return fault({ code: 'wrong-sum' });
  return readLines(lines);
}

function readLines(lines: readonly string[]): ReadTicks {
  const build = BUILD_LINE.exec(lines[1] ?? '')?.[1];
  if (build === undefined) return fault({ code: 'bad-line', line: 2 });
  const plan = PLAN_LINE.exec(lines[2] ?? '');
  const planAt = plan ? minuteOf(plan[1]!) : null;
  if (plan === null || planAt === null) return fault({ code: 'bad-line', line: 3 });
  if (lines.length === 3) return fault({ code: 'no-ticks' });
  if (lines.length - 3 > MOST_TICKS) return fault({ code: 'too-long' });
  const seen = new Set<string>();
  const ticks: Tick[] = [];
  for (const [i, line] of lines.slice(3).entries()) {
    const tick = readTick(line);
    if (tick === null) return fault({ code: 'bad-line', line: i + 4 });
    if (seen.has(tick.key)) return fault({ code: 'twice', line: i + 4 });
    seen.add(tick.key);
    ticks.push(tick);
  }
  ticks.sort((a, b) => a.at - b.at);
  return { ok: true, value: { build, planAt, planSum: plan[2]!, ticks } };
}

/** `layup:skin/mixed/1 2027-04-21T08:05Z` */
function readTick(line: string): Tick | null {
  const found = TICK_LINE.exec(line);
  const at = found ? minuteOf(found[2]!) : null;
  if (!found || at === null) return null;
  const key = found[1]!;
  const pieces = key.split('/');
  const last = pieces.at(-1)!;
  const batch = /^\d{1,4}$/.test(last) ? Number(pieces.pop()) : null;
  const stamp = STAMPS.find((one) => one === pieces.at(-1));
  const stage = pieces.slice(0, -1).join('/');
  if (stamp === undefined || stage === '' || (batch !== null) !== (stamp === 'mixed')) return null;
  return { key, stage, stamp, batch, at };
}
