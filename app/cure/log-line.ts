/** One line of a temperature logger's file: its form, its time, its numbers. */
import { isoToMinute, localToMinute, offsetAt } from '../time/zone.ts';

/** How the lines of a file are built, read off its first ones. */
export interface LogForm {
  readonly separator: ',' | ';' | '\t';
  readonly decimalComma: boolean;
  /** Column of the time, from 0: some loggers number their lines first. */
  readonly timeColumn: number;
  /** Date and time stand in two columns. */
  readonly splitTime: boolean;
  readonly fahrenheit: boolean;
  /** Columns that hold temperatures, from 0, and their names where the file has them. */
  readonly columns: readonly number[];
  readonly names: readonly string[];
}

export type FormProblem = 'no-time' | 'date-order' | 'comma-unclear' | 'no-temperature';

const DATE = /^(\d{4}-\d\d-\d\d|\d\d\.\d\d\.\d{4})$/;
const TIME_OF_DAY = /^\d\d:\d\d(:\d\d)?$/;
const SLASH_DATE = /^\d{1,2}\/\d{1,2}\/\d{2,4}/;
const STAMP =
  /^(\d{4}-\d\d-\d\d|\d\d\.\d\d\.\d{4})[T ]\d\d:\d\d(:\d\d([.,]\d+)?)?(Z|[+-]\d\d:?\d\d)?$/;
const EPOCH = /^\d{10}(\d{3})?$/;
const NUMBER = /^[+-]?\d+([.,]\d+)?$/;
/** Columns of a logger that are no temperature. */
const OTHER = /hum|r\.?h|%|bar|pa\b|vac|volt|batt|dew|lux|count|^#|^no\.?$|index/i;

/** A line number and a channel's name may stand before the time. */
const LEADING_FIELDS = 3;

const isTime = (field: string): boolean =>
  STAMP.test(field) || EPOCH.test(field) || DATE.test(field);

const unquote = (field: string): string => {
  const trimmed = field.trim();
  return trimmed.length > 1 && trimmed.startsWith('"') && trimmed.endsWith('"')
    ? trimmed.slice(1, -1).trim()
    : trimmed;
};

const fieldsOf = (line: string, separator: string): string[] => line.split(separator).map(unquote);

const separatorOf = (line: string): LogForm['separator'] =>
  line.includes(';') ? ';' : line.includes('\t') ? '\t' : ',';

/**
 * Reads the form off the first line that begins with a time and the line of names before it, if any.
 * A comma that may be a separator as well as a decimal is not guessed at.
 */
export function formOf(header: string | null, line: string): LogForm | FormProblem {
  const separator = separatorOf(line);
  const fields = fieldsOf(line, separator);
  const leading = fields.slice(0, LEADING_FIELDS);
  const timeColumn = leading.findIndex(isTime);
  if (timeColumn < 0) {
    return leading.some((field) => SLASH_DATE.test(field)) ? 'date-order' : 'no-time';
  }
  const isDate = DATE.test(fields[timeColumn]!);
  const splitTime = isDate && TIME_OF_DAY.test(fields[timeColumn + 1] ?? '');
  if (isDate && !splitTime) return 'no-time';
  const names = header === null ? [] : fieldsOf(header, separatorOf(header));
  const before = timeColumn + (splitTime ? 2 : 1);
  const rest = fields.slice(before);
  let decimalComma = separator !== ',' && rest.some((field) => /^[+-]?\d+,\d+$/.test(field));
  if (separator === ',' && rest.length === 2 && rest.every((field) => /^[+-]?\d+$/.test(field))) {
    if (names.length === 0) return 'comma-unclear';
    decimalComma = names.length === before + 1;
  }
  const columns =
    separator === ',' && decimalComma
      ? [before]
      : rest.flatMap((field, i) => {
          const name = names[before + i] ?? '';
          return NUMBER.test(field) && !OTHER.test(name) ? [before + i] : [];
        });
  if (columns.length === 0) return 'no-temperature';
  const columnNames = columns.map((column) => names[column] ?? `column ${column + 1}`);
  const fahrenheit = columnNames.some((name) =>
    /°\s*F|\(F\)|\[F\]|fahrenheit|\bdeg ?F\b/i.test(name),
  );
  const form = { separator, decimalComma, timeColumn, splitTime, fahrenheit };
  return { ...form, columns, names: columnNames };
}

