/** Edits of public holidays and busy blocks. */
import type { Build } from '../schema.ts';
import { addEntry, change, freeId, type Change } from './change.ts';
import type { Draft } from './path.ts';

type HolidayEntry = NonNullable<Build['holidays']>[number];
type BusyEntry = NonNullable<Build['busy']>[number];

/** Who keeps a holiday: everybody of the shop, suppliers and all outside parties, or one party. */
export type HolidayScope = HolidayEntry['for'];
export type BusyHolder = BusyEntry['who'];

const sameKeeper = (a: HolidayScope, b: HolidayScope): boolean =>
  typeof a === 'string' || typeof b === 'string' ? a === b : a.party === b.party;

/** True when the day is kept already by the same. */
export const isKept = (document: Draft, date: string, by: HolidayScope): boolean =>
  (document.holidays ?? []).some((day) => day.date === date && sameKeeper(day.for, by));

const byDate = (a: HolidayEntry, b: HolidayEntry): number =>
  a.date < b.date ? -1 : a.date > b.date ? 1 : 0;

/**
 * Days taken over into the document in one revision; those that are there already stay as they are.
 * @param source where they were taken from, kept beside each
 */
export function addHolidays(
  document: Draft,
  days: readonly { readonly date: string; readonly name: string }[],
  keepers: readonly HolidayScope[],
  source: string,
): Change {
  const taken = keepers.flatMap((by) =>
    days
      .filter(({ date }) => !isKept(document, date, by))
      .map(({ date, name }): HolidayEntry => ({ date, name, for: by, source })),
  );
  const holidays = [...(document.holidays ?? []), ...taken].sort(byDate);
  const what = days.length === 1 ? days[0]!.name : `${days.length} public holidays`;
  return change(`Keep ${what}`, { ...document, holidays });
}

/** Blocks of one holder added in one revision, each with an id of its own. */
export function addBusyBlocks(
  document: Draft,
  blocks: readonly Pick<BusyEntry, 'what' | 'from' | 'until'>[],
  who: BusyHolder,
): Change {
  const next = blocks.reduce(
    (draft, block) => addEntry(draft, 'busy', { id: freeBlock(draft), who, ...block }, '').document,
    document,
  );
  const label = blocks.length === 1 ? blocks[0]!.what : `${blocks.length} busy times`;
  return change(`Add ${label}`, next);
}

const freeBlock = (document: Draft): string => freeId(document, 'busy', 'busy');

/** The document without the holidays and other jobs of a party that is not waited for any more. */
export function withoutParty(document: Draft, id: string): Draft {
  const { busy, holidays } = document;
  return {
    ...document,
    ...(busy ? { busy: busy.filter(({ who }) => who.kind !== 'outside' || who.id !== id) } : {}),
    ...(holidays
      ? { holidays: holidays.filter((day) => !sameKeeper(day.for, { party: id })) }
      : {}),
  };
}
