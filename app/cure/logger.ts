/**
 * A temperature logger's file as a profile. Pure: text comes in chunks, a profile and a list of what
 * was wrong go out. Nothing is mended in silence; what cannot be mended stops the reading.
 */
import type { Minute } from '../time/instant.ts';
import { formOf, readLine, timeReader, type LogForm } from './log-line.ts';
import type { PracticeLookup } from './practice.ts';
import type { TemperatureProfile, TemperatureSegment } from './types.ts';

/** What was wrong; `stops` ones leave no profile. */
export type LogIssueKind =
  /** Not a table of times and temperatures. */
  | 'not-a-log'
  | 'empty'
  /** Times without an offset, and no zone was given. */
  | 'no-zone'
  /** 04/05/2027: day or month first is not said. */
  | 'date-order'
  /** `21,5` between commas, and no line of names that would tell. */
  | 'comma-unclear'
  | 'no-temperature'
  /** Times without an offset were read in the zone given. */
  | 'zone-taken'
  | 'byte-order-mark'
  | 'decimal-comma'
  | 'fahrenheit'
  /** Lines that hold no time or no number; left out. */
  | 'unreadable'
  /** Temperatures that no shop has; left out. */
  | 'impossible'
  /** Wall-clock times that the spring change leaves out; left out. */
  | 'no-such-time'
  /** Lines older than the one before; put in order. */
  | 'out-of-order'
  /** A time given again with the same temperature (left out) or another (the colder is kept). */
  | 'repeated'
  | 'repeated-differently'
  /** First and last reading further apart than any log: a year is mistyped. */
  | 'too-long'
  /** Longer than the practice gap; filled with the colder of both ends. */
  | 'gap';

export interface LogIssue {
  readonly kind: LogIssueKind;
  readonly stops: boolean;
  /** First line concerned, from 1; 0 where it is the file as a whole. */
  readonly line: number;
  readonly count: number;
}

export interface LogResult {
  /** Null when an issue stops. */
  readonly profile: TemperatureProfile | null;
  readonly issues: readonly LogIssue[];
  readonly lines: number;
  readonly readings: number;
  /** Columns that were read; the coldest of them counts. */
  readonly columns: readonly string[];
  readonly coldestC: number | null;
  readonly hottestC: number | null;
  readonly gaps: readonly { readonly from: Minute; readonly to: Minute }[];
}

export interface LogOptions {
  /** Zone of times without an offset: the build's; null when it is not to be taken. */
  readonly zone: string | null;
  readonly practice: PracticeLookup;
  /** Length of the segments into which the readings are folded, min; 10 unless said. */
  readonly foldMinutes?: number;
}

export interface LogReader {
  push(chunk: string): void;
  end(): LogResult;
}

const LONGEST_LINE = 10_000;
const LINES_BEFORE_DATA = 200;
/** A logger that runs for a year; the profile grows with it, whatever the number of lines. */
const LONGEST_DAYS = 400;
const COLDEST_C = -40;
const HOTTEST_C = 250;
const FORM_STOPS = {
  'date-order': 'date-order',
  'comma-unclear': 'comma-unclear',
  'no-temperature': 'no-temperature',
} as const;

/** Readings in the order in which they came: seconds of Unix UTC and C. */
class Readings {
  private seconds = new Float64Array(4096);
  private temperatures = new Float32Array(4096);
  count = 0;

  add(seconds: number, temperatureC: number): void {
    if (this.count === this.seconds.length) {
      const [seconds2, temperatures2] = [
        new Float64Array(this.count * 2),
        new Float32Array(this.count * 2),
      ];
      seconds2.set(this.seconds);
      temperatures2.set(this.temperatures);
      this.seconds = seconds2;
      this.temperatures = temperatures2;
    }
    this.seconds[this.count] = seconds;
    this.temperatures[this.count++] = temperatureC;
  }

