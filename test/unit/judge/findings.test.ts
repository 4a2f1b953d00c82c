/** For every finding, a build that has it and one that has not. */
import { describe, expect, it } from 'vitest';
import { FINDING_CODES, type FindingCode } from '../../../app/messages/codes.ts';
import type { Build, Library } from '../../../app/document/schema.ts';
import { codesOf, LIBRARY, NOW, planFor, ROOMY, withPart, withRow, withZone } from './builds.ts';

interface Case {
  readonly code: FindingCode;
  readonly has: Build;
  readonly hasNot: Build;
  readonly library?: Library;
}

const room = (room: Build['room'], document: Build = ROOMY): Build => ({ ...document, room });
const painter = (more: object): Build => ({
  ...ROOMY,
  outside: [{ id: 'paint', name: 'Spray shop', workingDays: 3, ...more }],
});
/** Heat under the bag of the outer skin, C and C an hour. */
const under = (temperatureC: number, rampKPerHour = 10) => ({
  layup: 'skin',
  steps: [{ temperatureC, rampKPerHour, holdHours: 6 }],
});
/** A log of so many hours from the first day on. */
const logged = (hours: number) => ({
  name: 'shelf probe',
  from: '2027-04-19T00:00:00Z',
  temperaturesC: Array.from({ length: hours }, (_, i) => 19 + (i % 3)),
});
const DAY = { temperatureC: { day: 21, night: 19 }, humidityPct: 50 };
const MORNING = { mon: [['08:00', '09:00']], tue: [['08:00', '09:00']] };

