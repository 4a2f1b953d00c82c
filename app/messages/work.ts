/** Messages about people, their hours and the work in their hands. */
import type { AirKind } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import { openTimeWayWords, type OpenTimeWay } from './openTime.ts';
import { offers, rounded, findingSpec, tenthsOfHours } from './spec.ts';
import { plural } from '../units/words.ts';
import { capital, dayAndTime, elapsed, listed, roundMoney, plain, spanOfTime } from './words.ts';
import { clockTime } from '../time/words.ts';

const NO_LEVER = { dependsOn: 'document', waysOut: 'none', saidByChoice: false } as const;
const CLEARED_BY_LEVERS = {
  dependsOn: 'document',
  waysOut: 'levers',
  saidByChoice: false,
} as const;

/** One filler as a finding tells it. */
interface FillTold {
  readonly name: string;
  readonly lifts: number;
  readonly nights: number;
  readonly refused: 'bake' | 'seen-paint' | null;
  /** Against the filler that is planned, work, material and nights together, minor units. */
  readonly moreMinor: number;
}

const REFUSED = {
  bake: 'may not lie under a bake as hot as the one planned',
  'seen-paint': 'may not lie under paint that is seen: it sinks later',
} as const;

const fillWords = ({ name, lifts, nights, refused, moreMinor }: FillTold, currency: string) =>
  refused
    ? `${name} ${REFUSED[refused]}.`
    : `${name}: ${plural(lifts, 'lift')}, ${plural(nights, 'night')}, ` +
      `${roundMoney(Math.abs(moreMinor), currency)} ${moreMinor < 0 ? 'less' : 'more'} with its nights.`;

/** Release or spray with the work that shares its air. */
interface AirShared {
  readonly work: string;
  readonly air: AirKind;
  readonly beside: readonly string[];
  readonly start: Minute;
  readonly end: Minute;
  readonly zone: string;
}

const RELEASE_BESIDE =
  'Dust or resin in a release coat marks the face of the part or lets it stick.';
const SPRAY_BESIDE =
  'Dust in a wet coat cannot be taken out again. Where solvent is sprayed nothing may spark, and nobody is in the ' +
  'room without the mask that the data sheet names.';

