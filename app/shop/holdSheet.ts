/** Points at which nobody goes on before someone has looked, in order of time. */
import { sealedWords } from '../messages/sealed.ts';
import { heldUp } from '../document/heldUp.ts';
import { capital } from '../messages/words.ts';
import { massInState, roundedWeightRows, WEIGHT_STATES, type WeightState } from '../part/weight.ts';
import type { Minute } from '../time/instant.ts';
import { gelHoldWords } from './gelWatch.ts';
import { handsWords } from './demouldCard.ts';
import { greatestHeat } from './greatestHeat.ts';
import { doneAt, mayFromWords, type AllowedMoment } from './allowedFrom.ts';
import { outsideStageId, readStageId, stageId } from '../document/ids.ts';
import type { StageKind, StageResult } from '../document/schema.ts';
import {
  isWithheld,
  minuteOf,
  type CureSheetData,
  type PlacedStage,
  type SheetData,
} from './sheetData.ts';
import { vacuumWords } from './vacuumWords.ts';
import { withheldBox } from './withheld.ts';
import { row, sheetOf, table, type Sheet } from './parts.ts';
import { h, type SheetNode } from './tree.ts';
import { fixed, dayClock } from './words.ts';

export interface Hold {
  /** Null: no known moment; such points stand first. */
  readonly at: Minute | null;
  readonly when: string;
  readonly what: string;
  readonly test: string;
}

/** Every hold point of the plan, in order of time. */
export const holdsOf = (facts: SheetData): Hold[] =>
  [
    ...questions(facts),
    ...inspections(facts),
    ...postCureHolds(facts),
    ...facts.cures
      .filter(({ withheld }) => withheld.length === 0)
      .flatMap((cure) => cureHolds(facts, cure)),
    ...weighings(facts),
    ...outsideHolds(facts),
    hold(facts.result.deadline, 'Unveiling', 'Part clean, fixed, covered'),
  ].sort((a, b) => (a.at ?? -Infinity) - (b.at ?? -Infinity));

export function holdSheet(facts: SheetData): Sheet {
  const holds = holdsOf(facts);
  return sheetOf(
    {
      kind: 'holds',
      id: 'holds',
      title: 'Hold points',
      subtitle: 'Nobody goes past a line that is not signed.',
    },
    withheldBox(facts, facts.result.stages),
    table(
      'holds',
      'In order of time',
      ['No', 'When', 'Hold point', 'Goes on when', 'Real', 'By'],
      holds.map((point, i) =>
        row('', String(i + 1), point.when, point.what, testOnce(holds, i), '', ''),
      ),
      [4, 14.5, 27, 38, 9, 7.5],
    ),
    weightTable(facts),
  );
}

/** A long test that stands further up already is pointed to. */
const LONG_TEST = 80;
function testOnce(holds: readonly Hold[], index: number): string {
  const { test } = holds[index]!;
  const first = holds.findIndex((one) => one.test === test);
  return first < index && test.length > LONG_TEST ? `As no ${first + 1}` : test;
}

const hold = (at: string | null, what: string, test: string): Hold => ({
  at: at === null ? null : minuteOf(at),
  when: at === null ? 'not placed' : dayClock(at),
  what,
  test,
});

function questions(facts: SheetData): Hold[] {
  const stages = facts.placed.map(({ stage: one }) => one);
  return facts.build.part.questions.map((question) => {
    const [held] = heldUp(question, stages, facts.build, facts.outcome.detail.library);
    const stage = facts.placed.find((placed) => placed.stage === held);
    const test = question.answer ?? 'Answered in writing, signed by the client';
    return hold(stage?.startIso ?? null, question.text, test);
  });
}