const CASES: readonly Case[] = [
  { code: 'part-empty', has: withPart(ROOMY, { zones: [] }), hasNot: ROOMY },
  { code: 'crew-empty', has: { ...ROOMY, crew: [] }, hasNot: ROOMY },
  { code: 'date-missed', has: { ...ROOMY, unveiling: '2027-04-23T18:00' }, hasNot: ROOMY },
  { code: 'date-missed', has: { ...ROOMY, unveiling: '2027-04-01T18:00' }, hasNot: ROOMY },
  {
    code: 'stage-impossible',
    has: { ...ROOMY, crew: [{ name: 'Ida Moss', hours: MORNING as never }] },
    hasNot: ROOMY,
  },
  {
    code: 'finish-not-reachable',
    has: withPart({ ...ROOMY, route: { joints: { 'skin-core': 'one-bag' } } }, { finish: 'clear' }),
    hasNot: { ...ROOMY, route: { joints: { 'skin-core': 'one-bag' } } },
  },
  {
    code: 'open-time-short',
    has: withZone(
      { ...ROOMY, route: { joints: { 'skin-core': 'one-bag', 'core-inner': 'one-bag' } } },
      { areaM2: 9 },
    ),
    hasNot: withZone(ROOMY, { areaM2: 0.4 }),
  },
  {
    code: 'tack-out-of-hours',
    has: {
      ...ROOMY,
      crew: [{ name: 'Ida Moss', hours: { mon: [['08:00', '12:00']] } }],
      route: { joints: { 'core-inner': 'tack' } },
    },
    hasNot: ROOMY,
  },
  {
    code: 'gel-unattended',
    has: {
      ...ROOMY,
      crew: [
        {
          name: 'Ida Moss',
          hours: Object.fromEntries(
            ['mon', 'tue', 'wed', 'thu', 'fri'].map((d) => [d, [['08:00', '12:30']]]),
          ),
        },
      ],
      resin: { system: 'orrin-40', hardener: 'slow' },
    } as Build,
    hasNot: ROOMY,
  },
  { code: 'cold-room', has: room({ temperatureC: { day: 12, night: 8 } }), hasNot: ROOMY },
  { code: 'blush-likely', has: room({ ...DAY, humidityPct: 75 }), hasNot: room(DAY) },
  { code: 'dew-point-near', has: room({ ...DAY, humidityPct: 88 }), hasNot: room(DAY) },
  {
    code: 'paint-over-tg',
    has: withPart(ROOMY, { serviceMaxC: 80 }),
    hasNot: ROOMY,
  },
  {
    code: 'post-cure-planned',
    has: withPart(room({ ...DAY, tent: { maxC: 65 } }), { serviceMaxC: 45 }),
    hasNot: ROOMY,
  },
  {
    code: 'heat-not-counted',
    has: { ...ROOMY, heat: [under(40)] },
    hasNot: { ...room({ ...DAY, tent: { maxC: 60 } }), heat: [under(40)] },
  },
  {
    code: 'heat-not-counted',
    has: { ...room({ ...DAY, tent: { maxC: 60 } }), heat: [{ ...under(40), layup: 'local' }] },
    hasNot: { ...room({ ...DAY, tent: { maxC: 60 } }), heat: [under(40)] },
  },
  {
    code: 'heat-over-limit',
    has: { ...room({ ...DAY, tent: { maxC: 45 } }), heat: [under(46)] },
    hasNot: { ...room({ ...DAY, tent: { maxC: 45 } }), heat: [under(45)] },
  },
  {
    code: 'heat-over-limit',
    has: { ...room({ ...DAY, tent: { maxC: 65 } }), mould: { maxC: 50 }, heat: [under(55)] },
    hasNot: { ...room({ ...DAY, tent: { maxC: 65 } }), heat: [under(55)] },
  },
  {
    code: 'heat-ramp-fast',
    has: { ...room({ ...DAY, tent: { maxC: 60 } }), heat: [under(40, 20)] },
    hasNot: { ...room({ ...DAY, tent: { maxC: 60 } }), heat: [under(40, 10)] },
  },
  {
    code: 'log-ends',
    has: room({ ...DAY, measured: logged(24 * 10 + 16) }),
    hasNot: room({ ...DAY, measured: logged(24 * 60) }),
  },
  {
    code: 'slot-missed',
    has: painter({ slot: '2027-04-22' }),
    hasNot: painter({ slot: '2027-06-14' }),
  },
  {
    code: 'question-open',
    has: withPart(ROOMY, { questions: [{ id: 'holes', text: 'Which holes?', before: 'trim' }] }),
    hasNot: withPart(ROOMY, {
      questions: [{ id: 'holes', text: 'Which holes?', answer: 'None', before: 'trim' }],
    }),
  },
  {
    code: 'weight-over',
    has: withPart(ROOMY, { targetMassKg: 1 }),
    hasNot: withPart(ROOMY, { targetMassKg: 30 }),
  },
  {
    code: 'works-alone',
    has: { ...ROOMY, crew: [{ name: 'Ida Moss' }] },
    hasNot: ROOMY,
    library: withRow(LIBRARY, 'labour', 'layup', { peopleMin: 2 }),
  },
  {
    code: 'long-wet-work',
    has: withZone(
      {
        ...ROOMY,
        crew: [
          {
            name: 'Ida Moss',
            hours: {
              mon: [['07:00', '20:00']],
              tue: [['07:00', '20:00']],
              wed: [['07:00', '20:00']],
              thu: [['07:00', '20:00']],
              fri: [['07:00', '20:00']],
            },
          },
        ],
        resin: { system: 'orrin-40', hardener: 'slow' },
        route: { joints: {} },
        unveiling: '2027-12-01',
      },
      { areaM2: 6 },
    ),
    hasNot: ROOMY,
  },
  {
    code: 'release-not-for-shape',
    has: withZone({ ...ROOMY, mould: { release: 'film-slick' } }, { shape: 'double' }),
    hasNot: withZone({ ...ROOMY, mould: { release: 'film-slick' } }, { shape: 'flat' }),
  },
  {
    code: 'styrene-dissolves',
    has: withZone(
      { ...ROOMY, resin: { system: 'marl-7', hardener: 'medium' } },
      { core: { material: 'xps-33', thicknessMm: 20 } },
    ),
    hasNot: withZone(ROOMY, { core: { material: 'xps-33', thicknessMm: 20 } }),
  },
  {
    code: 'fill-in-one-go',
    has: { ...ROOMY, route: { joints: { 'skin-core': 'one-bag' } } },
    hasNot: ROOMY,
  },
  {
    code: 'core-kerfs-open',
    has: withZone(ROOMY, { core: { material: 'pvc-80', thicknessMm: 10, treatment: 'grooved' } }),
    hasNot: ROOMY,
  },
  {
    code: 'core-over-gap',
    has: withZone(ROOMY, { gapMm: 5 }),
    hasNot: withZone(ROOMY, { gapMm: 40 }),
  },
];

const told = (one: Case, document: Build) =>
  codesOf(planFor(document, 'first', NOW, one.library ?? LIBRARY).result.findings);

describe('findings', () => {
  it.each(CASES.map((one) => [one.code, one] as const))(
    '%s is told where it is so',
    (code, one) => {
      expect([...told(one, one.has)]).toContain(code);
    },
  );
  it.each(CASES.map((one) => [one.code, one] as const))(
    '%s is not told where it is not',
    (code, one) => {
      expect([...told(one, one.hasNot)]).not.toContain(code);
    },
  );
  it('only uses codes of the table', () => {
    const known = Object.keys(FINDING_CODES);
    for (const one of CASES) for (const code of told(one, one.has)) expect(known).toContain(code);
  });
});