export const WORK_FINDINGS = {
  'crew-empty': findingSpec({
    meaning: 'Nobody is there to do the work.',
    severity: 'stop',
    unsafe: null,
    ...CLEARED_BY_LEVERS,
    words: () => 'Nobody is in the crew: add a name and hours.',
  }),
  'works-alone': findingSpec({
    meaning: 'One person works alone, or wet work needs more people than there are.',
    severity: ['warn', 'note'],
    unsafe: 'wet-work',
    ...CLEARED_BY_LEVERS,
    words: (a: { wanted: number; crew: number }) =>
      a.wanted > a.crew
        ? `Wet work here needs ${a.wanted} people and the crew has ${a.crew}. ` +
          'Nobody should laminate alone: find a second pair of hands.'
        : 'The crew is one person, who works alone with resin, solvent, heat and lifting. Have somebody within ' +
          'call who looks in every half hour and can call for help; local rules for working alone come first.',
  }),
  'lift-alone': findingSpec({
    meaning: 'The part takes more hands to lift than the crew has.',
    severity: 'warn',
    unsafe: null,
    ...CLEARED_BY_LEVERS,
    words: (a: { wanted: number; crew: number; massKg: number; areaM2: number }) =>
      `Out of the mould it is about ${plain(a.massKg)} kg and ${plain(a.areaM2)} m² and takes ` +
      `${a.wanted} people to lift; the crew has ${a.crew}. Have a helper there for demould and for the drive.`,
  }),
  'wet-past-hours': findingSpec({
    meaning: 'Wet work takes longer than any stretch of the crew’s hours.',
    severity: 'stop',
    unsafe: 'wet-work',
    ...CLEARED_BY_LEVERS,
    words: (a: WetPastHours) =>
      `${a.work}: with the watch after it this takes ${elapsed(a.minutes)} without a break, and the longest stretch of ` +
      `the crew’s hours is ${elapsed(a.longestMinutes)}. Its dates hold only if it is worked without a stop from ` +
      `${dayAndTime(a.start, a.zone)} to ${dayAndTime(a.end, a.zone)}: do not start it with these hours.` +
      (a.way === undefined ? '' : ` ${openTimeWayWords(a.way, a.currency)}`),
    numbers: ({ minutes, longestMinutes }) => ({ minutes, longestMinutes }),
  }),
  'hands-short': findingSpec({
    meaning: 'The plan does some work with fewer people than it takes, though the crew has them.',
    severity: 'warn',
    unsafe: null,
    ...CLEARED_BY_LEVERS,
    words: (a: HandsShort) =>
      `${a.work}: it takes ${a.wanted} people, and by this plan ${only(a.there)} there. ` +
      'No plan with all of them was found in time: have a helper there, or move a date.',
  }),
  'left-over-break': findingSpec({
    meaning:
      'Mixed or sprayed work is left over a break, though somebody’s hours hold it without one.',
    severity: 'warn',
    unsafe: null,
    ...CLEARED_BY_LEVERS,
    words: (a: { work: string; minutes: number; start: Minute; end: Minute; zone: string }) =>
      `${a.work}: ${elapsed(a.minutes)} of mixed or sprayed work, begun ${dayAndTime(a.start, a.zone)} and ended ` +
      `${dayAndTime(a.end, a.zone)} after a break. What is mixed hardens meanwhile: mix what is used before the ` +
      'break, or have a helper there so that it is done in one go.',
    numbers: ({ minutes }) => ({ minutes }),
  }),
  'air-shared': findingSpec({
    meaning: 'Release or spray has the room’s air together with other work.',
    severity: 'warn',
    unsafe: null,
    ...CLEARED_BY_LEVERS,
    words: (a: AirShared) =>
      `${a.work}, ${spanOfTime(a.start, a.end, a.zone)}: ${listed(a.beside)} ${a.beside.length === 1 ? 'goes' : 'go'} ` +
      'on in the room at the same time or within the time in which air settles, because no plan was found that keeps ' +
      `them apart and its dates too. ${a.air === 'spray' ? SPRAY_BESIDE : RELEASE_BESIDE} Do one of them in another ` +
      'room or behind a closed curtain with its own extraction, or move a date.',
  }),
  'laid-alone': findingSpec({
    meaning: 'The plan has fewer people on wet work than it wants, though the crew has them.',
    severity: 'warn',
    unsafe: 'wet-work',
    ...CLEARED_BY_LEVERS,
    words: (a: HandsShort) =>
      `${a.work}: it needs ${a.wanted} people, and by this plan ${only(a.there)} there. ` +
      'Nobody should laminate alone: find a second pair of hands, or move a date.',
  }),
  'carrier-unknown': findingSpec({
    meaning: 'Nobody has said who carries the part to an outside party.',
    severity: 'note',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { party: string; driveHours: number; people: number }) =>
      `Nobody has said who carries the part to ${a.party}: planned as the shop’s own drive, ` +
      `${elapsed(a.driveHours * 60)} each way, ${a.people === 1 ? 'one person' : `${a.people} people`} and a van. ` +
      'Ask before it is wrapped.',
    numbers: (a) => ({ people: a.people }),
  }),
  'party-closed': findingSpec({
    meaning: 'An outside party does not work for as long as the plan looks ahead.',
    severity: 'stop',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { party: string }) =>
      `${a.party} does not work for as long as the plan looks ahead; dates are given as if they did from ` +
      `Monday to Friday, ${clockTime('08:00')} to ${clockTime('17:00')}. Give their hours, ask when they open again, or take the work to another.`,
  }),
  'repair-over-spare': findingSpec({
    meaning: 'At worst, repair after demould takes longer than the time left before a date.',
    severity: 'warn',
    unsafe: null,
    dependsOn: 'plan',
    waysOut: 'levers',
    saidByChoice: false,
    words: (a: {
      plannedMinutes: number;
      mostMinutes: number;
      cure: boolean;
      spareMinutes: number;
    }) =>
      `Repair is planned at ${elapsed(a.plannedMinutes)}, the average. At worst it ` +
      `takes ${elapsed(a.mostMinutes)}${a.cure ? ' and a night for new plies to cure' : ''}, and ` +
      `${a.spareMinutes > 0 ? `${elapsed(a.spareMinutes)} of the shop’s hours are` : 'nothing is'} to spare. ` +
      'Keep a day free after demould, or use a surer release and more draft.',
    numbers: (a) => ({
      mostHours: tenthsOfHours(a.mostMinutes),
      spareHours: tenthsOfHours(a.spareMinutes),
    }),
  }),
  'helper-called': findingSpec({
    meaning: 'A helper by the hour is to be there for wet work.',
    severity: 'note',
    unsafe: null,
    ...NO_LEVER,
    dependsOn: 'plan',
    words: (a: {
      calls: readonly { readonly work: string; readonly start: Minute; readonly end: Minute }[];
      zone: string;
      costMinor: number;
      currency: string;
    }) =>
      `A helper mixes and hands over at the ${listed(
        a.calls.map(
          ({ work, start, end }) => `${work.toLowerCase()}, ${spanOfTime(start, end, a.zone)}`,
        ),
      )}. By the hour that is ${roundMoney(a.costMinor, a.currency)}. Ask them now: without them the wet work takes longer than this.`,
    numbers: (a) => ({ calls: a.calls.length }),
  }),
  'long-wet-work': findingSpec({
    meaning: 'Wet work long enough to tire people.',
    severity: 'warn',
    unsafe: 'cure',
    ...NO_LEVER,
    dependsOn: 'plan',
    words: (a: { cure: string; minutes: number; limitMinutes: number }) =>
      `${a.cure}: ${elapsed(a.minutes)} of wet work in one go. Over ${elapsed(a.limitMinutes)} ` +
      'people tire and mix badly; never alone.',
  }),
  'supplier-closed': findingSpec({
    meaning: 'A supplier delivers nothing for as long as the plan looks ahead.',
    severity: 'stop',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { supplier: string; lines: readonly string[] }) =>
      `${capital(a.supplier)} delivers nothing for as long as the plan looks ahead; dates are given as ` +
      `if it did from Monday to Friday. Give its hours, take ${listed(a.lines)} from another supplier, ` +
      'or enter what lies in the shop as stock.',
  }),
  'lead-time-unknown': findingSpec({
    meaning: 'Something is to order and nobody knows how long it takes to come.',
    severity: 'note',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { lines: readonly string[] }) =>
      `No lead time is known for ${listed(a.lines)}: the plan takes it to be there in time. Ask the ` +
      'supplier before other work depends on it.',
    numbers: (a) => ({ lines: a.lines.length }),
  }),
  'question-open': findingSpec({
    meaning: 'A question that work hangs on is not answered.',
    severity: 'warn',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { question: string; holdsUp: string | null }) =>
      `Not settled: ${a.question} ${a.holdsUp === null ? '' : `It holds up '${a.holdsUp}'.`}`.trim(),
  }),
  'fill-in-one-go': findingSpec({
    meaning: 'Filler goes on in one heavy fill, not in several thin ones.',
    severity: 'note',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { fillerKg: number; extraMinutes: number; extraWaitHours: number }) =>
      `This route needs about ${plain(a.fillerKg)} kg of filler. Put it on in one heavy go and sand ` +
      `longer: several thin fills take ${elapsed(a.extraMinutes)} more work and ` +
      `${plain(a.extraWaitHours)} h more drying.`,
    numbers: (a) => ({ fillerKg: rounded(a.fillerKg, 2) }),
  }),
  'fill-lifts': findingSpec({
    meaning: 'The filler that is planned for the deepest hollow, and what the others would take.',
    severity: 'note',
    unsafe: null,
    ...NO_LEVER,
    words: (a: {
      deepestMm: number;
      liftMm: number;
      taken: FillTold;
      others: readonly FillTold[];
      currency: string;
    }) =>
      `Hollows to ${plain(a.deepestMm)} mm are filled with ${a.taken.name.toLowerCase()} in ` +
      `${plural(a.taken.lifts, 'lift')} of ${plain(a.liftMm)} mm at most, ${plural(a.taken.nights, 'night')}.` +
      a.others.map((other) => ` ${fillWords(other, a.currency)}`).join(''),
    numbers: (a) => ({ lifts: a.taken.lifts, nights: a.taken.nights }),
  }),
  'overtime-used': findingSpec({
    meaning: 'Somebody stays longer, by permission, because a date needs it.',
    severity: 'note',
    unsafe: null,
    ...NO_LEVER,
    dependsOn: 'plan',
    words: (a: {
      people: readonly string[];
      stages: readonly { readonly name: string; readonly minutes: number }[];
      minutes: number;
      costMinor: number;
      currency: string;
    }) => {
      const stages = a.stages.map(({ name, minutes }) => `${name} (${elapsed(minutes)})`);
      return (
        `${listed(a.people)} ${a.people.length === 1 ? 'stays' : 'stay'} ${elapsed(a.minutes)} longer ` +
        `in all, because a date needs it: ${stages.join('; ')}. On top of the wage that is ` +
        `${roundMoney(a.costMinor, a.currency)}. Tired hands mix badly.`
      );
    },
    numbers: (a) => ({ overtimeHours: tenthsOfHours(a.minutes) }),
  }),
} as const;