  /** Both columns in order of time; the order of the file where times are equal. */
  sorted(inOrder: boolean): { seconds: Float64Array; temperatures: Float32Array } {
    const seconds = this.seconds.subarray(0, this.count);
    const temperatures = this.temperatures.subarray(0, this.count);
    if (inOrder) return { seconds, temperatures };
    const order = Uint32Array.from(seconds, (_, i) => i).sort(
      (a, b) => seconds[a]! - seconds[b]! || a - b,
    );
    return {
      seconds: Float64Array.from(order, (i) => seconds[i]!),
      temperatures: Float32Array.from(order, (i) => temperatures[i]!),
    };
  }
}

/**
 * Reads a logger's file. Give it the text in order, in chunks cut anywhere; ask for the result at the end.
 * @param options zone of times without an offset, and the length of the segments, min
 * @returns a reader whose result holds the profile, C, or the faults that stopped it
 */
export function logReader(options: LogOptions): LogReader {
  const issues = new Map<LogIssueKind, { line: number; count: number; stops: boolean }>();
  const note = (kind: LogIssueKind, line: number, stops = false): void => {
    const known = issues.get(kind);
    if (known) known.count++;
    else issues.set(kind, { line, count: 1, stops });
  };
  const times = timeReader(options.zone);
  const readings = new Readings();
  let form: LogForm | null = null;
  let header: string | null = null;
  let rest = '';
  let lines = 0;
  let last = -Infinity;
  let inOrder = true;
  let stopped = false;
  const stop = (kind: LogIssueKind, line: number): void => {
    note(kind, line, true);
    stopped = true;
  };

  const begin = (text: string): boolean => {
    const found = formOf(header, text);
    if (typeof found === 'object') {
      form = found;
      if (found.decimalComma) note('decimal-comma', lines);
      if (found.fahrenheit) note('fahrenheit', lines);
      return true;
    }
    if (found !== 'no-time') stop(FORM_STOPS[found], lines);
    else if (lines > LINES_BEFORE_DATA) stop('not-a-log', 0);
    else header = text;
    return false;
  };

  const take = (line: string): void => {
    lines++;
    const text = line.charCodeAt(line.length - 1) === 13 ? line.slice(0, -1) : line;
    if (text === '' || (text.length < 80 && text.trim() === '')) return;
    if (!form && !begin(text)) return;
    const { stamp, coldestC: temperatureC } = readLine(form!, text);
    const seconds = times.read(stamp, last);
    if (typeof seconds === 'string') {
      if (seconds === 'no-zone') stop('no-zone', lines);
      else note(seconds, lines);
      return;
    }
    if (temperatureC === null) {
      note('unreadable', lines);
    } else if (temperatureC < COLDEST_C || temperatureC > HOTTEST_C) {
      note('impossible', lines);
    } else {
      if (seconds < last) {
        inOrder = false;
        note('out-of-order', lines);
      }
      last = seconds;
      readings.add(seconds, temperatureC);
    }
  };

  return {
    push(chunk) {
      if (stopped) return;
      let text = rest + chunk;
      if (lines === 0 && text.charCodeAt(0) === 0xfeff) {
        note('byte-order-mark', 1);
        text = text.slice(1);
      }
      let from = 0;
      for (let at = text.indexOf('\n'); at >= 0 && !stopped; at = text.indexOf('\n', from)) {
        take(text.slice(from, at));
        from = at + 1;
      }
      rest = text.slice(from);
      if (rest.length > LONGEST_LINE) stop('not-a-log', lines + 1);
    },
    end() {
      if (!stopped && rest !== '') take(rest);
      if (!stopped && lines === 0) stop('empty', 0);
      if (!stopped && readings.count === 0) stop('not-a-log', 0);
      if (times.usedZone()) note('zone-taken', 0);
      const sorted = readings.sorted(inOrder);
      if (!stopped && spanDays(sorted.seconds) > LONGEST_DAYS) stop('too-long', 0);
      const folded = stopped ? null : fold(sorted, options, note);
      return {
        profile: folded?.profile ?? null,
        issues: [...issues].map(([kind, issue]) => ({ kind, ...issue })),
        lines,
        readings: readings.count,
        columns: form?.names ?? [],
        coldestC: folded?.coldestC ?? null,
        hottestC: folded?.hottestC ?? null,
        gaps: folded?.gaps ?? [],
      };
    },
  };
}

