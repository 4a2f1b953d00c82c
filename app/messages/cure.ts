/** Messages about resin in the room it cures in: cold, stalled, gelling alone, out of open time. */
import type { Minute } from '../time/instant.ts';
import { gelWords, tackWords, together } from './gel.ts';
import { openTimeWayWords, type OpenTimeWay } from './openTime.ts';
import { lapsedWords } from './surface.ts';
import { offers, rounded, findingSpec, type Numbers } from './spec.ts';
import { tgWords } from './tg.ts';
import { capital, dayAndTime, elapsed, listed, plain } from './words.ts';
import { exact } from '../units/words.ts';

const MILESTONES = { debagFrom: 'bag-off', demouldFrom: 'demould', sandFrom: 'sanding' } as const;

/** In which way a cure is not reached. */
type Stall =
  /** Milestones that a cure never reaches. */
  | {
      readonly why: 'misses';
      readonly cure: string;
      readonly missing: readonly (keyof typeof MILESTONES)[];
    }
  /** Cures that stop short of full, and the lowest Tg at which they do. */
  | {
      readonly why: 'short-of-full';
      readonly cures: readonly string[];
      readonly tgC: number;
      readonly roomC: number;
    }
  /** A cure that the room never brings to an end, dated as if it were held warmer. */
  | { readonly why: 'dated-as-if'; readonly cure: string; readonly heldC: number }
  /** A stage that has no end at any start. */
  | { readonly why: 'never-ends'; readonly stage: string };

function stallWords(stall: Stall): string {
  switch (stall.why) {
    case 'misses': {
      const missing = stall.missing.map((key) => MILESTONES[key]).join(', ');
      return `${stall.cure} never reaches ${missing} at the temperature of the room.`;
    }
    case 'short-of-full': {
      const cures = capital(listed(stall.cures.map((name) => name.toLowerCase())));
      return (
        `${cures}: full cure is not reached at the temperature of the room; its Tg there is ` +
        `${tgWords(stall.tgC, stall.roomC)}. More heat would cure it further.`
      );
    }
    case 'dated-as-if':
      return (
        `${stall.cure} never ends at the temperature of the room. Its dates hold only if part and mould are kept ` +
        `at ${plain(stall.heldC)} °C or more from the first mix on: do not start it colder.`
      );
    case 'never-ends':
      return `${stall.stage} never ends at the temperature of the room.`;
  }
}

const WHEN_COLD = { always: 'all day', nights: 'at night', sometimes: 'at times' } as const;

/** '11 °C at night'; where the day is too cold as well, both: '17 °C by day and 9 °C at its coldest'. */
const coldWords = (a: { coldestC: number; dayC: number; when: keyof typeof WHEN_COLD }): string =>
  a.when === 'always' && a.dayC !== a.coldestC
    ? `${plain(a.dayC)} °C by day and ${plain(a.coldestC)} °C at its coldest`
    : `${plain(a.coldestC)} °C ${WHEN_COLD[a.when]}`;

const ROOM = { dependsOn: 'document', waysOut: 'none', saidByChoice: false } as const;