/** Somebody stays for a gel, or watches through the night. */
export interface GelWatch {
  readonly person: string;
  readonly layup: string;
  readonly mix: Minute;
  readonly until: Minute;
  /** null: the next day begins late enough. */
  readonly restsUntil: Minute | null;
}

const halfDay = (): string => `${clockTime('08:00')} to ${clockTime('13:00')}`;

export const WORK_LEVERS = {
  saturday: offers({
    label: () => `Work Saturdays ${halfDay()}`,
    sideEffects: () => ['Overtime; the week has one day of rest.'],
  }),
  weekend: offers({
    label: () => `Work Saturdays and Sundays ${halfDay()}`,
    sideEffects: () => ['Overtime without a day of rest: no more than a week of it.'],
  }),
  'longer-day': offers({
    label: () => 'Work two hours longer each day',
    sideEffects: () => ['Overtime; tired hands mix badly.'],
  }),
  'wet-helper': offers({
    label: ({ layups, hours }: { layups: readonly string[]; hours: number }) =>
      `A helper mixes and hands over at the ${listed(layups)}, ${plural(hours, 'hour')} in all`,
    sideEffects: () => [
      'The helper lays nothing: show them scale, ratio and gloves before, on a batch that is not used.',
    ],
  }),
  sections: offers({
    label: ({ skin, sections }: InSections) =>
      `Lay the ${skin} in ${sections} sections, one after the other`,
    sideEffects: ({ more, minutes, jointMm, overlapMm, overlapG, onMould }) => [
      `${more === 1 ? 'One more cure with' : `${more} more cures, each with`} its bag, its watched hour and its night; ${elapsed(minutes)} more work.`,
      `Plies lap ${plain(overlapMm, 0)} mm over the section before, each joint a step on from the one before: ${plain(jointMm / 1000, 1)} m of joint to strip and scuff, ${plain(overlapG, 0)} g more on the part.`,
      ...(onMould
        ? [
            'A slight step to fill where the face is seen; the bare mould gets one more coat of release while peel ply covers the joint.',
          ]
        : []),
      'Where the joint lies is the shop’s choice: away from corners, hard points and the edges of core.',
    ],
  }),
  'gel-watch': offers({
    label: ({ watches, zone }: { watches: readonly GelWatch[]; zone: string }) =>
      watches.length === 1
        ? `${watches[0]!.person} stays until ${dayAndTime(watches[0]!.until, zone)} for the gel of the ${watches[0]!.layup}`
        : `Stay for ${watches.length} gels: ${listed(
            watches.map(({ person, until }) => `${person} until ${dayAndTime(until, zone)}`),
          )}`,
    sideEffects: ({ watches, zone }) => [
      ...watches.map(
        ({ layup, mix }) => `First mix of the ${layup} stands at ${dayAndTime(mix, zone)}.`,
      ),
      ...watches.flatMap(({ person, restsUntil }) =>
        restsUntil === null
          ? []
          : [`${person} rests after it: no work before ${dayAndTime(restsUntil, zone)}.`],
      ),
      'Overtime; nobody watches without someone within call.',
    ],
  }),
  'another-hand': offers({
    label: () => 'Bring in another pair of hands',
    sideEffects: () => ['Wages; somebody new needs the dry rehearsal most.'],
  }),
} as const;

interface InSections {
  readonly skin: string;
  /** Laid on the mould. */
  readonly onMould: boolean;
  readonly sections: number;
  readonly more: number;
  readonly minutes: number;
  readonly jointMm: number;
  /** Of one ply over the other. */
  readonly overlapMm: number;
  readonly overlapG: number;
}

interface WetPastHours {
  readonly work: string;
  readonly minutes: number;
  readonly longestMinutes: number;
  readonly start: Minute;
  readonly end: Minute;
  readonly zone: string;
  /** undefined where the open time's own finding tells it. */
  readonly way: OpenTimeWay | null | undefined;
  readonly currency: string;
}

interface HandsShort {
  readonly work: string;
  readonly wanted: number;
  readonly there: number;
}

const only = (people: number): string => (people === 1 ? 'only one is' : `only ${people} are`);