/** What a line says: its time as text, and the coldest of its temperatures, C (null: none read). */
export interface LogLine {
  readonly stamp: string;
  readonly coldestC: number | null;
}

/** Reads a line; plain ones in one pass over their characters, quoted ones the long way. */
export function readLine(form: LogForm, line: string): LogLine {
  const { separator, columns, decimalComma, timeColumn, splitTime, fahrenheit } = form;
  if (line.includes('"')) {
    const plain = fieldsOf(line, separator).join(separator);
    return plain.includes('"') ? { stamp: '', coldestC: null } : readLine(form, plain);
  }
  // Between commas a decimal comma makes two fields of one number.
  const twoFields = separator === ',' && decimalComma;
  let coldest = Infinity;
  let stamp = '';
  let field = 0;
  let wanted = 0;
  let from = 0;
  while (from <= line.length) {
    let end = line.indexOf(separator, from);
    if (end < 0) end = line.length;
    if (field === timeColumn) stamp = line.slice(from, end).trim();
    else if (splitTime && field === timeColumn + 1)
      stamp = `${stamp} ${line.slice(from, end).trim()}`;
    else if (field === columns[wanted]) {
      wanted++;
      if (twoFields) {
        const second = line.indexOf(separator, end + 1);
        end = second < 0 ? line.length : second;
      }
      const value = decimalOf(line, from, end, decimalComma);
      if (value < coldest) coldest = value;
      if (wanted === columns.length) break;
    }
    field++;
    from = end + 1;
  }
  if (coldest === Infinity) return { stamp, coldestC: null };
  return { stamp, coldestC: fahrenheit ? (coldest - 32) / 1.8 : coldest };
}

const CODE = { space: 32, plus: 43, comma: 44, minus: 45, point: 46, zero: 48, nine: 57 } as const;

/** A plain decimal number between two places of a text; NaN when it is anything else. */
function decimalOf(text: string, from: number, to: number, decimalComma: boolean): number {
  let [at, end] = [from, to];
  while (at < end && text.charCodeAt(at) <= CODE.space) at++;
  while (end > at && text.charCodeAt(end - 1) <= CODE.space) end--;
  const sign = text.charCodeAt(at) === CODE.minus ? -1 : 1;
  if (sign < 0 || text.charCodeAt(at) === CODE.plus) at++;
  let value = 0;
  let scale = 0;
  let digits = 0;
  for (; at < end; at++) {
    const code = text.charCodeAt(at);
    if (code >= CODE.zero && code <= CODE.nine) {
      value = value * 10 + (code - CODE.zero);
      scale *= 10;
      digits++;
    } else if (scale === 0 && (code === CODE.point || (decimalComma && code === CODE.comma))) {
      scale = 1;
    } else return NaN;
  }
  if (digits === 0) return NaN;
  return (sign * value) / (scale || 1);
}

/** Seconds of Unix UTC, or why there are none. */
export type LogTime = number | 'unreadable' | 'no-zone' | 'no-such-time';

/**
 * A reader of times that remembers the last hour, since neighbouring lines share it; only an hour within
 * which the clocks change is read minute by minute. Times without
 * an offset are wall-clock times of `zone`; one that occurs twice is the earlier unless the line
 * before was later (`previous`, seconds).
 */