function cureHolds(facts: SheetData, cure: CureSheetData): Hold[] {
  const holds: Hold[] = [];
  const add = (at: string | null | undefined, what: string, test: string) => {
    if (at !== null && at !== undefined) holds.push(hold(at, `${what}: ${cure.name}`, test));
  };
  /** At the moment at which people do it, with the one from which they may. */
  const addAllowed = (moment: AllowedMoment, what: string, test: string) => {
    const from = cure.row?.[moment] ?? null;
    if (from === null) return;
    const at = doneAt(facts, cure, moment) ?? from;
    add(at, what, `${capital(mayFromWords(cure, moment, at)!)}. ${test}`);
  };
  const below = facts.practice('debag-below-c');
  const drop = facts.practice('leak-drop-mbar');
  add(cure.row?.firstMix, 'First mix', 'Go / no-go sheet fully ticked');
  add(
    cure.row?.bagBy,
    sealedWords(cure.row?.infused).done,
    cure.row?.infused
      ? 'Resin at the vacuum line all round; feed clamped, vacuum eased, no air drawn'
      : `${vacuumWords(facts, cure)}; lose ${fixed(drop, 0)} mbar in 5 min at most`,
  );
  add(cure.row?.gel, 'Gel', `Smear strings no more; ${gelHoldWords(facts, cure)}`);
  addAllowed('debagFrom', 'Bag off', `Smear snaps, no nail mark, part below ${fixed(below, 0)} °C`);
  if (cure.id === facts.lastInMould) {
    addAllowed(
      'demouldFrom',
      'Demould',
      `Hard all round; ${handsWords(facts).toLowerCase()} to lift; demould card in hand`,
    );
  }
  return holds;
}

/** What came is looked over before it is used; a part is tapped over before anything covers or leaves it. */
const INSPECTIONS: Readonly<Record<StageKind, string | null>> = {
  'sign-off': null,
  order: null,
  arrival: 'Right rows, numbers and lots; unbroken, in date; what is missing is told the same day',
  machining: null,
  mould: null,
  seal: null,
  'bag-test': null,
  'test-panel': 'Peels off its release, hard right through, primer holds',
  release: null,
  'resin-warm': null,
  'mould-heat': null,
  cutting: null,
  'core-fit': null,
  inserts: 'Count, size and thickness as drawn; scuffed; edges sealed',
  rehearsal: null,
  prepare: null,
  'lay-dry': 'Plies counted, mesh short of the vacuum line all round, feed and catch pot in place',
  'drop-test': null,
  layup: null,
  'watched-vacuum': null,
  cure: null,
  'bag-off': null,
  'tap-test': 'Sounds alike all over; what is dull is marked, drilled and filled',
  'heat-setup': null,
  'post-cure': null,
  'heat-takedown': null,
  demould: null,
  repair: 'Every mark is filled, hard and flush; no ground-through skin left open',
  trim: null,
  'dry-fit':
    'Sits on the frame all round; holes and trim line marked; signed before the edge is closed',
  closeout: null,
  'edge-fill': null,
  rim: 'Level both ways, dam tight, flush with both skins; no lift over its depth; cold before the next',
  'fit-check': null,
  fair: null,
  prime: null,
  wait: null,
  wrap: null,
  drive: null,
  outside: null,
  hardware: null,
  'hand-over': null,
  own: null,
};

const inspections = (facts: SheetData): Hold[] =>
  facts.placed.flatMap(({ stage, endIso }) => {
    const test = INSPECTIONS[stage.kind];
    return test === null || isWithheld(stage) ? [] : [hold(endIso, stage.name, test)];
  });

/**
 * Nobody switches heat on, and nobody lifts the part, before someone has looked. Heat that ends in an
 * empty shop is looked at when people take it down.
 */
const postCureHolds = (facts: SheetData): Hold[] =>
  facts.placed
    .filter(({ stage }) => stage.kind === 'post-cure' && !isWithheld(stage))
    .flatMap(({ stage, startIso, endIso }) => {
      const takenDown = takeDownOf(facts, stage) ?? endIso;
      const ends =
        takenDown === endIso ? '' : `Ends ${dayClock(endIso)}, seen ${dayClock(takenDown)}. `;
      const coolC = fixed(facts.practice('cool-to-c'), 0);
      return [
        hold(startIso, `Heat on: ${stage.name}`, 'Probes read, cut-out tried, extinguisher there'),
        hold(
          takenDown,
          `Heat off: ${stage.name}`,
          `${ends}Coldest probe held its time; part below ${coolC} °C before it is lifted`,
        ),
      ];
    });

