/** Findings about dates, people, questions and what was promised. */
import type { Build } from '../../../../app/document/schema.ts';
import { sampleOf } from '../../../support/builds.ts';
import { LIBRARY, ROOMY, withPart, withRow, withZone } from '../../judge/builds.ts';
import { crewOf, weekdays, type FindingCase } from './case.ts';

const painter = (more: object): Build => ({
  ...ROOMY,
  outside: [{ id: 'paint', name: 'Spray shop', workingDays: 3, ...more }],
});
const SIGN = sampleOf('harbour-gate-sign');
const APART: Build = { ...ROOMY, route: { joints: {} } };
const RELEASED = [
  { stage: 'mould', start: '2027-04-19T08:00', end: '2027-04-19T12:00' },
  { stage: 'seal', start: '2027-04-19T12:30', end: '2027-04-20T12:00' },
  { stage: 'release', start: '2027-04-21T08:00', end: '2027-04-21T12:00' },
];
const STAYS: Build = {
  ...APART,
  crew: APART.crew.map((person) => ({ ...person, overtime: weekdays(['16:30', '20:00']) })),
};

/** Two people who are never there at the same time. */
const NEVER_TOGETHER: Build['crew'] = [
  ...crewOf(weekdays(['07:30', '12:00']), 'Ida Moss'),
  ...crewOf(weekdays(['12:30', '17:00']), 'Per Lunde'),
];

const SPLIT_DAY: [string, string][] = [
  ['07:30', '12:00'],
  ['12:30', '16:30'],
];
/** More filler than one pair of hands puts on between two breaks, and a second pair on Mondays alone. */
const HELPED_ON_MONDAYS: Build = withZone(
  {
    ...ROOMY,
    resin: { system: 'orrin-40', hardener: 'slow' },
    crew: [
      ...crewOf(weekdays(...SPLIT_DAY), 'Ida Moss'),
      ...crewOf({ mon: SPLIT_DAY }, 'Per Lunde'),
    ],
  },
  { areaM2: 5 },
);

/** A lone worker in a cold shop, with more wet work than any stretch of the day holds. */
const ALONE_IN_THE_COLD: Build = withZone(
  {
    ...ROOMY,
    crew: ROOMY.crew.slice(0, 1),
    resin: { system: 'orrin-40', hardener: 'fast' },
    room: { temperatureC: { day: 12, night: 8 }, humidityPct: 60 },
    route: { joints: {} },
  },
  { areaM2: 6 },
);

/** A shell of one skin with so many outside visits that the plan has more stages than any ordinary one. */
const MANY_VISITS: Build = {
  ...withZone(ROOMY, { core: null, inner: [] }),
  outside: Array.from({ length: 45 }, (_, k) => ({
    id: `visit-${k + 1}`,
    name: `Visit ${k + 1}`,
    workingDays: 1,
  })),
};