export function timeReader(zone: string | null) {
  let hourText = '';
  let offsetText = '';
  let hourSeconds: number | 'no-such-time' = 0;
  let laterBy = 0;
  let local = false;
  let broken = false;

  /** When the hour of a wall clock began, as seen from `minutes` past it. */
  const readHour = (hour: string, offset: string, minutes: string): LogTime => {
    const iso = hour.includes('.')
      ? `${hour.slice(6, 10)}-${hour.slice(3, 5)}-${hour.slice(0, 2)}T${hour.slice(11)}`
      : `${hour.slice(0, 10)}T${hour.slice(11)}`;
    laterBy = 0;
    if (offset !== '') {
      const minute = isoToMinute(`${iso}:00${offset}`);
      return minute === null ? 'unreadable' : minute * 60;
    }
    if (zone === null) return 'no-zone';
    if (isoToMinute(`${iso}:00Z`) === null) return 'unreadable';
    const found = localToMinute(`${iso}:${minutes}`, zone);
    if (!found) return 'no-such-time';
    if (found.occurs === 'twice') {
      // The same wall clock shows again once the offset has fallen.
      laterBy = (offsetAt(found.minute, zone) - offsetAt(found.minute + 180, zone)) * 60;
    }
    return (found.minute - Number(minutes)) * 60;
  };

  /** The clocks change within some hours: by half an hour, or at a minute past. */
  const isBroken = (hour: string, offset: string): boolean => {
    if (offset !== '' || zone === null) return false;
    const [first, last] = ['00', '59'].map((minutes) => {
      const seconds = readHour(hour, '', minutes);
      return `${seconds} ${laterBy}`;
    });
    return first !== last;
  };

  return {
    /** True once a time without an offset was read by the zone. */
    usedZone: () => local,
    read(stamp: string, previous: number): LogTime {
      if (stamp.charCodeAt(4) !== CODE.minus && stamp.charCodeAt(2) !== CODE.point) {
        if (!EPOCH.test(stamp)) return 'unreadable';
        return stamp.length > 10 ? Number(stamp) / 1000 : Number(stamp);
      }
      const { seconds: within, end } = withinHour(stamp);
      if (within < 0) return 'unreadable';
      const hour = stamp.slice(0, HOUR_END);
      const offset = end === stamp.length ? '' : stamp.slice(end);
      if (hour !== hourText || offset !== offsetText || broken) {
        broken = isBroken(hour, offset);
        const minutes = broken ? stamp.slice(HOUR_END + 1, HOUR_END + 3) : '00';
        const seconds = readHour(hour, offset, minutes);
        if (seconds === 'unreadable' || seconds === 'no-zone') return seconds;
        hourText = hour;
        offsetText = offset;
        hourSeconds = seconds;
      }
      if (hourSeconds === 'no-such-time') return hourSeconds;
      local ||= offset === '';
      const seconds = hourSeconds + within;
      return laterBy > 0 && seconds < previous && seconds + laterBy > previous
        ? seconds + laterBy
        : seconds;
    },
  };
}

/** Length of `YYYY-MM-DDTHH` and of `DD.MM.YYYY HH`. */
const HOUR_END = 13;
const isDigit = (code: number): boolean => code >= CODE.zero && code <= CODE.nine;

/**
 * Seconds into the hour of `:MM`, `:MM:SS` or `:MM:SS.s` after the hour, and where that ends; -1
 * when it is none of them.
 */
function withinHour(stamp: string): { seconds: number; end: number } {
  const colon = 58;
  const pair = (at: number): number => {
    const [tens, ones] = [stamp.charCodeAt(at), stamp.charCodeAt(at + 1)];
    return isDigit(tens) && isDigit(ones) ? (tens - CODE.zero) * 10 + ones - CODE.zero : NaN;
  };
  const minutes = stamp.charCodeAt(HOUR_END) === colon ? pair(HOUR_END + 1) : NaN;
  if (!(minutes < 60)) return { seconds: -1, end: 0 };
  let end = HOUR_END + 3;
  if (stamp.charCodeAt(end) !== colon) return { seconds: minutes * 60, end };
  const seconds = pair(end + 1);
  if (!(seconds < 61)) return { seconds: -1, end: 0 };
  end += 3;
  const mark = stamp.charCodeAt(end);
  if (mark !== CODE.point && mark !== CODE.comma) return { seconds: minutes * 60 + seconds, end };
  const from = end + 1;
  for (end = from; isDigit(stamp.charCodeAt(end));) end++;
  return { seconds: minutes * 60 + seconds + Number(`0.${stamp.slice(from, end)}`), end };
}
