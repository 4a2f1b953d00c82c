/** What a figure opens to tells how it was come by: its own rows give it again. */
import { expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { readBuild } from '../../../app/document/read.ts';
import { FINDINGS } from '../../../app/messages/findings.ts';
import { FIRST_ANSWER, type PlanOutcome } from '../../../app/plan/outcome.ts';
import { cureOrigin, type CureFigure } from '../../../app/shop/origins/cure.ts';
import { findingOrigin } from '../../../app/shop/origins/finding.ts';
import { FINDING_RULES } from '../../../app/shop/origins/findingRules.ts';
import { lengthOrigin } from '../../../app/shop/origins/length.ts';
import type { Origin } from '../../../app/shop/origins/origin.ts';
import { floatOrigin, limitOrigin, startOrigin } from '../../../app/shop/origins/start.ts';
import { dayClock, floatWords } from '../../../app/shop/words.ts';
import { isoToMinute, minuteToIso } from '../../../app/time/zone.ts';
import { shippedSamples } from '../../../main/samples.ts';
import { LIBRARY, planFor, ROOMY } from '../judge/builds.ts';

const NOW = isoToMinute('2027-04-12T06:00Z')!;
const samples: readonly PlanOutcome[] = shippedSamples().map(({ name, text }) => {
  const read = readBuild(text(), LIBRARY);
  if (!read.ok) throw new Error(`${name}: ${read.faults[0]?.found}`);
  return plan(read.document, LIBRARY, NOW, FIRST_ANSWER);
});
const cold = planFor({
  ...ROOMY,
  room: { temperatureC: { day: 17, night: 9 }, humidityPct: 80 },
});
const outcomes = [...samples, cold];

const valueOf = ({ rows }: Origin, name: string): string =>
  rows.find((row) => row.name.startsWith(name))!.value;
/** The number that a value begins with, as in `= 46.5 °C (115.7 °F)`. */
const numberOf = (value: string): number => Number(/-?[\d.]+/.exec(value.replace('−', '-'))![0]);

it('every rule of a finding names rows that the library has', () => {
  const rows = new Set(LIBRARY.practice.map(({ id }) => id));
  const named = Object.values(FINDING_RULES).flatMap(({ practice }) => practice ?? []);
  expect(named.length).toBeGreaterThan(40);
  expect(named.filter((id) => !rows.has(id))).toEqual([]);
});

it('a finding opens to its rule, its numbers with name and unit, and its source', () => {
  const codes = new Set<string>();
  for (const outcome of outcomes) {
    for (const finding of outcome.result.findings) {
      codes.add(finding.code);
      const { formula, rows, source } = findingOrigin(outcome, finding);
      expect(formula, finding.code).not.toBe(
        FINDINGS[finding.code as keyof typeof FINDINGS].meaning,
      );
      expect(formula.length, finding.code).toBeGreaterThan(20);
      expect(source, finding.code).toMatch(/\.$/);
      const known = Object.values(finding.numbers).filter((value) => value !== null);
      expect(rows.length, finding.code).toBeGreaterThanOrEqual(known.length);
      for (const { name, value } of rows) {
        expect(name, finding.code).toMatch(/^\S.*[^\s:]$/);
        // No name as the code has it.
        expect(name, finding.code).not.toMatch(/[a-z][A-Z][a-z]/);
        expect(value, `${finding.code}: ${name}`).not.toBe('–');
      }
    }
  }
  expect(codes.size).toBeGreaterThan(12);
});

it('numbers that are measured have their unit, in both systems', () => {
  const finding = cold.result.findings.find(({ code }) => code === 'cold-room')!;
  const origin = findingOrigin(cold, finding);
  // 9 °C = 48.2 °F by definition; a room is told in whole degrees.
  expect(valueOf(origin, 'Coldest')).toBe('9 °C (48 °F)');
  expect(origin.source).toContain('Data sheet');
});

it('the bag is due at the share of open time, or before gel, that its slip tells', () => {
  let checked = 0;
  for (const outcome of outcomes) {
    for (const cure of outcome.result.cures) {
      const { times } = outcome.detail.cures[cure.id]!;
      const origin = cureOrigin(outcome, cure, 'bagBy');
      if (times.bagBy === null || times.open === null || times.gel === null) continue;
      const share = numberOf(valueOf(origin, 'Bag down and drawn by this share'));
      const before = numberOf(valueOf(origin, 'Bag down and drawn at least'));
      const due = Math.min(
        times.bagMix! + Math.floor((times.open - times.bagMix!) * share),
        times.gel - before,
      );
      expect(dayClock(minuteToIso(due, outcome.result.build.zone))).toBe(dayClock(cure.bagBy!));
      expect(valueOf(origin, 'First ply open until')).toBe(dayClock(cure.openUntil!));
      checked += 1;
    }
  }
  expect(checked).toBeGreaterThan(5);
});

it('a milestone is as many hours after its start as its slip tells', () => {
  const [outcome] = samples;
  const keys: readonly CureFigure[] = ['debagFrom', 'demouldFrom', 'sandFrom'];
  let checked = 0;
  for (const cure of outcome!.result.cures) {
    const { sealed } = outcome!.detail.cures[cure.id]!.times;
    for (const key of keys) {
      const at = cure[key];
      if (typeof at !== 'string') continue;
      const hours = numberOf(cureOrigin(outcome!, cure, key).rows.at(-1)!.value);
      expect(hours).toBeCloseTo((isoToMinute(at)! - sealed!) / 60, 0);
      checked += 1;
    }
  }
  expect(checked).toBeGreaterThan(3);
});

it('Tg at demould follows from the rows of its slip by DiBenedetto’s equation', () => {
  // Pascault & Williams (1990) form of DiBenedetto's equation, from memory.
  let checked = 0;
  for (const outcome of outcomes) {
    for (const cure of outcome.result.cures) {
      if (cure.tgAtDemouldC === null) continue;
      const origin = cureOrigin(outcome, cure, 'tgAtDemouldC');
      const [fresh, full, bend, share] = [
        'Tg of the fresh mix',
        'Highest Tg',
        'λ',
        'Degree of cure',
      ].map((name) => numberOf(valueOf(origin, name)));
      const degree = share! / 100;
      const tgC = fresh! + ((full! - fresh!) * bend! * degree) / (1 - (1 - bend!) * degree);
      expect(Math.abs(tgC - cure.tgAtDemouldC)).toBeLessThan(0.5);
      checked += 1;
    }
  }
  expect(checked).toBeGreaterThan(5);
});

it('the length of plain work follows from one person’s work and the hands on it', () => {
  const kinds = new Set<string>();
  for (const outcome of outcomes) {
    const share = LIBRARY.practice.find(({ id }) => id === 'people-loss-share')!.value;
    for (const stage of outcome.result.stages) {
      const minutes = outcome.detail.workMinutes[stage.id];
      const own = outcome.detail.labour.find(({ id }) => id === stage.id);
      if (!own || minutes === undefined || !['trim', 'demould', 'dry-fit'].includes(stage.kind))
        continue;
      const origin = lengthOrigin(outcome, stage);
      const hands = numberOf(valueOf(origin, 'Hands on it'));
      const told = (own.personMinutes / hands) * (1 + share * (hands - 1));
      expect(Math.abs(told - minutes), stage.id).toBeLessThanOrEqual(1);
      kinds.add(stage.kind);
    }
  }
  expect([...kinds].sort()).toEqual(['demould', 'dry-fit', 'trim']);
});

it('every figure of every stage opens to a formula, what went in, and a source', () => {
  let figures = 0;
  for (const outcome of outcomes) {
    for (const stage of outcome.result.stages) {
      const origins = [
        startOrigin(outcome, stage),
        floatOrigin(outcome, stage),
        lengthOrigin(outcome, stage),
        ...(['earliestStart', 'latestStart', 'latestEnd'] as const).map((which) =>
          limitOrigin(outcome, stage, which),
        ),
      ];
      for (const { formula, rows, source } of origins) {
        expect(formula, stage.id).not.toBe('');
        expect(rows.length, stage.id).toBeGreaterThan(0);
        expect(source, stage.id).not.toBe('');
        figures += 1;
      }
      expect(valueOf(origins[1]!, 'To spare')).toBe(`= ${floatWords(stage.floatHours)}`);
    }
  }
  expect(figures).toBeGreaterThan(1000);
});

it('what comes before a stage is named with when it is done, the last of it below', () => {
  const [outcome] = samples;
  const demould = outcome!.result.stages.find(({ kind }) => kind === 'demould')!;
  const before = startOrigin(outcome!, demould).rows.filter(
    ({ from }) => from === 'comes before it',
  );
  const ends = before.map(({ value }) => value);
  const bagOff = outcome!.result.stages.filter(({ kind }) => kind === 'bag-off').at(-2)!;
  expect(before.map(({ name }) => name)).toContain(bagOff.name);
  expect(ends).toContain(`done ${dayClock(bagOff.end!)}`);
});