function takeDownOf(facts: SheetData, { id }: StageResult): string | null {
  const ref = readStageId(id);
  if (ref?.what !== 'post-cure') return null;
  const down = stageId({ what: 'post-cure-takedown', number: ref.number });
  return facts.placed.find(({ stage }) => stage.id === down)?.startIso ?? null;
}

const STATE_WORDS = { shell: 'bare shell', faired: 'faired', painted: 'painted' } as const;

/** The stage after which the part is weighed in each state: its edge closed, its coats on. */
function weighedAfter(facts: SheetData, state: WeightState): PlacedStage | undefined {
  const lastOf = (belongs: (placed: PlacedStage) => boolean) => facts.placed.filter(belongs).at(-1);
  const kind = (name: StageKind) => lastOf(({ stage }) => stage.kind === name);
  if (state === 'shell') return kind('fit-check') ?? kind('trim');
  if (state === 'faired') return kind('fair');
  const visits = new Set(
    facts.build.outside.filter((one) => one.kind === 'paint').map(({ id }) => outsideStageId(id)),
  );
  return lastOf(({ stage }) => visits.has(stage.id)) ?? kind('prime');
}

/** Expected weights, kg; the rows that make them up stand in a table of their own. */
function weighings(facts: SheetData): Hold[] {
  const { targetMassKg: target } = facts.result.totals;
  const { targetIncludes } = facts.build.part;
  const rows = roundedWeightRows(facts.detail.weight);
  return WEIGHT_STATES.flatMap((state) => {
    const last = weighedAfter(facts, state);
    if (!last || isWithheld(last.stage)) return [];
    const expected = `Expected ${fixed(massInState(rows, state), 2)} kg, ${STATE_WORDS[state]}`;
    const counted = state === targetIncludes && target !== null;
    const test = counted ? `${expected}; target ${fixed(target, 2)} kg` : expected;
    return [hold(last.endIso, `Weigh after: ${last.stage.name}`, test)];
  });
}

/** What the part should weigh in each state, what is added to reach it, and boxes for the scale. */
function weightTable(facts: SheetData): SheetNode {
  const rows = roundedWeightRows(facts.detail.weight).filter(({ massKg }) => massKg !== 0);
  return table(
    'weight',
    'Expected weight',
    ['State', 'Made up of, kg', 'Together', 'Weighed', 'By'],
    WEIGHT_STATES.flatMap((state, i) => {
      const own = rows.filter(({ from }) => from === state);
      if (own.length === 0) return [];
      const added = own.map(({ name, massKg }) => `${name} ${fixed(massKg, 2)}`).join(', ');
      const before = WEIGHT_STATES[i - 1];
      const from = before === undefined ? '' : `${capital(STATE_WORDS[before])}, `;
      const whole = h('strong', {}, `${fixed(massInState(rows, state), 2)} kg`);
      return [row('', capital(STATE_WORDS[state]), from + added, whole, '', '')];
    }),
    [14, 49, 12, 15, 10],
  );
}

function outsideHolds(facts: SheetData): Hold[] {
  return facts.placed
    .filter(({ stage }) => stage.kind === 'outside' && !isWithheld(stage))
    .map(({ stage, startIso }) => {
      const ref = readStageId(stage.id);
      const party = ref?.what === 'outside' ? ref.party : '';
      const drive = stageId({ what: 'drive', party });
      const leaves = facts.placed.find((one) => one.stage.id === drive)?.startIso ?? startIso;
      return hold(leaves, `Leaves: ${stage.name}`, leaveTest(facts, stage.id));
    });
}

/** Only who bakes agrees a bake; what the part stands goes with it wherever it goes. */
function leaveTest(facts: SheetData, stage: string): string {
  const bakes = facts.build.outside.flatMap((party) =>
    outsideStageId(party.id) === stage ? (party.bakeC ?? []) : [],
  );
  const greatest = greatestHeat(facts);
  const parts = ['Weighed, photographed, wrapped, cradle on'];
  if (bakes.length > 0) parts.push(`bake ${fixed(Math.max(...bakes), 0)} °C agreed in writing`);
  if (greatest) parts.push(`nothing hotter than ${fixed(greatest.limitC, 0)} °C`);
  return parts.join('; ');
}