export const WORK_CASES: readonly FindingCase[] = [
  {
    code: 'crew-empty',
    has: { ...ROOMY, crew: [] },
    hasNot: ROOMY,
    severity: 'stop',
    message: 'Nobody is in the crew: add a name and hours.',
    numbers: {},
  },
  {
    code: 'works-alone',
    has: { ...ROOMY, crew: [{ name: 'Ida Moss' }] },
    hasNot: ROOMY,
    library: withRow(LIBRARY, 'labour', 'layup', { peopleMin: 2 }),
    severity: 'warn',
    message:
      'Wet work here needs 2 people and the crew has 1. Nobody should laminate alone: find a second pair of hands.',
    numbers: {},
  },
  {
    code: 'works-alone',
    has: { ...ROOMY, crew: [{ name: 'Ida Moss' }] },
    hasNot: ROOMY,
    severity: 'note',
    message:
      'The crew is one person, who works alone with resin, solvent, heat and lifting. Have somebody within call who looks in every half hour and can call for help; local rules for working alone come first.',
    numbers: {},
  },
  {
    code: 'lift-alone',
    has: withZone({ ...ROOMY, crew: [{ name: 'Ida Moss' }] }, { areaM2: 2 }),
    hasNot: withZone(ROOMY, { areaM2: 2 }),
    severity: 'warn',
    message:
      'Out of the mould it is about 5.2 kg and 2 m² and takes 2 people to lift; the crew has 1. Have a helper there for demould and for the drive.',
    numbers: {},
  },
  {
    code: 'wet-past-hours',
    has: ALONE_IN_THE_COLD,
    hasNot: withZone(ALONE_IN_THE_COLD, { areaM2: 0.4 }),
    severity: 'stop',
    message:
      'Lay up outer skin: with the watch after it this takes 6.1 h without a break, and the longest stretch of the crew’s hours is 4.5 h. Its dates hold only if it is worked without a stop from Wednesday 5 May, 08:00 to Wednesday 5 May, 13:06: do not start it with these hours.',
    numbers: { minutes: 366, longestMinutes: 270 },
  },
  {
    code: 'hands-short',
    has: withZone({ ...ROOMY, crew: NEVER_TOGETHER }, { areaM2: 2 }),
    hasNot: withZone(ROOMY, { areaM2: 2 }),
    severity: 'warn',
    message:
      'Demould and weigh: it takes 2 people, and by this plan only one is there. No plan with all of them was found in time: have a helper there, or move a date.',
    numbers: {},
  },
  {
    code: 'left-over-break',
    has: { ...HELPED_ON_MONDAYS, pins: [{ stage: 'fair:1', start: '2027-06-09T10:00' }] },
    hasNot: { ...HELPED_ON_MONDAYS, pins: [{ stage: 'fair:1', start: '2027-06-07T07:30' }] },
    severity: 'warn',
    message:
      'Key and screed light epoxy filler: 4.7 h of mixed or sprayed work, begun Wednesday 9 June, 10:00 and ended Wednesday 9 June, 15:09 after a break. What is mixed hardens meanwhile: mix what is used before the break, or have a helper there so that it is done in one go.',
    numbers: { minutes: 279 },
  },
  {
    code: 'air-shared',
    has: { ...SIGN, room: { ...SIGN.room, releaseAndSpray: 'beside' } },
    hasNot: SIGN,
    now: '2027-04-12T08:00Z',
    scope: 'full',
    severity: 'warn',
    message:
      'Release: Paste wax, 5 coats, Monday 26 April, 10:05 to 16:21: Fit core on the mould, score and drill it goes on in the room at the same time or within the time in which air settles, because no plan was found that keeps them apart and its dates too. Dust or resin in a release coat marks the face of the part or lets it stick. Do one of them in another room or behind a closed curtain with its own extraction, or move a date.',
    numbers: {},
  },
  {
    code: 'laid-alone',
    has: { ...ROOMY, crew: NEVER_TOGETHER },
    hasNot: ROOMY,
    library: withRow(LIBRARY, 'labour', 'layup', { peopleMin: 2 }),
    severity: 'warn',
    message:
      'Lay up outer skin: it needs 2 people, and by this plan only one is there. Nobody should laminate alone: find a second pair of hands, or move a date.',
    numbers: {},
  },
  {
    code: 'carrier-unknown',
    has: painter({ driveHours: 1.5 }),
    hasNot: painter({ driveHours: 1.5, carriedBy: 'party' }),
    severity: 'note',
    message:
      'Nobody has said who carries the part to Spray shop: planned as the shop’s own drive, 1.5 h each way, 2 people and a van. Ask before it is wrapped.',
    numbers: { people: 2 },
  },
  {
    code: 'party-closed',
    has: painter({ hours: {} }),
    hasNot: painter({}),
    severity: 'stop',
    message:
      'Spray shop does not work for as long as the plan looks ahead; dates are given as if they did from Monday to Friday, 08:00 to 17:00. Give their hours, ask when they open again, or take the work to another.',
    numbers: {},
  },
  {
    code: 'frame-gone',
    has: withPart(ROOMY, { frame: { until: '2027-04-26' } }),
    hasNot: withPart(ROOMY, { frame: { from: '2027-04-26', until: '2027-06-11' } }),
    severity: 'stop',
    message:
      'The frame is there until Monday 26 April, 23:59 and the part can be fitted to it by Friday 30 April, 11:59; it is out of the mould only Friday 30 April, 07:48. Keep the frame longer, take a template of it while it is there, or begin sooner.',
    numbers: {},
  },
  {
    code: 'repair-over-spare',
    has: { ...APART, unveiling: '2027-05-07T18:00' },
    hasNot: APART,
    severity: 'warn',
    message:
      'Repair is planned at 3.5 h, the average. At worst it takes 8.5 h and a night for new plies to cure, and 2.4 h of the shop’s hours are to spare. Keep a day free after demould, or use a surer release and more draft.',
    numbers: { mostHours: 8.5, spareHours: 2.4 },
  },
  {
    code: 'helper-called',
    has: { ...APART, helperFor: ['skin'] },
    hasNot: APART,
    severity: 'note',
    message:
      'A helper mixes and hands over at the outer skin, Thursday 29 April, 08:00 to 08:24. By the hour that is €42. Ask them now: without them the wet work takes longer than this.',
    numbers: { calls: 1 },
  },
  {
    code: 'long-wet-work',
    has: withZone(
      {
        ...ROOMY,
        crew: crewOf(weekdays(['07:00', '20:00'])),
        resin: { system: 'orrin-40', hardener: 'slow' },
        route: { joints: {} },
        unveiling: '2027-12-01',
      },
      { areaM2: 6 },
    ),
    hasNot: ROOMY,
    severity: 'warn',
    message:
      'Outer skin: 4.3 h of wet work in one go. Over 4 h people tire and mix badly; never alone.',
    numbers: {},
  },
  {
    code: 'supplier-closed',
    has: { ...ROOMY, suppliers: [{ id: 'core-merchant', name: 'Kernhaus', hours: {} }] },
    hasNot: ROOMY,
    severity: 'stop',
    message:
      'Kernhaus delivers nothing for as long as the plan looks ahead; dates are given as if it did from ' +
      'Monday to Friday. Give its hours, take PVC foam 80 kg/m3, 10 mm from another supplier, or enter ' +
      'what lies in the shop as stock.',
    numbers: {},
  },
  {
    code: 'lead-time-unknown',
    has: ROOMY,
    hasNot: { ...ROOMY, stock: [{ row: 'pvc-80-10mm', quantity: 9 }] },
    library: withRow(LIBRARY, 'cores', 'pvc-80', { leadDays: null }),
    severity: 'note',
    message:
      'No lead time is known for PVC foam 80 kg/m3, 10 mm: the plan takes it to be there in time. Ask ' +
      'the supplier before other work depends on it.',
    numbers: { lines: 1 },
  },
  {
    code: 'question-open',
    has: withPart(ROOMY, { questions: [{ id: 'holes', text: 'Which holes?', before: 'trim' }] }),
    hasNot: withPart(ROOMY, {
      questions: [{ id: 'holes', text: 'Which holes?', answer: 'None', before: 'trim' }],
    }),
    severity: 'warn',
    message: "Not settled: Which holes? It holds up 'Trim to line'.",
    numbers: {},
  },
  {
    code: 'fill-in-one-go',
    has: { ...ROOMY, route: { joints: { 'skin-core': 'one-bag' } } },
    hasNot: ROOMY,
    severity: 'note',
    message:
      'This route needs about 0.3 kg of filler. Put it on in one heavy go and sand longer: several thin fills take 2.3 h more work and 24 h more drying.',
    numbers: { fillerKg: 0.32 },
  },
  {
    code: 'fill-lifts',
    has: withPart(ROOMY, { deepestFillMm: 9 }),
    hasNot: ROOMY,
    severity: 'note',
    message:
      'Hollows to 9 mm are filled with light epoxy fairing filler in 2 lifts of 6 mm at most, 2 nights. Fine epoxy filler: 5 lifts, 5 nights, €273 more with its nights. Polyester body filler may not lie under paint that is seen: it sinks later.',
    numbers: { lifts: 2, nights: 2 },
  },
  {
    code: 'date-missed',
    has: { ...APART, unveiling: '2027-04-23T18:00' },
    hasNot: ROOMY,
    severity: 'stop',
    message:
      'The earliest end is Friday 7 May, 09:56: 13 days 16 h after the unveiling on Friday 23 April, 18:00.',
    numbers: { hoursLate: 327.9 },
  },
  {
    code: 'date-missed',
    has: { ...ROOMY, unveiling: '2027-04-01T18:00' },
    hasNot: ROOMY,
    severity: 'stop',
    message: 'The unveiling, Thursday 1 April, 18:00, is past.',
    numbers: { daysPast: 17 },
  },
  {
    code: 'stage-impossible',
    has: { ...ROOMY, gear: { pumpPorts: 0 } },
    hasNot: ROOMY,
    severity: 'stop',
    message:
      'Cure: outer skin cannot be placed: Cure: outer skin needs 1 of pump port; there is 0.',
    numbers: {},
  },
  {
    code: 'slot-missed',
    has: painter({ slot: '2027-04-22' }),
    hasNot: painter({ slot: '2027-06-14' }),
    severity: 'stop',
    message:
      'Spray shop is booked from Thursday 22 April, 08:00; the part is there Wednesday 5 May, 10:46.',
    numbers: { hoursLate: 329.8 },
  },
  {
    code: 'searched-in-part',
    scope: 'full',
    has: MANY_VISITS,
    hasNot: ROOMY,
    severity: 'note',
    message:
      'This plan has 355 stages. So that its answer comes in time, the ways out are not all looked at (left aside: 10).',
    numbers: { stages: 355, tried: 1, waysOut: 10 },
  },
  {
    code: 'no-spare-day',
    has: { ...APART, unveiling: '2027-05-07T14:00' },
    hasNot: ROOMY,
    severity: 'note',
    message:
      'Only 3.6 h of working time lie between the end of the plan, Friday 7 May, 09:56, and the unveiling.',
    numbers: { spareHours: 3.6 },
  },
  {
    code: 'facts-conflict',
    has: { ...painter({ slot: '2027-04-28' }), unveiling: '2027-05-04T10:00' },
    hasNot: ROOMY,
    scope: 'full',
    severity: 'note',
    message:
      'These do not go together: Finish mould and flange takes 3.1 h; Sealer cures takes 24 h; Spray shop, 3 working days takes 27 h; Order from board merchant, 4 working days takes 106 h; Spray shop, 3 working days has to be done by Friday 30 April, 17:00; the hours of Ida Moss and Per Lunde and Ana Reyes and Joel Field; 2 more (listed under the numbers). Drop any one of them and the rest fits. That they do not fit together is proven.',
    numbers: {
      'fact 1': 'Finish mould and flange takes 3.1 h',
      'fact 2': 'Sealer cures takes 24 h',
      'fact 3': 'Spray shop, 3 working days takes 27 h',
      'fact 4': 'Order from board merchant, 4 working days takes 106 h',
      'fact 5': 'Spray shop, 3 working days has to be done by Friday 30 April, 17:00',
      'fact 6': 'the hours of Ida Moss and Per Lunde and Ana Reyes and Joel Field',
      'fact 7': 'the hours in which the work is open',
      'fact 8': 'nothing starts before Monday 19 April, 07:00',
    },
  },
  {
    code: 'pin-left-out',
    has: {
      ...APART,
      pins: [
        { stage: 'demould', start: '2027-05-20T09:00' },
        { stage: 'trim', start: '2027-05-19T09:00' },
      ],
    },
    hasNot: { ...APART, pins: [{ stage: 'demould', start: '2027-05-20T09:00' }] },
    severity: 'stop',
    message:
      'The plan leaves out this pin: Trim to line is fixed for Wednesday 19 May, 09:00; it does not go with Demould and weigh is fixed for Thursday 20 May, 09:00. Remove one of them.',
    numbers: {},
  },
  {
    code: 'order-left-out',
    has: {
      ...APART,
      links: [
        { before: 'demould', after: 'trim', minHours: 48 },
        { before: 'demould', after: 'trim', maxHours: 3 },
      ],
    },
    hasNot: { ...APART, links: [{ before: 'demould', after: 'trim', minHours: 48 }] },
    severity: 'stop',
    message:
      'The plan leaves out this order: Trim to line at most 3 h after Demould and weigh; it does not go with Trim to line at least 48 h after Demould and weigh. Remove one of them.',
    numbers: {},
  },
  {
    code: 'pin-missed',
    has: { ...APART, pins: [{ stage: 'trim', start: '2027-04-20T09:00' }] },
    hasNot: APART,
    severity: 'stop',
    message:
      'Trim to line is pinned to Tuesday 20 April, 09:00 and cannot begin before Tuesday 4 May, 14:55: 14 days 6 h later.',
    numbers: { hoursLate: 341.9 },
  },
  {
    code: 'window-passed',
    has: { ...APART, records: RELEASED },
    hasNot: APART,
    now: '2027-05-10T08:00+01:00',
    severity: 'warn',
    message:
      'Release coats keep only so long. “Release: Paste wax, 5 coats” is done, and “Lay up outer skin” can only follow 22 days 20 h too late. It is planned as soon as it can be; look at the surface before going on.',
    numbers: { hoursLate: 548 },
  },
  {
    code: 'printed-moved',
    has: {
      ...APART,
      pins: [{ stage: 'hardware', start: '2027-05-26T09:00' }],
      printed: {
        at: '2027-04-19T07:00',
        stages: [{ stage: 'hardware', start: '2027-05-20T09:00' }],
      },
    } as Build,
    hasNot: APART,
    severity: 'note',
    message:
      'Moved since the schedule was printed (Monday 19 April, 07:00). Fit hardware: was Thursday 20 May, 09:00, now Wednesday 26 May, 09:00.',
    numbers: {
      stagesMoved: 1,
      'Fit hardware': 'Thursday 20 May, 09:00, now Wednesday 26 May, 09:00',
    },
  },
  {
    code: 'overtime-used',
    has: { ...STAYS, unveiling: '2027-05-07T08:30' },
    hasNot: STAYS,
    severity: 'note',
    message:
      'Ida Moss and Per Lunde stay 10.5 h longer in all, because a date needs it: Take in and check: bench supplies (20 min); Take in and check: cloth merchant (20 min); Cut plies, peel ply and bag (1.9 h); Take in and check: resin merchant (20 min); Take in and check: board merchant (20 min); Take in and check: core merchant (20 min); Finish mould and flange (5.3 h); Release: Paste wax, 5 coats (1.6 h). On top of the wage that is €221. Tired hands mix badly.',
    numbers: { overtimeHours: 10.5 },
  },
];