export const CURE_FINDINGS = {
  'cold-room': findingSpec({
    meaning: 'The room is colder than the hardener allows.',
    severity: ['stop', 'warn'],
    unsafe: 'wet-work',
    dependsOn: 'document',
    waysOut: 'levers',
    saidByChoice: false,
    words: (a: {
      hardener: string;
      minimumC: number;
      coldestC: number;
      dayC: number;
      when: keyof typeof WHEN_COLD;
    }) =>
      `${a.hardener} is for ${exact(a.minimumC)} °C and up; the room stands at ` +
      `${coldWords(a)}, and that time is not counted as cure. The resin may still gel: watch it ` +
      'from the earliest gel to the latest.',
    numbers: ({ coldestC, minimumC }) => ({ coldestC, minimumC }),
  }),
  'blush-likely': findingSpec({
    meaning: 'Cold or damp air makes amine blush likely.',
    severity: 'note',
    unsafe: null,
    ...ROOM,
    words: (a: { coldestC: number; humidityPct: number }) =>
      `At ${exact(a.coldestC)} °C and ${exact(a.humidityPct)} % humidity amine blush is likely: wash with water and ` +
      'pad before sanding.',
    numbers: ({ coldestC, humidityPct }) => ({ coldestC, humidityPct }),
  }),
  'dew-point-near': findingSpec({
    meaning: 'Surfaces come close to the dew point.',
    severity: 'warn',
    unsafe: null,
    ...ROOM,
    words: (a: { dewPointC: number; coldestC: number }) =>
      `The dew point of the day's air is ${plain(a.dewPointC)} °C and surfaces cool to ` +
      `${exact(a.coldestC)} °C at night: they may be wet in the morning. Hold the heat or dry the air.`,
    numbers: (a) => ({ dewPointC: rounded(a.dewPointC), coldestC: a.coldestC }),
  }),
  'log-ends': findingSpec({
    meaning: 'A temperature log ends in the middle of a cure.',
    severity: 'note',
    unsafe: null,
    ...ROOM,
    dependsOn: 'plan',
    words: (a: { endsAt: Minute; cure: string; zone: string }) =>
      `The temperature log ends ${dayAndTime(a.endsAt, a.zone)}, in the middle of ` +
      `${a.cure.toLowerCase()}: the rest goes by the room’s day and night.`,
  }),
  'cure-stalls': findingSpec({
    meaning: 'A cure never reaches what it must at this temperature.',
    severity: ['stop', 'note'],
    unsafe: 'cure',
    dependsOn: 'document',
    waysOut: 'levers',
    saidByChoice: false,
    words: stallWords,
    numbers: (stall) =>
      stall.why === 'short-of-full'
        ? { tgC: rounded(stall.tgC) }
        : stall.why === 'dated-as-if'
          ? { heldC: stall.heldC }
          : ({} as Numbers),
  }),
  'gel-unattended': findingSpec({
    meaning: 'A gel falls in an empty shop.',
    severity: 'warn',
    unsafe: 'cure',
    dependsOn: 'plan',
    waysOut: 'levers',
    saidByChoice: false,
    words: gelWords,
  }),
  'bond-window-missed': findingSpec({
    meaning: 'A fresh surface would go stale, so it is abraded and cleaned again.',
    severity: 'warn',
    unsafe: 'cure',
    dependsOn: 'plan',
    waysOut: 'levers',
    saidByChoice: false,
    words: lapsedWords,
    numbers: ({ stripMinutes }): Numbers => (stripMinutes === null ? {} : { stripMinutes }),
  }),
  'strip-covered': findingSpec({
    meaning:
      'Stripping takes longer than a bare surface keeps, so it is covered as it is stripped.',
    severity: 'note',
    unsafe: null,
    dependsOn: 'plan',
    waysOut: 'none',
    saidByChoice: false,
    words: (a: { layup: string; stripMinutes: number; withinHours: number }) =>
      `${a.layup}: stripping takes ${elapsed(a.stripMinutes)} and a bare surface keeps ` +
      `${exact(a.withinHours)} h. Cover what is stripped with clean film at once, and bond the same day, ` +
      'straight after the last pull.',
    numbers: ({ stripMinutes }) => ({ stripMinutes }),
  }),
  'open-time-short': findingSpec({
    meaning: 'The wet work takes longer than the resin stays open.',
    severity: 'stop',
    unsafe: 'cure',
    dependsOn: 'document',
    waysOut: 'levers',
    saidByChoice: false,
    words: (a: {
      layups: readonly string[];
      wetMinutes: number;
      openMinutes: number;
      fullVacuumMinutes: number;
      way: OpenTimeWay | null;
      currency: string;
    }) =>
      `${capital(together(a.layups))}: ${elapsed(a.wetMinutes)} from first mix to sealed bag, but the ` +
      `first ply is open ${elapsed(a.openMinutes)}, so ` +
      (a.fullVacuumMinutes > 0
        ? `its bag has to be down and drawn ${elapsed(a.fullVacuumMinutes)} after first mix. `
        : 'no bag is down in time. ') +
      openTimeWayWords(a.way, a.currency),
    numbers: ({ wetMinutes, openMinutes, fullVacuumMinutes }) => ({
      wetMinutes,
      openMinutes,
      fullVacuumMinutes,
    }),
  }),
  'bag-late': findingSpec({
    meaning: 'The bag of planned wet work is down later than the resin allows.',
    severity: 'stop',
    unsafe: 'cure',
    dependsOn: 'plan',
    waysOut: 'levers',
    saidByChoice: false,
    words: (a: {
      layups: readonly string[];
      mixed: Minute;
      sealed: Minute;
      due: Minute;
      zone: string;
    }) =>
      `${capital(together(a.layups))}: mixed ${dayAndTime(a.mixed, a.zone)} its bag is down ` +
      `${dayAndTime(a.sealed, a.zone)}, and it is due ${dayAndTime(a.due, a.zone)}. Start when ` +
      'it is cooler, or with more hands.',
    numbers: ({ sealed, due }) => ({ lateMinutes: sealed - due }),
  }),
  'mix-on-arrival': findingSpec({
    meaning: 'A first mix is planned for the minutes in which people come in.',
    severity: 'warn',
    unsafe: null,
    dependsOn: 'plan',
    waysOut: 'none',
    saidByChoice: false,
    words: (a: {
      layups: readonly string[];
      mixed: Minute;
      pinned: boolean;
      settleMinutes: number;
      zone: string;
    }) =>
      `${capital(together(a.layups))}: first mix ${dayAndTime(a.mixed, a.zone)}, as people come in. ` +
      `They want ${elapsed(a.settleMinutes)} to dress, check and weigh: ` +
      (a.pinned ? 'move its fixed start.' : 'no later start would do; come in sooner that day.'),
  }),
  'tack-out-of-hours': findingSpec({
    meaning: 'A layup on tack would have to be laid when nobody is there.',
    severity: 'stop',
    unsafe: 'cure',
    dependsOn: 'document',
    waysOut: 'levers',
    saidByChoice: false,
    words: tackWords,
  }),
} as const;

const staysOpen = (a: { openMinutes: number; nowMinutes: number }): string =>
  `stays open ${elapsed(a.openMinutes)} in place of ${elapsed(a.nowMinutes)}`;

export const CURE_LEVERS = {
  hardener: offers({
    label: (a: { hardener: string; openMinutes: number; nowMinutes: number }) =>
      `Use ${a.hardener}`,
    sideEffects: (a) => [`The film ${staysOpen(a)}.`],
  }),
  'layup-hardener': offers({
    label: (a: { layup: string; hardener: string; openMinutes: number; nowMinutes: number }) =>
      `For the ${a.layup.toLowerCase()}: ${a.hardener}`,
    sideEffects: (a) => [
      `Its film ${staysOpen(a)}` +
        (a.openMinutes < a.nowMinutes ? ': the layup itself may become impossible.' : '.'),
      'Two hardeners in one shop: mark the cans and the cups.',
    ],
  }),
} as const;
