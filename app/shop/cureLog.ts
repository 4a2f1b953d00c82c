/** The rows of a cure's log: when to look, what is due, what the part should read. */
import { sealedWords } from '../messages/sealed.ts';
import { temperatureAt } from '../cure/profile.ts';
import type { Minute } from '../time/instant.ts';
import { minuteToIso } from '../time/zone.ts';
import { latestGelWords } from './gelWatch.ts';
import { isStaffed, minuteOf, type CureSheetData, type SheetData } from './sheetData.ts';
import { vacuumWords } from './vacuumWords.ts';
import { clock, fixed, shortWeekday } from './words.ts';

export interface LogLine {
  readonly when: string;
  readonly what: string;
  /** Temperature the plan reckons with, C. */
  readonly expectedC: number | null;
  /** Nobody is in the shop: a line without boxes. */
  readonly alone: boolean;
  readonly strong: boolean;
}

interface Look {
  readonly at: Minute;
  readonly what: string;
  readonly strong: boolean;
  /** Its own words say what holds where nobody is there. */
  readonly saysAlone?: boolean;
}

/** While the vacuum is watched: common practice, no source. */
const WATCH_STEP_MINUTES = 15;
/** More looks than this do not fit on the card; they are spread instead. */
const MOST_LOOKS = 12;

/** Looks from the sealed bag to bag-off; those that fall in an empty shop become one line. */
export function cureLog(facts: SheetData, cure: CureSheetData): LogLine[] {
  if (cure.sealed === null || cure.row === null) return [];
  const sealed = minuteOf(cure.sealed);
  const gel = cure.row.gel === null ? null : minuteOf(cure.row.gel);
  const latest = cure.row.gelLatest === null ? null : minuteOf(cure.row.gelLatest);
  const looks = looksOf(facts, cure, sealed, { gel, latest });
  return withNights(facts, cure, looks);
}

function looksOf(
  facts: SheetData,
  cure: CureSheetData,
  sealed: Minute,
  { gel, latest }: { readonly gel: Minute | null; readonly latest: Minute | null },
): Look[] {
  const watchedUntil = cure.watchedUntil === null ? sealed : minuteOf(cure.watchedUntil);
  const heat = cure.made?.heat ?? null;
  const on = heat === null ? '' : `; tent or oven on, to ${fixed(heat.hottestC, 0)} °C`;
  const words = vacuumWords(facts, cure);
  const vacuum = words.charAt(0).toLowerCase() + words.slice(1);
  const looks: Look[] = [
    {
      at: sealed,
      what: `${sealedWords(cure.row?.infused).done}, ${cure.row?.infused ? 'vacuum eased to 500 to 700 mbar below atmosphere' : vacuum}${on}`,
      strong: true,
    },
  ];
  if (heat) looks.push({ at: heat.end, what: 'Heat off', strong: true });
  for (let at = sealed + WATCH_STEP_MINUTES; at <= watchedUntil; at += WATCH_STEP_MINUTES) {
    looks.push({ at, what: 'Watched', strong: false });
  }
  const last = latest ?? gel;
  if (gel !== null && last !== null && last > sealed) {
    const every = facts.practice('look-every-minutes');
    const step = Math.max(every, Math.ceil((last - watchedUntil) / MOST_LOOKS / 5) * 5);
    for (let at = watchedUntil + step; at < last - step / 2; at += step) {
      if (Math.abs(at - gel) >= step / 2) looks.push({ at, what: 'Look', strong: false });
    }
    if (gel > sealed)
      looks.push({ at: gel, what: 'Gel from here on: try the smear', strong: true });
    if (latest !== null && latest > gel) {
      const what = latestGelWords(facts, latest);
      looks.push({ at: latest, what, strong: true, saysAlone: true });
    }
  }
  const off = cure.bagOffAt ?? cure.row?.debagFrom ?? null;
  if (off !== null) looks.push({ at: minuteOf(off), what: 'Bag off', strong: true });
  return looks.sort((a, b) => a.at - b.at);
}

function withNights(facts: SheetData, cure: CureSheetData, looks: readonly Look[]): LogLine[] {
  const profile = cure.made?.profile ?? facts.detail.profile;
  const lines: LogLine[] = [];
  let day = '';
  for (const look of looks) {
    const inShop = isStaffed(facts, look.at);
    const iso = minuteToIso(look.at, facts.zone);
    const when = iso.slice(0, 10) === day ? clock(iso) : `${shortWeekday(iso)} ${clock(iso)}`;
    day = iso.slice(0, 10);
    if (inShop) {
      const expectedC = temperatureAt(profile, look.at);
      lines.push({ when, what: look.what, expectedC, alone: false, strong: look.strong });
    } else if (look.strong) {
      const alone = look.saysAlone
        ? ''
        : '. Nobody in the shop: logger and alarm on, or someone comes in';
      const what = `${look.what}${alone}`;
      lines.push({ when, what, expectedC: null, alone: true, strong: true });
    } else if (!lines[lines.length - 1]?.alone) {
      const what =
        'Nobody in the shop: pump, alarm and logger on. Lowest and highest read next day';
      lines.push({ when, what, expectedC: null, alone: true, strong: false });
    }
  }
  return lines;
}
