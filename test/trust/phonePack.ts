/** The text that a phone gives back, mutated: read, held against its plan, and written down where it passes. */
import { plan } from '../../app/answer/plan.ts';
import { writeRecords } from '../../app/document/edit/records.ts';
import { readDocument } from '../../app/document/read.ts';
import type { Build, Library } from '../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { openSteps } from '../../app/shop/floor/steps.ts';
import { phoneContent, utc } from '../../app/shop/phone/content.ts';
import { isAsked, isRefused, reviewTicks } from '../../app/shop/phone/review.ts';
import { checkSum } from '../../app/shop/phone/sum.ts';
import { readTicks, TICKS_HEAD } from '../../app/shop/phone/text.ts';

const MINUTES_OF_A_DAY = 1440;

export interface PhonePack {
  /** Every tick of the plan, as the phone sends it. */
  readonly source: Buffer;
  /** True where the ticks are of the build; throws where what they write down can not be read again. */
  readonly taken: (bytes: Buffer) => boolean;
}

export function phonePack(build: Build, library: Library, now: number): PhonePack {
  const outcome = plan(build, library, now, FIRST_ANSWER);
  const content = phoneContent(outcome);
  const rows = openSteps(outcome).map(({ key, at }) => `${key} ${utc(at ?? now)}`);
  const lines = [TICKS_HEAD, `build ${content.build}`, `plan ${content.plan}`, ...rows];
  const taken = (bytes: Buffer): boolean => {
    const read = readTicks(summed(bytes.toString()));
    if (!read.ok) return false;
    const last = read.value.ticks.at(-1)!.at;
    const review = reviewTicks(outcome, read.value, last + MINUTES_OF_A_DAY, []);
    if (review.otherBuild) return false;
    if (review.rows.some((row) => isAsked(row) || isRefused(row))) return true;
    const entries = [...review.implied, ...review.entries];
    const { document } = writeRecords(build, entries, 'Ticks of a phone');
    if (!readDocument(document, library).ok) throw new Error('ticks wrote an unreadable build');
    return true;
  };
  return { source: Buffer.from(`${lines.join('\n')}\nsum 00000000\n`), taken };
}

/** A person's slip breaks the sum and nothing else is looked at; with the right sum all of it is. */
const summed = (text: string): string => {
  const [head, end] = [text.indexOf(TICKS_HEAD), text.lastIndexOf('\nsum ')];
  if (head < 0 || end < head) return text;
  const lines = text
    .slice(head, end)
    .split(/\r\n|\r|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');
  return `${lines.join('\n')}\nsum ${checkSum(lines.join('\n'))}`;
};
