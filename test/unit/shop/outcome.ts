/** A plan made by hand across the change to summer time, for the sheets, the files and the timeline. */
import { buildSchema, type Library } from '../../../app/document/schema.ts';
import type {
  MixResult,
  PlanResult,
  StageKind,
  StageResult,
} from '../../../app/document/schema.ts';
import type { PlanOutcome } from '../../../app/plan/outcome.ts';
import { measurePart } from '../../../app/part/measure.ts';
import { weightRows } from '../../../app/part/weight.ts';
import { stampMixes } from '../../../app/shop/mixes.ts';
import type { Minute } from '../../../app/time/instant.ts';
import { isoToMinute, localToMinute, minuteToIso } from '../../../app/time/zone.ts';
import { library as shipped } from '../../library.ts';

export const ZONE = 'Europe/Lisbon';

/** The minute of a wall-clock time in the build's zone. */
export const at = (local: string): Minute => localToMinute(local, ZONE)!.minute;
const iso = (local: string): string => minuteToIso(at(local), ZONE);

const PROFILE = [
  { start: at('2027-03-22T00:00'), end: at('2027-03-26T19:00'), temperatureC: 20 },
  { start: at('2027-03-26T19:00'), end: at('2027-04-12T00:00'), temperatureC: 16 },
];

/** demo: an invented shop of two and its lantern cover. */
const document = buildSchema.parse({
  id: 'lantern-cover',
  name: 'Lantern cover <7>, "south"',
  zone: ZONE,
  unveiling: '2027-04-09T18:00',
  part: {
    finish: 'painted',
    targetMassKg: 6,
    questions: [{ id: 'q1', text: 'Colour signed?', before: 'fair' }],
    zones: [
      {
        areaM2: 2.4,
        outer: [{ cloth: 'glass-twill-300' }, { cloth: 'glass-twill-300', angleDeg: 45 }],
        core: { material: 'pvc-80', thicknessMm: 10 },
        inner: [{ cloth: 'glass-twill-300' }],
      },
    ],
  },
  resin: { system: 'orrin-40', hardener: 'slow' },
  crew: [{ name: 'Iva' }, { name: 'Tomé' }],
  outside: [{ name: 'Saltmarsh Paint', workingDays: 3, bakeC: 60 }],
});

interface Sketch {
  readonly id: string;
  readonly name: string;
  readonly kind: StageKind;
  readonly cure?: string;
  readonly start: string;
  readonly end: string;
  readonly people?: readonly string[];
  readonly floatHours?: number;
  readonly critical?: boolean;
}

function stage(sketch: Sketch): StageResult {
  const floatHours = sketch.floatHours ?? 6;
  const shifted = (local: string) => minuteToIso(at(local) + floatHours * 60, ZONE);
  return {
    id: sketch.id,
    name: sketch.name,
    kind: sketch.kind,
    cure: sketch.cure ?? null,
    start: iso(sketch.start),
    end: iso(sketch.end),
    earliestStart: iso(sketch.start),
    latestStart: shifted(sketch.start),
    latestEnd: shifted(sketch.end),
    floatHours,
    critical: sketch.critical ?? false,
    people: [...(sketch.people ?? [])],
    gear: sketch.kind === 'layup' || sketch.kind === 'cure' ? ['mould'] : [],
    attended:
      sketch.kind === 'cure'
        ? [{ start: iso('2027-03-26T11:00'), end: iso('2027-03-26T12:00') }]
        : [],
  };
}

const STAGES: readonly Sketch[] = [
  {
    id: 'release',
    name: 'Release coats',
    kind: 'release',
    start: '2027-03-25T13:00',
    end: '2027-03-25T16:00',
    people: ['person-1'],
  },
  {
    id: 'layup:skin',
    name: 'Lay up outer skin',
    kind: 'layup',
    cure: 'skin',
    start: '2027-03-26T08:00',
    end: '2027-03-26T11:00',
    people: ['person-1', 'person-2'],
    critical: true,
    floatHours: 0,
  },
  {
    id: 'watch:skin',
    name: 'Watch the vacuum: outer skin',
    kind: 'watched-vacuum',
    cure: 'skin',
    start: '2027-03-26T11:00',
    end: '2027-03-26T12:00',
    people: ['person-2'],
    critical: true,
    floatHours: 0,
  },
  {
    id: 'cure:skin',
    name: 'Cure: outer skin',
    kind: 'cure',
    cure: 'skin',
    start: '2027-03-26T11:00',
    end: '2027-03-28T06:00',
    critical: true,
    floatHours: 0,
  },
  {
    id: 'bag-off:skin',
    name: 'Bag off: outer skin',
    kind: 'bag-off',
    cure: 'skin',
    start: '2027-03-29T07:30',
    end: '2027-03-29T08:30',
    people: ['person-1'],
  },
  {
    id: 'fair:1',
    name: 'Longboard P80',
    kind: 'fair',
    start: '2027-03-30T15:00',
    end: '2027-03-31T11:00',
    people: ['person-2'],
    floatHours: 12.5,
  },
  {
    id: 'outside:outside-1',
    name: 'Saltmarsh Paint, 3 working days',
    kind: 'outside',
    start: '2027-04-05T08:00',
    end: '2027-04-07T17:00',
    floatHours: -2.5,
  },
];

