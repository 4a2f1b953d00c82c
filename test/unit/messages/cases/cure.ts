/** Findings about resin, room and heat. */
import type { Build } from '../../../../app/document/schema.ts';
import { LIBRARY, ROOMY, withPart, withRow, withZone } from '../../judge/builds.ts';
import { crewOf, DAY, room, under, WARM_TENT, weekdays, type FindingCase } from './case.ts';

const SLOW = { system: 'orrin-40', hardener: 'slow' };
const FAST = { system: 'orrin-40', hardener: 'fast' };
const MORNINGS: Build = {
  ...ROOMY,
  crew: crewOf(weekdays(['08:00', '12:30'])),
  resin: SLOW,
};
/** One person whose wet work is in time on a cool mould, and too slow once the room has warmed it. */
const COOL_MORNINGS: Build = {
  ...withZone(ROOMY, { areaM2: 1.1 }),
  room: { temperatureC: { day: 24, night: 15 } },
  crew: crewOf(weekdays(['07:00', '19:00'])),
  route: { joints: {} },
};
/** A log of so many hours from the first day on. */
const logged = (hours: number) => ({
  name: 'shelf probe',
  from: '2027-04-19T00:00:00Z',
  temperaturesC: Array.from({ length: hours }, (_, i) => 19 + (i % 3)),
});
const plies = (count: number) =>
  Array.from({ length: count }, () => ({ cloth: 'glass-twill-300' }));

/** Hardeners that count every degree above freezing. */
const COLD_HARDENERS = withRow(LIBRARY, 'resins', 'orrin-40', {
  hardeners: LIBRARY.resins
    .find((row) => row.id === 'orrin-40')!
    .hardeners.map((row) => ({ ...row, minimumC: 0 })),
});

