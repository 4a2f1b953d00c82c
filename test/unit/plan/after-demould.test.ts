/** Repair, dry fit and the way to outside parties: stages with hands, and how a build of before goes without. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { freezeRows } from '../../../app/document/library.ts';
import { readBuild } from '../../../app/document/read.ts';
import type { Build, Library, PlanResult } from '../../../app/document/schema.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const ZONE = smallBuild().part.zones[0]!;
const STRIPS = { plies: [{ cloth: 'carbon-twill-200', angleDeg: 45 }] };
const part = (more: object = {}, zone: object = {}): Build => ({
  ...smallBuild(),
  part: { ...smallBuild().part, zones: [{ ...ZONE, closeout: STRIPS, ...zone }], ...more },
});
const planned = (document: Build): PlanResult =>
  plan(document, library(), NOW, FIRST_ANSWER).result;
const stageOf = ({ stages }: PlanResult, id: string) => stages.find((stage) => stage.id === id);
const startOf = (result: PlanResult, id: string): string => stageOf(result, id)!.start!;
const endOf = (result: PlanResult, id: string): string => stageOf(result, id)!.end!;
const hoursBetween = (from: string, to: string): number =>
  (Date.parse(to) - Date.parse(from)) / 3_600_000;
const measured = (document: Build) => contextOf(document, library(), NOW).part;

describe('repair after demould', () => {
  const withMould = (mould: object): Build => ({ ...part(), mould });

  it('is expected by release: 0.6 of 3 h with wax, 0.24 with a semi-permanent, and the core', () => {
    const minutes = (release: string) => measured(withMould({ release })).repair!.minutes;
    // Dull spots in one core of five, 2 h; a skin of two 200 g plies is thin: 3 h in a quarter of jobs.
    const besides = 0.2 * 120 + 0.25 * 180;
    expect(minutes('wax-paste')).toBeCloseTo(0.6 * 180 + besides, 6);
    expect(minutes('semi-permanent')).toBeCloseTo(0.24 * 180 + besides, 6);
  });

  it('takes more without draft, and a skin that is no longer thin is not ground through', () => {
    const of = (document: Build) => measured(document).repair!;
    const release = 'wax-paste';
    expect(
      of(withMould({ release, draftDeg: 1 })).minutes - of(withMould({ release })).minutes,
    ).toBeCloseTo(0.5 * 240, 6);
    expect(of(withMould({ release, draftDeg: 2 })).minutes).toBe(
      of(withMould({ release })).minutes,
    );
    const thick = { outer: Array.from({ length: 5 }, () => ({ cloth: 'carbon-twill-200' })) };
    const events = (document: Build) => of(document).causes.map(({ event }) => event);
    expect(events(part())).toContain('ground-through');
    expect(events(part({}, thick))).not.toContain('ground-through');
  });

  it('cures under a bag of its own once plies are likely to be replaced', () => {
    const plain = planned(withMould({ draftDeg: 2 }));
    expect(stageOf(plain, 'cure:repair')).toBeUndefined();
    expect(startOf(plain, 'trim') >= endOf(plain, 'repair')).toBe(true);
    const steep = planned(withMould({ draftDeg: 0.5 }));
    expect(startOf(steep, 'layup:repair') >= endOf(steep, 'repair')).toBe(true);
    expect(startOf(steep, 'cure:repair')).toBe(endOf(steep, 'layup:repair'));
    expect(
      hoursBetween(startOf(steep, 'cure:repair'), endOf(steep, 'cure:repair')),
    ).toBeGreaterThan(12);
    expect(startOf(steep, 'trim') >= endOf(steep, 'bag-off:repair')).toBe(true);
    expect(stageOf(steep, 'cure:repair')!.gear).toEqual(['pump']);
    expect(steep.mixes.filter(({ cure }) => cure === 'repair')).toHaveLength(1);
  });

  it('is what the shop saw, once it has looked', () => {
    const seen = planned(part({ repair: { hours: 6, plies: true } }));
    const row = seen.breakdown!.labourHours.find(({ id }) => id === 'repair')!;
    const laid = seen.breakdown!.labourHours.find(({ id }) => id === 'layup:repair')!;
    // 6 h as seen and half an hour of looking over; its mixing comes on top.
    expect(row.value + laid.value).toBeCloseTo(6.6, 6);
    expect(stageOf(seen, 'cure:repair')).toBeDefined();
  });
});

describe('lifting', () => {
  it('takes two for what is over 1.5 m², three from 40 kg on', () => {
    const hands = (areaM2: number, coreMm = 10) =>
      measured(part({}, { areaM2, core: { material: 'pvc-80', thicknessMm: coreMm } })).lift;
    expect(hands(1.4).hands).toBe(1);
    expect(hands(1.6).hands).toBe(2);
    expect(hands(12).massKg).toBeGreaterThan(20);
    expect(hands(20).massKg).toBeGreaterThan(40);
    expect(hands(20).hands).toBe(3);
    expect(measured(part({}, { areaM2: 20 })).workFor('demould').peopleMin).toBe(hands(20).hands);
  });
});

describe('the frame', () => {
  it('is fitted to before the edge is closed and again before paint, while it is there', () => {
    const outside = [{ id: 'paint', name: 'Spray shop', workingDays: 3 }];
    const frame = { from: '2027-05-10T09:00', until: '2027-06-11' };
    const result = planned({ ...part({ frame }), outside });
    expect(startOf(result, 'dry-fit') >= '2027-05-10T09:00').toBe(true);
    expect(startOf(result, 'dry-fit') >= endOf(result, 'trim')).toBe(true);
    expect(startOf(result, 'closeout:closeout') >= endOf(result, 'dry-fit')).toBe(true);
    expect(startOf(result, 'fit-check') >= endOf(result, 'bag-off:closeout')).toBe(true);
    expect(startOf(result, 'outside:paint') >= endOf(result, 'fit-check')).toBe(true);
  });
});

describe('the way to the painter', () => {
  const paint = { id: 'paint', name: 'Spray shop', workingDays: 3, slot: '2027-06-01' };
  const sent = (more: object = {}, other: Build['outside'] = []): PlanResult =>
    planned({ ...part(), outside: [{ ...paint, ...more }, ...other] });

  it('is wrapped, driven by two, and fetched a day after air-dried paint', () => {
    const result = sent({ driveHours: 1 });
    expect(startOf(result, 'drive:paint') >= endOf(result, 'wrap:paint')).toBe(true);
    expect(stageOf(result, 'drive:paint')!.people).toHaveLength(2);
    // 50 min to load, unload and sign, an hour there and an hour home.
    const drive = hoursBetween(startOf(result, 'drive:paint'), endOf(result, 'drive:paint'));
    expect(drive * 60).toBeCloseTo(170, 0);
    expect(endOf(result, 'drive:paint') <= startOf(result, 'outside:paint')).toBe(true);
    const done = endOf(result, 'outside:paint');
    expect(hoursBetween(done, endOf(result, 'wait:handle-paint'))).toBe(24);
    expect(startOf(result, 'drive-back:paint') >= endOf(result, 'wait:handle-paint')).toBe(true);
    expect(hoursBetween(done, endOf(result, 'wait:tape-paint'))).toBe(48);
    expect(startOf(result, 'hardware') >= endOf(result, 'wait:tape-paint')).toBe(true);
  });

  it('brings it the working day before where the painter opens before it could arrive', () => {
    const result = sent({ driveHours: 1 });
    expect(startOf(result, 'outside:paint')).toMatch(/^2027-06-01T08:00/);
    expect(endOf(result, 'drive:paint') < '2027-06-01').toBe(true);
  });

  it('waits two hours for baked paint, and nobody drives where the painter carries', () => {
    const baked = sent({ bakeC: 60 });
    const done = endOf(baked, 'outside:paint');
    expect(hoursBetween(done, endOf(baked, 'wait:handle-paint'))).toBe(2);
    expect(stageOf(baked, 'wait:tape-paint')).toBeUndefined();
    const carried = sent({ carriedBy: 'party' });
    expect(stageOf(carried, 'wrap:paint')).toBeDefined();
    expect(carried.stages.map(({ kind }) => kind)).not.toContain('drive');
  });

  it('is not wrapped before it is settled who carries', () => {
    const questions = [{ id: 'q', text: 'Who carries?', before: 'outside' as const }];
    const result = planned({ ...part({ questions }), outside: [paint] });
    expect(startOf(result, 'wrap:paint') >= endOf(result, 'sign-off:q')).toBe(true);
    expect(result.findings.find(({ code }) => code === 'question-open')!.message).toBe(
      "Not settled: Who carries? It holds up 'Wrap and cradle for Spray shop'.",
    );
  });

  it('is wrapped again for who comes next only when the paint stands it', () => {
    const haul = { id: 'haul', name: 'Haulage', kind: 'transport' as const, workingDays: 1 };
    const result = sent({}, [haul]);
    expect(hoursBetween(endOf(result, 'outside:paint'), endOf(result, 'wait:wrap-paint'))).toBe(72);
    expect(startOf(result, 'wrap:haul') >= endOf(result, 'wait:wrap-paint')).toBe(true);
    expect(stageOf(result, 'drive:haul')).toBeUndefined();
  });

  it('keeps a slot on a Saturday where the painter works then, and opens on Monday where not', () => {
    const day: [string, string][] = [['08:00', '13:00']];
    const open = sent({ slot: '2027-06-05', workingDays: 1, hours: { fri: day, sat: day } });
    expect(startOf(open, 'outside:paint')).toMatch(/^2027-06-05T08:00/);
    expect(endOf(open, 'outside:paint')).toMatch(/^2027-06-05T13:00/);
    const shut = sent({ slot: '2027-06-05' });
    expect(startOf(shut, 'outside:paint')).toMatch(/^2027-06-07T08:00/);
  });
});

describe('a build that froze its rows before', () => {
  it('has none of these stages, and no more hands', () => {
    const rows = library();
    const old = Object.fromEntries(
      Object.entries(rows).map(([table, list]) => [
        table,
        (list as { byOffer?: true }[]).filter(({ byOffer }) => byOffer !== true),
      ]),
    ) as unknown as Library;
    const outside = [{ id: 'paint', name: 'Spray shop', workingDays: 3 }];
    const read = readBuild(JSON.stringify({ ...part(), outside }), old);
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const result = planned(freezeRows(read.document, read.build, old));
    const kinds = new Set(result.stages.map(({ kind }) => kind));
    for (const kind of ['repair', 'dry-fit', 'wrap', 'drive'] as const) {
      expect(kinds).not.toContain(kind);
    }
    expect(stageOf(result, 'wait:handle-paint')).toBeUndefined();
  });
});
