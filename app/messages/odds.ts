/** Chances in words: never certain, never impossible. */
import type { Minute } from '../time/instant.ts';
import { dayAndTime, elapsed, plain } from './words.ts';

export const roundedToFivePercent = (chance: number): number => Math.round(chance * 20) / 20;

/** 'about 70 %', 'better than 95 %'. */
export function chanceWords(chance: number): string {
  const percent = Math.round(roundedToFivePercent(chance) * 100);
  if (percent >= 100) return 'better than 95 %';
  if (percent <= 0) return 'less than 5 %';
  return `about ${percent} %`;
}

/** What many replays of a plan say, in plain values. */
interface OddsArgs {
  readonly onTime: number;
  /** True until the shop has enough builds of its own behind the spreads. */
  readonly guessed: boolean;
  /** The minute by which all is done in four builds of five; null where it is not. */
  readonly safe: Minute | null;
  readonly deadline: Minute;
  /** The stage that costs most, days on average. */
  readonly worst: { readonly name: string; readonly days: number } | null;
  readonly zone: string;
}

export function oddsSentences({
  onTime,
  guessed,
  safe,
  deadline,
  worst,
  zone,
}: OddsArgs): string[] {
  const sentences = [
    `Chance of meeting the date: ${chanceWords(onTime)}${guessed ? ', guessed' : ''}.`,
  ];
  if (safe !== null) {
    const side = safe <= deadline ? 'before' : 'after';
    sentences.push(
      `It is done by ${dayAndTime(safe, zone)} in four builds of five: ` +
        `${elapsed(deadline - safe)} ${side} the unveiling.`,
    );
  }
  if (worst)
    sentences.push(`${worst.name} delays the end most: ${plain(worst.days)} days on average.`);
  return sentences;
}