export interface OutcomeChanges {
  readonly library?: Library;
  readonly result?: Partial<PlanResult>;
}

/** The outcome; parts of the result may be replaced. */
export function handMadeOutcome(changes: OutcomeChanges = {}): PlanOutcome {
  const library = changes.library ?? shipped;
  const part = measurePart(document, library);
  const skin = part.layups.find((layup) => layup.id === 'skin')!;
  const batches = [0, 0.35, 0.7].map((atShare, i) => ({
    number: i + 1,
    resinG: 333.4,
    hardenerG: 86.7,
    totalG: 420.1,
    potLifeMinutes: 95.6,
    peakC: 142,
    atShare,
  }));
  const mixes: MixResult[] = stampMixes({
    cureId: 'skin',
    batches,
    layupStart: at('2027-03-26T08:00'),
    layupEnd: at('2027-03-26T11:00'),
    bagBy: at('2027-03-26T11:40'),
    iso: (minute) => minuteToIso(minute, ZONE),
  });
  const result: PlanResult = {
    formatVersion: 1,
    build: { id: document.id, name: document.name, zone: ZONE, currency: 'EUR' },
    now: iso('2027-03-24T09:00'),
    deadline: iso('2027-04-09T18:00'),
    fits: true,
    route: { id: 'skin', cures: [{ id: 'skin', name: 'Outer skin', layups: [skin.id] }] },
    stages: STAGES.map(stage),
    cures: [
      {
        id: 'skin',
        name: 'Outer skin',
        temperatureC: { min: 16, max: 20 },
        firstMix: iso('2027-03-26T08:00'),
        openUntil: iso('2027-03-26T13:05'),
        bagBy: iso('2027-03-26T11:40'),
        gel: iso('2027-03-26T19:20'),
        gelLatest: iso('2027-03-26T22:40'),
        debagFrom: iso('2027-03-28T06:00'),
        demouldFrom: iso('2027-03-28T20:00'),
        sandFrom: iso('2027-03-29T04:00'),
        bondUntil: null,
        fullFrom: null,
        tgAtDemouldC: 36,
        tgC: 39,
        peakC: null,
      },
    ],
    mixes,
    routes: [],
    findings: [],
    totals: { labourHours: 14, materialCost: 41_250, massKg: 5.4, targetMassKg: 6 },
    ...changes.result,
  };
  return { result, detail: detailOf(library, part, batches, result) };
}

type Detail = PlanOutcome['detail'];

function detailOf(
  library: Library,
  part: Detail['part'],
  batches: Detail['batches'][string],
  result: PlanResult,
): Detail {
  const shopHours = shopHoursOf('2027-03-22', 19);
  const now = isoToMinute(result.now)!;
  const deadline = isoToMinute(result.deadline)!;
  const sums = {
    kit: part.kitFor(1, batches.length),
    labour: [],
    weight: weightRows(part.massKg, 0),
  };
  return {
    build: document,
    library,
    assumptions: [],
    part,
    model: {
      referenceC: 20,
      activationEnergyJMol: 55_000,
      doseHours: {
        open: 3,
        gel: 9,
        tackFree: 12,
        debag: 30,
        demould: 40,
        sand: 48,
        bondUntil: null,
        full: null,
      },
      residuals: [],
      assumptions: [],
    },
    profile: PROFILE,
    air: PROFILE,
    cures: {},
    span: { start: now, end: deadline },
    now,
    deadline,
    shopHours,
    personHours: { 'person-1': shopHours, 'person-2': shopHours },
    outsideHours: {},
    curves: [
      {
        cure: 'skin',
        points: [0, 600, 1200, 1800, 2580].map((minutes, i) => ({
          minute: at('2027-03-26T11:00') + minutes,
          temperatureC: i < 1 ? 20 : 16,
          progress: i / 5,
        })),
      },
    ],
    batches: { skin: batches },
    ...sums,
    routes: { [result.route.id]: { ...sums, price: [], bags: 1, batches: batches.length } },
    workMinutes: {},
  };
}

/** Monday to Friday, 07:30 to 12:00 and 12:30 to 16:30. */
function shopHoursOf(monday: string, days: number): { start: Minute; end: Minute }[] {
  const first = at(`${monday}T12:00`);
  return Array.from({ length: days }, (_, i) => i)
    .filter((i) => i % 7 < 5)
    .flatMap((i) => {
      const date = minuteToIso(first + i * 1440, ZONE).slice(0, 10);
      return [
        { start: at(`${date}T07:30`), end: at(`${date}T12:00`) },
        { start: at(`${date}T12:30`), end: at(`${date}T16:30`) },
      ];
    });
}
