/** The ends of every range of the document: figures, lengths of lists, dates, texts. */
import { buildSchema, type Build } from '../../../app/document/schema.ts';
import { listLengths, numberFields, withValue, type Path } from '../../support/number-fields.ts';
import { RICH } from './base.ts';

/** One range at one of its ends. */
export interface End {
  readonly name: string;
  readonly change: (document: Build) => Build;
}

/** Lists that the base leaves empty: their ends are not tried. */
export const MISSED: string[] = [];
export const FIELDS = numberFields(buildSchema, RICH, (path) => MISSED.push(path.join('.'))).filter(
  ({ path }) => path[0] !== 'formatVersion' && path.at(-1) !== 'revision',
);

const nameOf = (path: Path): string => path.join('.');

const numberEnds = (): End[] =>
  FIELDS.flatMap(({ path, least, most }) =>
    [least, most].map((value) => ({
      name: `${nameOf(path)} = ${value}`,
      change: (document: Build) => withValue(document, path, value),
    })),
  );

const at = (document: unknown, path: Path): unknown =>
  path.reduce<unknown>((held, key) => (held as Record<string | number, unknown>)?.[key], document);

/** Weeks hold their spans under each day. */
const DAYS_OF_WEEK = /(hours|overtime)$/;
const SPANS = Array.from({ length: 24 }, (_, k) => {
  const hour = String(k).padStart(2, '0');
  return [`${hour}:00`, `${hour}:30`];
});

function listEnds(): End[] {
  return listLengths(buildSchema).flatMap(({ path, most }): End[] => {
    const place = path.split('.').flatMap((key) => {
      const bare = key.replaceAll('[]', '');
      return key.endsWith('[]') ? [bare, 0] : [bare];
    });
    const whole = DAYS_OF_WEEK.test(path) ? [...place, 'sat'] : place;
    const name = `${path} of ${most}`;
    return [
      {
        name,
        change: (document) => withValue(document, whole, longest(document, whole, most)),
      },
    ];
  });
}

function longest(document: Build, path: Path, most: number): unknown[] {
  const key = path.at(-1);
  if (key === 'sat') return SPANS.slice(0, most);
  const list = (at(document, path) ?? []) as readonly unknown[];
  if (key === 'off') return Array.from({ length: most }, (_, k) => dayAfter('2027-01-01', k));
  return Array.from({ length: most }, (_, k) => another(list[k % list.length], k, list.length));
}

const DAY_MS = 86_400_000;
const dayAfter = (day: string, days: number): string =>
  new Date(Date.parse(day) + days * DAY_MS).toISOString().slice(0, 10);

/** A copy that stands beside the first: its id and day are its own. */
function another(one: unknown, k: number, length: number): unknown {
  if (typeof one !== 'object' || one === null || Array.isArray(one) || k < length) return one;
  const copy = { ...(one as Record<string, unknown>) };
  if (typeof copy['id'] === 'string') copy['id'] = `${copy['id']}-${k}`;
  if (typeof copy['name'] === 'string') copy['name'] = `${copy['name']} ${k}`;
  if (typeof copy['date'] === 'string') copy['date'] = dayAfter(copy['date'], k);
  if (typeof copy['batch'] === 'number') copy['batch'] = k + 1;
  return copy;
}

const DATES: readonly (readonly [Path, readonly unknown[]])[] = [
  [['unveiling'], ['2000-01-01', '2199-12-31T23:59']],
  [['earliestStart'], ['2000-01-01', '2199-12-31T23:59']],
  [
    ['part', 'frame', 'from'],
    ['2000-01-01', '2199-12-31T23:59'],
  ],
  [
    ['part', 'frame', 'until'],
    ['2000-01-01', '2199-12-31T23:59'],
  ],
  [
    ['outside', 0, 'slot'],
    ['2000-01-01', '2199-12-31'],
  ],
  [
    ['pins', 0, 'start'],
    ['2000-01-01', '2199-12-31T23:59'],
  ],
  [['records', 0, 'start'], ['2000-01-01']],
  [['records', 0, 'end'], ['2199-12-31T23:59']],
  [['busy', 0, 'from'], ['2000-01-01T00:00']],
  [['busy', 0, 'until'], ['2199-12-31T23:59']],
  [
    ['holidays', 0, 'date'],
    ['2000-01-01', '2199-12-31'],
  ],
  [
    ['room', 'measured', 'from'],
    ['2000-01-01T00:00:00Z', '2199-12-31T23:59:00Z'],
  ],
  [
    ['printed', 'at'],
    ['2000-01-01', '2199-12-31'],
  ],
  [['zone'], ['Pacific/Apia', 'Pacific/Kiritimati', 'America/Sao_Paulo']],
  [
    ['crew', 0, 'hours'],
    [{}, { mon: [['00:00', '24:00']] }],
  ],
  [['crew'], [[]]],
  [['outside'], [[]]],
  [['part', 'zones'], [[]]],
  [['part', 'zones', 0, 'outer'], [[]]],
  [['outside', 0, 'hours'], [{}]],
  [['suppliers', 0, 'hours'], [{}]],
];

const otherEnds = (): End[] =>
  DATES.flatMap(([path, values]) =>
    values.map((value) => ({
      name: `${nameOf(path)} = ${JSON.stringify(value)}`,
      change: (document: Build) => withValue(document, path, value),
    })),
  );

/** Texts as long as they may be, of characters that break lines, cells and cards. */
const ODD = `"<=+,;\\'\u202e\u0007\ud83d\ude00`;
const textEnds = (): End[] =>
  [
    ['name'],
    ['crew', 0, 'name'],
    ['outside', 0, 'name'],
    ['part', 'zones', 0, 'name'],
    ['part', 'questions', 0, 'text'],
    ['busy', 0, 'what'],
  ].map((path) => ({
    name: `${nameOf(path)} of 200 odd characters`,
    change: (document) => withValue(document, path, ODD.repeat(20).slice(0, 200)),
  }));

export const LISTS: readonly End[] = listEnds();
export const ENDS: readonly End[] = [...numberEnds(), ...LISTS, ...otherEnds(), ...textEnds()];
