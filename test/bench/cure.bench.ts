/** The chemistry: clock, fit, cup, stack, logger file. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { librarySchema, MILESTONES } from '../../app/document/schema.ts';
import { practiceOf } from '../../app/document/library.ts';
import { cureClock, type StatefulClock } from '../../app/cure/clock.ts';
import { fitRows, fitSheet } from '../../app/cure/fit.ts';
import { logReader } from '../../app/cure/logger.ts';
import { batchCurve } from '../../app/cure/pot.ts';
import { reviewSheet } from '../../app/cure/review.ts';
import { stackTemperatures, type StackPart } from '../../app/cure/stack.ts';
import type { TemperatureProfile } from '../../app/cure/types.ts';
import type { Suite } from './suite.ts';

const LIBRARY = join(import.meta.dirname, '../../samples/library');
const table = (name: string): Record<string, unknown> =>
  JSON.parse(readFileSync(join(LIBRARY, `${name}.json`), 'utf8')) as Record<string, unknown>;

/** A week by the hour, between two temperatures, C. */
const weekOfHours = (lowC: number, highC: number): TemperatureProfile =>
  Array.from({ length: 168 }, (_, hour) => ({
    start: hour * 60,
    end: (hour + 1) * 60,
    temperatureC: lowC + ((highC - lowC) * (1 + Math.sin(hour / 3.8))) / 2,
  }));

export async function bench(suite: Suite): Promise<void> {
  const library = librarySchema.parse({
    practice: table('practice').practice,
    resins: table('resins').resins,
  });
  const practice = practiceOf(library);
  const hardener = library.resins[0]!.hardeners[1]!;
  const model = fitSheet(hardener, practice);
  const { kinetics: _stiff, ...byDose } = model;
  const week = weekOfHours(15, 22);

  const milestonesOf = (clock: StatefulClock, start: number): void => {
    for (const milestone of MILESTONES) clock.reached(start, milestone);
  };
  let start = 0;
  await suite.measure('cure-milestones-by-dose', { runs: 2000, targetMs: 0.05 }, () => {
    start = (start + 7) % 600;
    // A fresh clock every time: milestones of a cure whose temperatures have just changed.
    milestonesOf(cureClock(byDose, week), start);
  });
  await suite.measure('cure-milestones-with-stall', { runs: 500, targetMs: 1 }, () => {
    start = (start + 7) % 600;
    milestonesOf(cureClock(model, week), start);
  });
  await suite.measure('cure-fit', { runs: 60, targetMs: 100 }, () => {
    fitRows(hardener, hardener.sheet, practice, 'epoxy');
  });
  await suite.measure('cure-review', { runs: 20 }, () => {
    reviewSheet(hardener, practice);
  });
  await suite.measure('cure-pot', { runs: 300, targetMs: 2 }, () => {
    batchCurve(model, { massG: 450, roomC: 21 }, practice);
  });

  const laminate = (name: string, thicknessMm: number): StackPart => ({
    kind: 'laminate',
    name,
    thicknessMm,
    fibreFraction: 0.45,
    fibreDensityKgM3: 1800,
    resinDensityKgM3: 1150,
    wet: true,
  });
  const parts = (skinMm: number): StackPart[] => [
    laminate('inner skin', skinMm),
    { kind: 'core', name: 'core', thicknessMm: 20, densityKgM3: 80, maxC: 75 },
    laminate('outer skin', skinMm),
    { kind: 'mould', name: 'mould', maxC: 70 },
  ];
  for (const [name, skinMm] of [
    ['cure-stack', 2],
    ['cure-stack-thick', 8],
  ] as const) {
    await suite.measure(name, { runs: 60, targetMs: 50 }, () => {
      stackTemperatures(model, parts(skinMm), week, 0, practice, { hours: 48, cells: 100 });
    });
  }

  if (!suite.wanted('cure-log')) return;
  const chunks = millionLines();
  await suite.measure('cure-log-million-lines', { runs: 5, warmUp: 1, targetMs: 2000 }, () => {
    const reader = logReader({ zone: 'Europe/Lisbon', practice });
    for (const chunk of chunks) reader.push(chunk);
    const { profile } = reader.end();
    if (profile) cureClock(model, profile).reached(profile[0]!.start, 'demould');
  });
}

/** A million lines of a logger that writes every minute, in chunks as a file is read. */
function millionLines(): string[] {
  const chunks: string[] = [];
  let chunk = 'time;mould °C\n';
  for (let i = 0; i < 1_000_000; i++) {
    const stamp = new Date(Date.UTC(2026, 0, 1, 0, i)).toISOString().slice(0, 16);
    chunk += `${stamp}Z;${(18 + 3 * Math.sin(i / 200)).toFixed(2).replace('.', ',')}\n`;
    if (chunk.length > 65_536) {
      chunks.push(chunk);
      chunk = '';
    }
  }
  return [...chunks, chunk];
}
