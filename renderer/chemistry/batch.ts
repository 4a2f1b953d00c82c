/** A batch asked about: its temperature over time, and what a tray or half of it would do. */
import type { Library } from '../../app/document/schema.ts';
import { criticalExcessC, type CupResult } from '../../app/cure/cup.ts';
import { batchCurve, largestBatchFor, type BatchCase } from '../../app/cure/pot.ts';
import type { PracticeLookup } from '../../app/cure/practice.ts';
import type { CureModel } from '../../app/cure/types.ts';
import { cautionsFor, DEFERRAL } from '../../app/messages/safety.ts';
import { length } from '../../app/shop/words.ts';
import type { LineDrawing, Series, Tick } from './lineChart.ts';

export interface BatchQuestion {
  readonly massG: number;
  readonly vessel: 'cup' | 'tray';
  readonly depthMm: number;
  readonly roomC: number;
  readonly resinC: number;
  /** The work that the largest batch must last. */
  readonly wantedMinutes: number;
}

export interface BatchOutcome {
  readonly name: string;
  readonly case: BatchCase;
  readonly result: CupResult;
}

export interface BatchAnswer {
  /** As asked first, then what would cool it. */
  readonly outcomes: readonly BatchOutcome[];
  /** 0 when none lasts. */
  readonly largestG: number;
  /** Heat loss can hold a batch no further above the room than this, K. */
  readonly holdsK: number;
  readonly hottestC: number;
  /** Its cup is given up as too hot, or it runs away. */
  readonly hot: boolean;
  readonly cautions: readonly string[];
}

/** Largest batch that is looked for, g; the search ends there. */
export const MOST_G = 5000;

/** @throws Error when the model has no curve */
export function askBatch(
  model: CureModel,
  question: BatchQuestion,
  practice: PracticeLookup,
): BatchAnswer {
  const { massG, vessel, depthMm, roomC, resinC, wantedMinutes } = question;
  const inVessel = (kind: 'cup' | 'tray', mass: number): BatchCase => ({
    massG: mass,
    roomC,
    resinC,
    vessel: kind,
    ...(kind === 'tray' && { depthMm }),
  });
  const asked = inVessel(vessel, massG);
  const cases: { name: string; case: BatchCase }[] = [
    { name: `${round(massG)} g, ${vessel}`, case: asked },
    { name: `${round(massG / 2)} g, ${vessel}`, case: inVessel(vessel, massG / 2) },
    ...(vessel === 'cup'
      ? [{ name: `${round(massG)} g, tray`, case: inVessel('tray', massG) }]
      : []),
  ];
  const outcomes = cases.map((one) => ({ ...one, result: batchCurve(model, one.case, practice) }));
  const { result } = outcomes[0]!;
  const hottestC = practice('cure-cup-hottest-c');
  const hot = result.runsAway || result.peakC >= hottestC;
  return {
    outcomes,
    largestG: largestBatchFor(model, wantedMinutes, asked, practice),
    holdsK: criticalExcessC(model.activationEnergyJMol, roomC),
    hottestC,
    hot,
    cautions: hot ? [...cautionsFor('layup', ['exotherm']), DEFERRAL] : [],
  };
}

const round = (massG: number): number => Math.round(massG);

/** Temperatures until all is over, with the end of each pot life marked. */
export function batchDrawing({ outcomes, hottestC }: BatchAnswer, roomC: number): LineDrawing {
  const end = Math.max(
    30,
    ...outcomes.map(({ result }) => 1.6 * Math.max(result.potLifeMinutes ?? 0, result.peakMinutes)),
  );
  const shown = (minutes: number): boolean => minutes <= end;
  const series = outcomes.flatMap(({ name, result }, i): Series[] => {
    const tone = i === 0 ? 'cure' : 'other';
    const points = thin(result.curve.filter(({ minutes }) => shown(minutes))).map((point) => ({
      x: point.minutes,
      y: point.temperatureC,
      words: `${point.temperatureC.toFixed(0)} °C after ${length(point.minutes)}`,
    }));
    const life = result.potLifeMinutes;
    const over = life === null ? undefined : result.curve.find(({ minutes }) => minutes >= life);
    return [
      { name, tone, dash: i, points },
      ...(life !== null && over && shown(life)
        ? [
            {
              name: '',
              tone,
              marks: 'rectRot',
              points: [{ x: life, y: over.temperatureC, words: `pot life ends, ${length(life)}` }],
            } satisfies Series,
          ]
        : []),
    ];
  });
  const level = (y: number, name: string, tone: Series['tone']): Series => ({
    name,
    tone,
    dash: 2,
    points: [
      { x: 0, y },
      { x: end, y },
    ],
  });
  return {
    x: { title: 'Time from first contact', min: 0, max: end, ticks: minuteTicks(end) },
    y: { title: 'In the vessel, °C' },
    series: [...series, level(hottestC, 'too hot', 'limit'), level(roomC, 'room', 'ink')],
  };
}

/** Few enough points to draw, the first and last kept. */
function thin<T>(points: readonly T[], most = 300): T[] {
  const every = Math.ceil(points.length / most);
  return points.filter((_, i) => i % every === 0 || i === points.length - 1);
}

const TICKS = 5;
const STEPS = [5, 10, 15, 30, 60, 120, 240, 480, 1440];

export function minuteTicks(end: number): Tick[] {
  const step = STEPS.find((s) => end / s <= TICKS) ?? 1440;
  return Array.from({ length: Math.floor(end / step) + 1 }, (_, i) => {
    const value = i * step;
    return { value, label: value === 0 ? '0' : length(value) };
  });
}

/** What the planner's own first batch looks like, to start the question from. */
export function usualQuestion(
  library: Library,
  roomC: number,
  practice: PracticeLookup,
  mix: { readonly totalG: number } | undefined,
): BatchQuestion {
  const usual = library.practice.some(({ id }) => id === 'batch-max-g') ? 'batch-max-g' : null;
  return {
    massG: Math.round(mix?.totalG ?? (usual ? practice(usual) : 300)),
    vessel: 'cup',
    depthMm: practice('cure-tray-depth-mm'),
    roomC,
    resinC: roomC,
    wantedMinutes: 20,
  };
}
