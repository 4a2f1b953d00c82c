/** Where the figures of one cure come from: its moments, its temperatures, its glass transition. */
import { explainMilestone } from '../../cure/derivations.ts';
import { countsFromSealed } from '../../cure/moments.ts';
import { layupStageId } from '../../document/ids.ts';
import type { CureResult, Milestone } from '../../document/schema.ts';
import { tgWords } from '../../messages/tg.ts';
import { cureStory, type CureStory } from '../../plan/cureStory.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { length } from '../../time/words.ts';
import { minuteToIso } from '../../time/zone.ts';
import type { Minute } from '../../time/instant.ts';
import { decimals } from '../../units/formats.ts';
import { formatBoth } from '../../units/convert.ts';
import { figure } from '../../units/words.ts';
import { dayClock } from '../words.ts';
import {
  originOf,
  practiceOrigin,
  provenanceWords,
  result,
  type Origin,
  type OriginRow,
} from './origin.ts';
import { startOrigin } from './start.ts';

/** The figures of a cure that open. */
export type CureFigure = Exclude<keyof CureResult, 'id' | 'name' | 'infused'>;

const MILESTONE_OF = {
  openUntil: 'open',
  gel: 'gel',
  debagFrom: 'debag',
  demouldFrom: 'demould',
  sandFrom: 'sand',
  bondUntil: 'bondUntil',
  fullFrom: 'full',
} as const satisfies Partial<Record<CureFigure, Milestone>>;

const isMilestone = (key: CureFigure): key is keyof typeof MILESTONE_OF => key in MILESTONE_OF;

/** Where a figure of a cure comes from; a cure without a place in time has nothing to tell. */
export function cureOrigin(outcome: PlanOutcome, cure: CureResult, key: CureFigure): Origin {
  if (key === 'peakC') return peakOrigin(outcome, cure);
  if (key === 'firstMix') return firstMixOrigin(outcome, cure);
  const story = cureStory(outcome, cure.id);
  if (!story) return { formula: 'It has no place in time yet.', rows: [], source: '' };
  if (isMilestone(key)) return milestoneOrigin(outcome, story, MILESTONE_OF[key]);
  switch (key) {
    case 'bagBy':
      return bagByOrigin(outcome, story);
    case 'gelLatest':
      return gelLatestOrigin(outcome, story);
    case 'temperatureC':
      return temperatureOrigin(outcome, cure);
    case 'tgAtDemouldC':
      return tgAtDemouldOrigin(outcome, story);
    case 'tgC':
      return tgOrigin(outcome, story);
  }
}

/** When a cure reaches a milestone, as the plan has it. */
export function milestoneOrigin(
  { detail: { library } }: PlanOutcome,
  story: CureStory,
  milestone: Milestone,
): Origin {
  const isLate = countsFromSealed(milestone) && milestone !== 'bondUntil';
  const at = story.moments.find((moment) => moment.milestone === milestone)?.at ?? null;
  return originOf(
    explainMilestone(
      story.model,
      story.hardener,
      isLate ? story.clock : story.early,
      countsFromSealed(milestone) ? story.sealed : story.mixed,
      milestone,
      library,
      at,
    ),
  );
}

const momentRow = (
  outcome: PlanOutcome,
  name: string,
  at: Minute | null,
  from?: string,
): OriginRow => ({
  name,
  value: at === null ? 'not reached' : dayClock(minuteToIso(at, outcome.result.build.zone)),
  ...(from === undefined ? {} : { from }),
});

const momentOf = ({ moments }: CureStory, milestone: Milestone): Minute | null =>
  moments.find((moment) => moment.milestone === milestone)?.at ?? null;

/** The moment by which the bag is down and drawn. */
function bagByOrigin(outcome: PlanOutcome, story: CureStory): Origin {
  const { library } = outcome.detail;
  const [open, gel] = [momentOf(story, 'open'), momentOf(story, 'gel')];
  return {
    formula:
      'Bag by = first mix + a share of the open time of the first ply, or a fixed time before the ' +
      'earliest gel, whichever comes first.',
    rows: [
      momentRow(outcome, 'First mix of what goes under the bag', story.mixed),
      momentRow(outcome, 'First ply open until', open, provenanceWords(story.hardener.provenance)),
      practiceOrigin(library, 'full-vacuum-fraction'),
      momentRow(outcome, 'Earliest gel', gel, provenanceWords(story.hardener.provenance)),
      practiceOrigin(library, 'before-gel-minutes'),
    ],
    source: 'Common practice, no source; open time and gel by the resin’s curve.',
  };
}

/** The gel of the resin mixed last, by the clock that counts no cold hours. */
function gelLatestOrigin(outcome: PlanOutcome, story: CureStory): Origin {
  const { library } = outcome.detail;
  const { model, hardener, clock, sealed, gelLatest } = story;
  return originOf(explainMilestone(model, hardener, clock, sealed, 'gel', library, gelLatest));
}

function temperatureOrigin({ detail, result: { build } }: PlanOutcome, cure: CureResult): Origin {
  const made = detail.cures[cure.id];
  const { day, night } = detail.build.room.temperatureC;
  const { heat } = made ?? { heat: null };
  return {
    formula:
      'Coldest and warmest that the coldest spot of part and mould stands at, from first mix to demould: ' +
      'the room by day and night, or its log, behind which the mould lags; heat over the bag where it is set.',
    rows: [
      { name: 'Room by day', value: formatBoth(day, 'temperatureC'), from: 'typed or assumed' },
      { name: 'Room by night', value: formatBoth(night, 'temperatureC'), from: 'typed or assumed' },
      ...(heat
        ? [
            {
              name: `Heat from ${dayClock(minuteToIso(heat.start, build.zone))}, at most`,
              value: formatBoth(heat.hottestC, 'temperatureC'),
              from: 'set for this cure',
            },
          ]
        : []),
      ...(cure.temperatureC
        ? [
            result('Coldest', formatBoth(cure.temperatureC.min, 'temperatureC')),
            result('Warmest', formatBoth(cure.temperatureC.max, 'temperatureC')),
          ]
        : []),
    ],
    source:
      'Lag of the mould: rows of the library, common practice; a log beside the part is measured.',
  };
}