export const CURE_CASES: readonly FindingCase[] = [
  {
    code: 'cold-room',
    has: room({ temperatureC: { day: 12, night: 8 } }),
    hasNot: ROOMY,
    severity: 'stop',
    message:
      'Orrin 40 hardener, medium is for 15 °C and up; the room stands at 12 °C by day and 8 °C at its coldest, and that time is not counted as cure. The resin may still gel: watch it from the earliest gel to the latest.',
    numbers: { coldestC: 8, minimumC: 15 },
  },
  {
    code: 'cold-room',
    has: room({ temperatureC: { day: 20, night: 11 } }),
    hasNot: ROOMY,
    severity: 'warn',
    message:
      'Orrin 40 hardener, medium is for 15 °C and up; the room stands at 11 °C at night, and that time is not counted as cure. The resin may still gel: watch it from the earliest gel to the latest.',
    numbers: { coldestC: 11, minimumC: 15 },
  },
  {
    code: 'log-ends',
    has: room({ ...DAY, measured: logged(24 * 10 + 16) }),
    hasNot: room({ ...DAY, measured: logged(24 * 60) }),
    severity: 'note',
    message:
      'The temperature log ends Thursday 29 April, 17:00, in the middle of outer skin: the rest goes by the room’s day and night.',
    numbers: {},
  },
  {
    code: 'cure-stalls',
    has: room({ temperatureC: { day: 4, night: 4 } }),
    hasNot: ROOMY,
    severity: 'stop',
    message:
      'Outer skin never ends at the temperature of the room. Its dates hold only if part and mould are kept at 15 °C or more from the first mix on: do not start it colder.',
    numbers: { heldC: 15 },
  },
  {
    code: 'cure-stalls',
    has: { ...room({ temperatureC: { day: 10, night: 10 } }), unveiling: '2027-12-30T18:00' },
    hasNot: WARM_TENT,
    library: COLD_HARDENERS,
    severity: 'note',
    message:
      'Outer skin + core bond + inner skin: full cure is not reached at the temperature of the room; its Tg there is about 41 °C. More heat would cure it further.',
    numbers: { tgC: 40.9 },
  },
  {
    code: 'gel-unattended',
    has: MORNINGS,
    hasNot: ROOMY,
    severity: 'warn',
    message:
      'Outer skin: mixed Tuesday 4 May, 08:30, gel falls Tuesday 4 May, 16:19 (by Tuesday 4 May, 17:55 at the latest) with nobody there. No start in the shop’s hours puts it when somebody is there. Do not mix before it is agreed who is there from the earliest gel to the latest, with an alarm set.',
    numbers: {},
  },
  {
    code: 'gel-unattended',
    has: {
      ...ROOMY,
      route: { joints: {} },
      pins: [{ stage: 'layup:skin', start: '2027-04-30T15:00' }],
    },
    hasNot: ROOMY,
    severity: 'warn',
    message:
      'Outer skin: do not mix Friday 30 April, 15:00: gel falls Friday 30 April, 19:10 (by Friday 30 April, 20:07 at the latest) with nobody there. Mix it Friday 30 April, 10:06 instead: somebody sees the gel, and its bag comes off no later.',
    numbers: {},
  },
  {
    code: 'blush-likely',
    has: room({ ...DAY, humidityPct: 75 }),
    hasNot: room(DAY),
    severity: 'note',
    message:
      'At 19 °C and 75 % humidity amine blush is likely: wash with water and pad before sanding.',
    numbers: { coldestC: 19, humidityPct: 75 },
  },
  {
    code: 'dew-point-near',
    has: room({ ...DAY, humidityPct: 88 }),
    hasNot: room(DAY),
    severity: 'warn',
    message:
      "The dew point of the day's air is 18.9 °C and surfaces cool to 19 °C at night: they may be wet in the morning. Hold the heat or dry the air.",
    numbers: { dewPointC: 18.9, coldestC: 19 },
  },
  {
    code: 'heat-not-counted',
    has: { ...ROOMY, heat: [under(40)] },
    hasNot: { ...WARM_TENT, heat: [under(40)] },
    severity: 'stop',
    message:
      'Heat is set over a cure, but the shop has neither tent nor oven: it is not counted. Give the room a tent, or remove the heat from the cure.',
    numbers: {},
  },
  {
    code: 'heat-not-counted',
    has: { ...WARM_TENT, heat: [{ ...under(40), layup: 'local' }] },
    hasNot: { ...WARM_TENT, heat: [under(40)] },
    severity: 'note',
    message: "The heat set over 'local' is not counted: no cure holds that layup.",
    numbers: {},
  },
  {
    code: 'heat-over-limit',
    has: { ...room({ ...DAY, tent: { maxC: 45 } }), heat: [under(46)] },
    hasNot: { ...room({ ...DAY, tent: { maxC: 45 } }), heat: [under(45)] },
    severity: 'stop',
    message: 'Outer skin is to cure at 46 °C under its bag; the tent reaches 45 °C.',
    numbers: { heatC: 46, limitC: 45 },
  },
  {
    code: 'heat-over-limit',
    has: { ...room({ ...DAY, tent: { maxC: 65 } }), mould: { maxC: 50 }, heat: [under(55)] },
    hasNot: { ...room({ ...DAY, tent: { maxC: 65 } }), heat: [under(55)] },
    severity: 'stop',
    message:
      'Outer skin is to cure at 55 °C under its bag; the mould, Tooling board, medium density, takes 50 °C.',
    numbers: { heatC: 55, limitC: 50 },
  },
  {
    code: 'heat-ramp-fast',
    has: { ...WARM_TENT, heat: [under(40, 20)] },
    hasNot: { ...WARM_TENT, heat: [under(40, 10)] },
    severity: 'warn',
    message:
      'Outer skin: heat rises 20 °C an hour; over 10 the outside gets hotter than the inside and the laminate strains. Heat it more slowly.',
    numbers: { rampKPerHour: 20, mostKPerHour: 10 },
  },
  {
    code: 'bond-window-missed',
    has: withPart(
      withZone(
        {
          ...ROOMY,
          unveiling: '2027-09-30T18:00',
          room: { temperatureC: { day: 20, night: 20 }, humidityPct: 50 },
          crew: [{ name: 'Ida Moss' }, { name: 'Per Lunde' }],
          route: { joints: {} },
        },
        { areaM2: 0.6 },
      ),
      { structural: true },
    ),
    hasNot: ROOMY,
    library: withRow(LIBRARY, 'practice', 'strip-to-bond-hours', { value: 0 }),
    severity: 'warn',
    message:
      'Core bond: the plan cannot strip and bond on one day, within the 0 h that a stripped surface keeps, so it is abraded, washed and wiped again.',
    numbers: {},
  },
  {
    code: 'strip-covered',
    has: withZone(
      {
        ...ROOMY,
        unveiling: '2027-09-30T18:00',
        room: { temperatureC: { day: 20, night: 20 }, humidityPct: 50 },
        resin: { system: 'orrin-40', hardener: 'slow' },
        crew: [
          {
            name: 'Ida Moss',
            hours: Object.fromEntries(
              ['mon', 'tue', 'wed', 'thu', 'fri'].map((day) => [day, [['07:00', '21:00']]]),
            ),
          },
        ],
        route: { joints: {} },
      },
      { areaM2: 7.5 },
    ),
    hasNot: ROOMY,
    severity: 'note',
    message:
      'Core bond: stripping takes 2.3 h and a bare surface keeps 2 h. Cover what is stripped with clean film at once, and bond the same day, straight after the last pull.',
    numbers: { stripMinutes: 139 },
  },
  {
    code: 'open-time-short',
    has: withZone(
      { ...ROOMY, route: { joints: { 'skin-core': 'one-bag', 'core-inner': 'one-bag' } } },
      { areaM2: 9 },
    ),
    hasNot: withZone(ROOMY, { areaM2: 0.4 }),
    severity: 'stop',
    message:
      'Outer skin + core bond + inner skin: 4.9 h from first mix to sealed bag, but the first ply is open 2.3 h, so its bag has to be down and drawn 1.7 h after first mix. In 4 parts with staggered overlaps each is down in 1.5 h: 3 more bags, each with its cure, 3 h more work, about €126 in wages.',
    numbers: { wetMinutes: 295, openMinutes: 140, fullVacuumMinutes: 100 },
  },
  {
    code: 'open-time-short',
    has: withZone(
      {
        ...ROOMY,
        resin: { system: 'marl-7', hardener: 'fast' },
        route: { joints: { 'skin-core': 'one-bag', 'core-inner': 'one-bag' } },
      },
      { areaM2: 9 },
    ),
    hasNot: withZone(ROOMY, { areaM2: 0.4 }),
    severity: 'stop',
    message:
      'Outer skin + core bond + inner skin: 5.8 h from first mix to sealed bag, but the first ply is open 17 min, so no bag is down in time. More people do not help: use a hardener that stays open longer.',
    numbers: { wetMinutes: 349, openMinutes: 17, fullVacuumMinutes: 0 },
  },
  {
    code: 'bag-late',
    has: { ...COOL_MORNINGS, pins: [{ stage: 'layup:skin', start: '2027-05-05T12:00' }] },
    hasNot: { ...COOL_MORNINGS, pins: [{ stage: 'layup:skin', start: '2027-05-05T07:30' }] },
    severity: 'stop',
    message:
      'Outer skin: mixed Wednesday 5 May, 12:00 its bag is down Wednesday 5 May, 13:37, and it is due Wednesday 5 May, 13:18. Start when it is cooler, or with more hands.',
    numbers: { lateMinutes: 19 },
  },
  {
    code: 'mix-on-arrival',
    has: { ...ROOMY, pins: [{ stage: 'layup:skin', start: '2027-05-05T07:45' }] },
    hasNot: { ...ROOMY, pins: [{ stage: 'layup:skin', start: '2027-05-05T08:10' }] },
    severity: 'warn',
    message:
      'Outer skin: first mix Wednesday 5 May, 07:45, as people come in. They want 30 min to dress, check and weigh: move its fixed start.',
    numbers: {},
  },
  {
    code: 'tack-out-of-hours',
    has: {
      ...ROOMY,
      crew: crewOf({ mon: [['08:00', '12:00']] }),
      route: { joints: { 'core-inner': 'tack' } },
    },
    hasNot: ROOMY,
    severity: 'stop',
    message:
      'Inner skin on the tacky core bond: mixed Monday 19 April, 08:00 it gels Monday 19 April, 12:20 and is tack-free Monday 19 April, 14:03; no start in the shop’s hours lets somebody lay it between gel and tack-free, each bag down in time.',
    numbers: {},
  },
  {
    code: 'pot-runaway',
    has: {
      ...room({ temperatureC: { day: 20, night: 18 } }),
      crew: [{ name: 'Ida Moss' }],
      resin: { system: 'orrin-40', hardener: 'slow' },
    },
    hasNot: ROOMY,
    scope: 'full',
    severity: 'note',
    message:
      'Core bond: a batch of 160 g stays workable 1.5 h and takes 40 min to spread; left in its cup it reaches 195 °C. Batches of 106 g, 1 more of them, are spread in time; or take more hands, a shallow tray or a slower hardener. A hot cup goes outside, on concrete, no lid.',
    numbers: { massG: 160, peakC: 195, largestG: 68, smallerG: 106, moreBatches: 1 },
  },
  {
    code: 'pot-runaway',
    has: withZone(
      {
        ...room({ temperatureC: { day: 32, night: 30 } }),
        crew: [{ name: 'Ida Moss' }],
        resin: FAST,
      },
      { areaM2: 3 },
    ),
    hasNot: ROOMY,
    scope: 'full',
    severity: 'warn',
    message:
      'Core bond: a batch of 160 g stays workable 8 min and takes 31 min to spread; left in its cup it reaches 253 °C. Smaller batches are not worth mixing: more hands, a shallow tray or a slower hardener. A hot cup goes outside, on concrete, no lid.',
    numbers: { massG: 160, peakC: 253, largestG: 0 },
  },
  {
    code: 'stack-too-hot',
    has: withZone({ ...ROOMY, resin: FAST }, { areaM2: 0.2, outer: plies(40) }),
    hasNot: ROOMY,
    scope: 'full',
    severity: 'stop',
    message:
      'Outer skin: reaction heat brings Tooling board, medium density in Zone 1 to 91 °C; it takes 70 °C at most. Cure in two steps, or use a slower hardener.',
    numbers: { peakC: 91, limitC: 70 },
  },
];