const spanDays = (seconds: Float64Array): number =>
  (seconds[seconds.length - 1]! - seconds[0]!) / 86_400;

/** Readings in order as segments of `foldMinutes`, each the mean over its time. */
function fold(
  { seconds, temperatures }: { seconds: Float64Array; temperatures: Float32Array },
  { practice, foldMinutes = 10 }: LogOptions,
  note: (kind: LogIssueKind, line: number) => void,
) {
  const gapSeconds = practice('cure-log-gap-minutes') * 60;
  const count = dropRepeated(seconds, temperatures, note);
  const first = Math.floor(seconds[0]! / 60);
  const last = Math.max(first + 1, Math.ceil(seconds[count - 1]! / 60));
  const bins = Math.ceil((last - first) / foldMinutes);
  const sums = new Float64Array(bins);
  const weights = new Float64Array(bins);
  const gaps: { from: Minute; to: Minute }[] = [];
  const binSeconds = foldMinutes * 60;
  const origin = first * 60;
  /** Spreads a temperature over a stretch of time. */
  const spread = (from: number, to: number, temperatureC: number): void => {
    let at = from;
    while (at < to) {
      const bin = Math.min(bins - 1, Math.floor((at - origin) / binSeconds));
      const until = bin === bins - 1 ? to : Math.min(to, origin + (bin + 1) * binSeconds);
      sums[bin] = sums[bin]! + temperatureC * (until - at);
      weights[bin] = weights[bin]! + (until - at);
      at = until;
    }
  };
  let [coldestC, hottestC] = [Infinity, -Infinity];
  for (let i = 0; i < count; i++) {
    const here = temperatures[i]!;
    coldestC = Math.min(coldestC, here);
    hottestC = Math.max(hottestC, here);
    if (i === count - 1) break;
    const there = temperatures[i + 1]!;
    const isGap = seconds[i + 1]! - seconds[i]! > gapSeconds;
    if (isGap) {
      note('gap', 0);
      gaps.push({ from: Math.floor(seconds[i]! / 60), to: Math.ceil(seconds[i + 1]! / 60) });
    }
    const between = isGap ? Math.min(here, there) : (here + there) / 2;
    spread(seconds[i]!, seconds[i + 1]!, between);
  }
  if (count === 1) spread(seconds[0]!, seconds[0]! + 60, temperatures[0]!);
  const profile: TemperatureSegment[] = [];
  for (let bin = 0; bin < bins; bin++) {
    const start = first + bin * foldMinutes;
    const temperatureC =
      weights[bin]! > 0
        ? Math.round((sums[bin]! / weights[bin]!) * 100) / 100
        : profile[profile.length - 1]!.temperatureC;
    profile.push({ start, end: Math.min(last, start + foldMinutes), temperatureC });
  }
  return { profile, coldestC, hottestC, gaps };
}

/** Keeps one reading for each second, the colder where they differ; gives the count that is left. */
function dropRepeated(
  seconds: Float64Array,
  temperatures: Float32Array,
  note: (kind: LogIssueKind, line: number) => void,
): number {
  let count = 0;
  for (let i = 0; i < seconds.length; i++) {
    if (count > 0 && seconds[i] === seconds[count - 1]) {
      const same = temperatures[i] === temperatures[count - 1];
      note(same ? 'repeated' : 'repeated-differently', 0);
      temperatures[count - 1] = Math.min(temperatures[i]!, temperatures[count - 1]!);
      continue;
    }
    seconds[count] = seconds[i]!;
    temperatures[count++] = temperatures[i]!;
  }
  return count;
}
