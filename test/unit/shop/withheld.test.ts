/** A stop withholds what it makes unsafe and what depends on it, and nothing else. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { planResultSchema } from '../../../app/document/schema.ts';
import { calendarIcs } from '../../../app/shop/calendar.ts';
import { sheetsHtml } from '../../../app/shop/sheets.ts';
import { withheldWords } from '../../../app/shop/withheld.ts';
import { summaryOf } from '../../../main/command/summary.ts';
import { printedSheets } from '../../support/paper.ts';
import { planFor, ROOMY, withPart, withZone } from '../judge/builds.ts';

const PLY = { cloth: 'glass-twill-300' };
const BANNER = 'NOT TO BE BUILT';

/** A first skin that is laid in time, and a merged bag that cannot be closed before its resin strings. */
const BEYOND_OPEN_TIME: Build = withZone(
  { ...ROOMY, route: { joints: { 'skin-core': 'apart', 'core-inner': 'one-bag' } } },
  { areaM2: 4, outer: [PLY], inner: [PLY, PLY, PLY] },
);
const outcome = planFor(BEYOND_OPEN_TIME);
const sheets = printedSheets(sheetsHtml(outcome));
const sheet = (id: string) => sheets.find((one) => one.id === id)!;
const stop = outcome.result.findings.find(({ code }) => code === 'open-time-short')!;
const withheld = outcome.result.stages.filter((stage) => stage.withheld);
const ids = withheld.map(({ id }) => id);

describe('a merge beyond open time', () => {
  it('is marked as unsafe, and the result keeps its contract', () => {
    expect(stop).toMatchObject({ severity: 'stop', unsafe: true, stage: 'layup:core' });
    expect(() => planResultSchema.parse(outcome.result)).not.toThrow();
  });

  it('withholds the merged bag, the surface bared for it and what depends on it', () => {
    for (const id of ['prepare:core', 'layup:core', 'cure:core', 'demould', 'trim', 'hand-over']) {
      expect(ids).toContain(id);
    }
    for (const stage of withheld) expect(stage.withheld).toEqual([stop.message]);
  });

  it('leaves the first skin its stages and its cards', () => {
    for (const id of ['cutting', 'release', 'layup:skin', 'cure:skin', 'bag-off:skin']) {
      expect(ids).not.toContain(id);
    }
    for (const id of ['go-skin', 'mix-skin', 'cure-skin']) {
      expect(sheet(id).text).not.toContain(BANNER);
    }
    expect(sheet('mix-skin').text).toContain('Scale reads after hardener');
  });

  it.each(['go-core+inner', 'mix-core+inner', 'cure-core+inner', 'demould'])(
    'prints %s as a head with the reason and nothing to work by',
    (id) => {
      const { text, rows } = sheet(id);
      expect(text).toContain(BANNER);
      expect(text).toContain(stop.message);
      expect(text).not.toMatch(/Mix at|Bag down by|Go or no-go|Wedges/);
      expect(rows).toEqual([]);
    },
  );

  it('prints one withheld card for all mixes of the bag', () => {
    expect(sheets.filter(({ id }) => id.startsWith('mix-core+inner'))).toHaveLength(1);
  });

  it('says so once across the head of weeks and hold points, and marks the rows', () => {
    const weeks = sheets.filter(
      ({ id, text }) => id.startsWith('week-') && text.includes('✕ Lay up core'),
    );
    expect(weeks.length).toBeGreaterThan(0);
    // In a bar the number stands first: a cross before it would be read as “times”.
    expect(weeks[0]!.text).toMatch(/Ida 1 2 ✕ 3 ✕/);
    for (const { text } of [...weeks, sheet('holds')]) {
      expect(text.split(BANNER)).toHaveLength(2);
      expect(text).toContain(stop.message);
    }
    expect(sheet('holds').text).not.toContain('First mix: Core');
  });

  it('prints no day on which only withheld work stands', () => {
    const days = sheets.filter(({ id }) => id.startsWith('day-'));
    const fairing = outcome.result.stages.find(({ id }) => id === 'fair:2')!.start!.slice(0, 10);
    expect(days.length).toBeGreaterThan(0);
    expect(days.map(({ id }) => id)).not.toContain(`day-${fairing}`);
  });

  it('is said in the same words by command and paper, and in the calendar', () => {
    const [line] = withheldWords(outcome.result);
    expect(summaryOf(outcome.result)).toContain(`${line}\n`);
    expect(sheet('holds').text).toContain(line!.slice(BANNER.length + 1));
    expect(calendarIcs(outcome)).toMatch(/SUMMARY:NOT TO BE BUILT: Lay up core/);
  });
});

describe('what was begun', () => {
  it('keeps its card: a bag that is down must be watched', () => {
    const layups = ['layup:skin', 'layup:core'].map((id) =>
      outcome.result.stages.find((stage) => stage.id === id),
    );
    const records = layups.map((stage) => ({
      stage: stage!.id,
      start: stage!.start!.slice(0, 16),
      end: stage!.end!.slice(0, 16),
    }));
    const later = planFor({ ...BEYOND_OPEN_TIME, records });
    const cure = later.result.stages.find(({ id }) => id === 'cure:core')!;
    expect(cure.withheld).toBeUndefined();
  });
});

describe('other stops', () => {
  it('withhold nothing where they are but late', () => {
    const late = planFor({ ...ROOMY, unveiling: '2027-04-28T18:00' }).result;
    expect(late.findings.map(({ code }) => code)).toContain('date-missed');
    expect(late.stages.some((stage) => stage.withheld)).toBe(false);
    expect(late.findings.some(({ unsafe }) => unsafe)).toBe(false);
  });

  it('withhold every cure where the core dissolves in the resin', () => {
    const foam = { material: 'eps-20', thicknessMm: 20 };
    const { result } = planFor({
      ...withZone(ROOMY, { core: foam }),
      resin: { system: 'marl-7', hardener: 'medium' },
    });
    const stops = result.findings.filter(
      ({ code, severity }) => `${code} ${severity}` === 'styrene-dissolves stop',
    );
    expect(stops.length).toBeGreaterThan(0);
    const wet = result.stages.filter(({ cure }) => cure !== null);
    expect(wet.length).toBeGreaterThan(0);
    expect(wet.every((stage) => stage.withheld)).toBe(true);
  });

  it('leave the painter’s sheet alone unless the handover is unsafe', () => {
    const painter = { id: 'paint', name: 'Spray shop', kind: 'paint' as const, workingDays: 3 };
    const document = withPart({ ...ROOMY, outside: [painter] }, {});
    const printed = printedSheets(sheetsHtml(planFor(document)));
    const { text } = printed.find(({ id }) => id === 'painter-paint')!;
    expect(text).not.toContain(BANNER);
    expect(text).toMatch(/Last grit P320/);
    expect(text).toContain('Light epoxy fairing filler');
    expect(text).toContain('High-build two-pack primer');
    expect(text).toMatch(/Highest proven temperature 2[01] °C/);
  });
});