const TG_SOURCE =
  'DiBenedetto’s equation (from memory) over the degree of cure of the resin’s fitted curve.';

/** What the resin's glass transition is read from. */
function glassRows({ model, hardener }: CureStory): OriginRow[] {
  const glass = model.kinetics?.glass;
  if (!glass) return [];
  const { tg0C, tgFullC, lambda } = glass;
  return [
    {
      name: 'Tg of the fresh mix',
      value: formatBoth(tg0C, 'temperatureC'),
      from: 'common practice',
    },
    {
      name: 'Highest Tg of this resin',
      value: formatBoth(tgFullC, 'temperatureC'),
      from:
        hardener.tgFullC === null
          ? 'common practice, not on the sheet'
          : provenanceWords(hardener.provenance),
    },
    {
      name: 'λ, bend of Tg over the degree of cure',
      value: figure(lambda),
      from: 'common practice',
    },
  ];
}

const degreeRow = (degree: number | null): OriginRow[] =>
  degree === null
    ? []
    : [
        {
          name: 'Degree of cure α by then',
          value: `${decimals(degree * 100, 1)} %`,
          from: 'the fitted curve',
        },
      ];

const TG_FORMULA =
  'Tg = Tg fresh + (Tg highest − Tg fresh) × λ α / (1 − (1 − λ) α); α grows with the dose, and slows where ' +
  'Tg stands near the temperature of the part';

function tgAtDemouldOrigin(outcome: PlanOutcome, story: CureStory): Origin {
  const demould = momentOf(story, 'demould');
  const { demouldC } = story.glass;
  const roomC = outcome.detail.build.room.temperatureC.day;
  return {
    formula: TG_FORMULA,
    rows: [
      ...glassRows(story),
      momentRow(outcome, 'Bag sealed', story.sealed),
      momentRow(outcome, 'May leave the mould from', demould),
      ...degreeRow(demould === null ? null : story.clock.stateAt(story.sealed, demould).degree),
      ...(demouldC === null ? [] : [result('Tg at demould', tgWords(demouldC, roomC))]),
    ],
    source: TG_SOURCE,
  };
}

function tgOrigin({ detail }: PlanOutcome, story: CureStory): Origin {
  const { restC, tgC, neededC, postCure, postCurePlace } = story.glass;
  const roomC = detail.build.room.temperatureC.day;
  const heated =
    postCurePlace !== null && postCure?.possible
      ? [
          {
            name: `Post-cure on the ${postCurePlace === 'mould' ? 'mould' : 'supports'}`,
            value: `${formatBoth(postCure.holdC, 'temperatureC')}, ${length(postCure.minutes)}`,
            from: 'in the plan',
          },
        ]
      : [];
  return {
    formula: `${TG_FORMULA}. After the days that a room cure is given, then through the post-cure where one is planned.`,
    rows: [
      ...glassRows(story),
      practiceOrigin(detail.library, 'room-cure-days'),
      practiceOrigin(detail.library, 'tg-over-cure-c'),
      { name: 'Left in the room', value: tgWords(restC, roomC), from: 'the fitted curve' },
      ...heated,
      result('Tg at the end', tgWords(tgC, roomC)),
      {
        name: 'Needed: hottest of bake and service, and a margin',
        value: formatBoth(neededC, 'temperatureC'),
      },
      practiceOrigin(detail.library, 'tg-margin-c'),
    ],
    source: TG_SOURCE,
  };
}

/** Rows of practice behind heat through a stack. */
const STACK_ROWS = [
  'cure-laminate-conductivity',
  'cure-laminate-heat-capacity',
  'cure-core-conductivity',
  'cure-mould-conductivity',
  'cure-mould-thickness-mm',
  'cure-surface-loss-w-m2k',
];

function peakOrigin({ detail }: PlanOutcome, cure: CureResult): Origin {
  const heatJG = detail.cures[cure.id]?.model.kinetics?.heatJG;
  return {
    formula:
      'ρ cp ∂T/∂t = ∂/∂x (k ∂T/∂x) + reaction heat, through bag, laminate, core and mould of the zone with ' +
      'the most wet plies; the hottest of it.',
    rows: [
      ...(heatJG === undefined
        ? []
        : [{ name: 'Heat of reaction', value: `${figure(heatJG)} J/g` }]),
      ...STACK_ROWS.map((id) => practiceOrigin(detail.library, id)),
      ...(cure.peakC === null ? [] : [result('Peak', formatBoth(cure.peakC, 'temperatureC'))]),
    ],
    source:
      'Conduction in one dimension (Fourier), own arithmetic; rate of the resin’s fitted curve.',
  };
}

/** First mix: when the first layup of the cure starts. */
function firstMixOrigin(outcome: PlanOutcome, cure: CureResult): Origin {
  const own = outcome.result.route.cures.find(({ id }) => id === cure.id);
  const first = own?.layups[0];
  const stage =
    first === undefined
      ? undefined
      : outcome.result.stages.find(({ id }) => id === layupStageId('layup', first));
  if (!stage) return { formula: 'It has no place in time yet.', rows: [], source: '' };
  return startOrigin(outcome, stage);
}
