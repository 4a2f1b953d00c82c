/** Stages that a shop really does, and how a build of before goes without them until it takes their rows. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { freezeRows } from '../../../app/document/library.ts';
import { readBuild } from '../../../app/document/read.ts';
import type { Build, Library, PlanResult } from '../../../app/document/schema.ts';
import { usualQuestions } from '../../../app/judge/questions.ts';
import { FIRST_ANSWER, FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { contextOf } from '../../../app/plan/context.ts';
import { machiningWords } from '../../../app/shop/shopping.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const CLOTH = 'carbon-twill-200';
const ZONE = smallBuild().part.zones[0]!;
const JOINTS = { 'skin-core': 'apart', 'core-inner': 'apart' } as const;
const shaped = (shape: 'flat' | 'single', more: object = {}): Build => ({
  ...smallBuild(),
  route: { joints: JOINTS },
  part: { ...smallBuild().part, zones: [{ ...ZONE, shape, ...more }] },
});
const planned = (document: Build, rows: Library = library(), effort = FIRST_ANSWER): PlanResult =>
  plan(document, rows, NOW, effort).result;
const stageOf = ({ stages }: PlanResult, id: string) => stages.find((stage) => stage.id === id);
const startOf = (result: PlanResult, id: string): string => stageOf(result, id)!.start!;
const endOf = (result: PlanResult, id: string): string => stageOf(result, id)!.end!;

/** The library as it was before rows were offered. */
const ofBefore = (rows: Library): Library =>
  Object.fromEntries(
    Object.entries(rows).map(([table, list]) => [
      table,
      (list as { byOffer?: true }[]).filter(({ byOffer }) => byOffer !== true),
    ]),
  ) as unknown as Library;

function frozenWith(document: Build, rows: Library): Build {
  const read = readBuild(JSON.stringify(document), rows);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return freezeRows(read.document, read.build, rows) as Build;
}

describe('work of an hour or so', () => {
  const SHORT = new Set(['rehearsal', 'bag-off', 'tap-test', 'dry-fit', 'fit-check']);
  /** Such stages that begin on one day and end on another, in builds of 1, 2 and 4 m2. */
  const overNight = (rows: Library): string[] =>
    [1, 2, 4]
      .flatMap((areaM2) => planned(shaped('single', { areaM2, edgeM: 3 * areaM2 }), rows).stages)
      .filter(({ kind, start, end }) => SHORT.has(kind) && start!.slice(0, 10) < end!.slice(0, 10))
      .map(({ id }) => id);

  it('is not begun in the evening and ended next morning', () => {
    expect(overNight(library())).toEqual([]);
    const rows = library();
    const before = rows.practice.filter(({ id }) => id !== 'short-work-in-one-go-minutes');
    expect(overNight({ ...rows, practice: before })).toContain('fit-check');
  });
});

describe('core', () => {
  it('over a curve is fitted on the mould once that is tested, by template where it is flat', () => {
    const curved = planned(shaped('single'));
    expect(stageOf(curved, 'core-fit')!.name).toBe('Fit core on the mould, score and drill it');
    expect(startOf(curved, 'core-fit') >= endOf(curved, 'bag-test')).toBe(true);
    const flat = planned(shaped('flat'));
    expect(stageOf(flat, 'core-fit')!.name).toBe('Cut core by template, score and drill it');
    expect(startOf(flat, 'core-fit') < endOf(flat, 'bag-test')).toBe(true);
    expect(stageOf(flat, 'core-fit')!.gear).toContain('bench');
  });

  it('is tapped over before anything covers it, and the part once it is out of the mould', () => {
    const result = planned(shaped('single'));
    expect(startOf(result, 'tap-test:core') >= endOf(result, 'bag-off:core')).toBe(true);
    expect(startOf(result, 'prepare:inner') >= endOf(result, 'tap-test:core')).toBe(true);
    expect(startOf(result, 'tap-test:demould') >= endOf(result, 'demould')).toBe(true);
    expect(startOf(result, 'trim') >= endOf(result, 'tap-test:demould')).toBe(true);
  });

  it('has no peel ply to strip while it is bare', () => {
    const result = planned(shaped('single'));
    expect(stageOf(result, 'prepare:inner')!.name).toBe(
      'Vacuum bare core and clean overlaps for inner skin',
    );
    expect(stageOf(result, 'prepare:core')!.name).toMatch(/^Strip peel ply/);
  });

  it('carries its dull spots as a likelihood: two hours in one bond of five', () => {
    const price = planned(shaped('single'), library(), FULL_ANSWER).routes[0]!.price!;
    expect(price.find(({ event }) => event === 'dull-core')).toMatchObject({
      chance: 0.2,
      hours: 0.4,
      fillerKg: 0,
    });
  });
});

describe('local plies between the skins', () => {
  const local = [{ cloth: CLOTH, angleDeg: 45, place: 'between' as const, areaM2: 0.2 }];
  const free: Build = { ...shaped('single', { local }), route: 'best' };

  it('go down wet with the outer skin, at no price and with no filler', () => {
    const result = planned(free, library(), FULL_ANSWER);
    expect(result.route.id).toBe('skin+local/core/inner');
    expect(stageOf(result, 'layup:local')).toBeUndefined();
    const taken = result.routes.find(({ id }) => id === result.route.id)!;
    expect(taken.possible).toBe(true);
    expect(taken.price!.map(({ event }) => event)).not.toContain('joint-one-bag');
    const own = result.routes.find(({ id }) => id === 'skin/local/core/inner')!;
    expect(own.possible).toBe(true);
    expect(own.labourHours).toBeGreaterThan(taken.labourHours + 1);
    const merged = result.routes.find(({ id }) => id === 'skin+local+core/inner')!;
    expect(merged.price!.filter(({ event }) => event === 'joint-one-bag')).toHaveLength(1);
  });

  it('keep a bag of their own where the build says so', () => {
    const joints = { 'skin-local': 'apart', 'local-core': 'apart', ...JOINTS } as const;
    const result = planned({ ...free, route: { joints } });
    expect(result.route.id).toBe('skin/local/core/inner');
    expect(stageOf(result, 'layup:local')).toBeDefined();
  });
});

describe('work under one bag', () => {
  const patch = [{ cloth: CLOTH, angleDeg: 45, place: 'between' as const, areaM2: 0.7 }];
  const { part } = contextOf(
    shaped('flat', { areaM2: 8, edgeM: 12, local: patch }),
    library(),
    NOW,
  );
  const under = (id: string) => part.layups.filter((layup) => layup.id === id);

  it.each(['bag-off', 'prepare'] as const)(
    'has a fixed part and a part by area and edge: %s of 0.7 m2 is no skin of 8',
    (kind) => {
      const row = library().labour.find(({ stage }) => stage === kind)!;
      const minutes = (areaM2: number, edgeM: number) =>
        row.setupMinutes + row.minutesPerM2 * areaM2 + row.minutesPerEdgeM * edgeM;
      const [small] = under('local');
      expect(part.workUnder(kind, under('skin')).personMinutes).toBeCloseTo(minutes(8, 12), 6);
      expect(part.workUnder(kind, under('local')).personMinutes).toBeCloseTo(
        minutes(0.7, small!.edgeM),
        6,
      );
      expect(part.workFor(kind).personMinutes).toBeCloseTo(minutes(8, 12), 6);
    },
  );
});

describe('the mould', () => {
  const withMould = (mould: Build['mould'], more: Partial<Build> = {}): Build => ({
    ...shaped('single'),
    mould,
    ...more,
  });
  const outside = [{ id: 'mill', name: 'Mill', kind: 'machining' as const, workingDays: 3 }];

  it('machined in the house has a stage with hours, less finishing, and says what is in the cost', () => {
    const hand = planned(withMould({}));
    const house = planned(withMould({ machinedInHouse: true }));
    expect(stageOf(hand, 'machining')).toBeUndefined();
    expect(stageOf(house, 'machining')).toMatchObject({
      kind: 'machining',
      name: 'Machine the mould',
    });
    expect(startOf(house, 'machining') >= endOf(house, 'arrival:board-merchant')).toBe(true);
    expect(startOf(house, 'mould') >= endOf(house, 'machining')).toBe(true);
    const hours = (result: PlanResult, id: string) =>
      result.breakdown!.labourHours.find((row) => row.id === id)!.value;
    expect(hours(house, 'mould')).toBeLessThan(hours(hand, 'mould'));
    expect(hand.totals.machining).toEqual({ by: 'hand', cost: null });
    expect(machiningWords(hand)).toBe('The mould is shaped by hand: there is no machining in it');
    expect(house.totals.machining).toEqual({ by: 'house', cost: null });
    expect(machiningWords(house)).toContain('machine time has no price and is not in it');
    const priced = planned(withMould({ machinedInHouse: true, machiningMinor: 42_000 }));
    expect(priced.totals.materialCost - house.totals.materialCost).toBe(42_000);
    expect(machiningWords(priced)).toBe(
      'Machining of the mould in the house is in it: €420.00, and its hours count',
    );
  });

  it('machined outside costs the agreed price, or the rate of its row', () => {
    const rated = planned(withMould({}, { outside }));
    const agreed = planned(withMould({ machiningMinor: 99_900 }, { outside }));
    expect(rated.totals.machining!.by).toBe('outside');
    expect(rated.totals.machining!.cost).toBeGreaterThan(0);
    expect(agreed.totals.machining).toEqual({ by: 'outside', cost: 99_900 });
    expect(machiningWords(agreed)).toBe(
      'Machining of the mould by an outside party is in it: €999.00',
    );
  });

  it('is released after a test panel has hardened, and warmed before the first mix, where asked for', () => {
    const plain = planned(withMould({}));
    expect(plain.stages.map(({ kind }) => kind)).not.toContain('test-panel');
    const room = { temperatureC: { day: 20, night: 20 }, tent: { maxC: 50 } };
    const both = planned(withMould({ testPanel: true, warmUpHours: 6 }, { room }));
    expect(startOf(both, 'wait:test-panel')).toBe(endOf(both, 'test-panel'));
    expect(startOf(both, 'release') >= endOf(both, 'wait:test-panel')).toBe(true);
    const hours = (id: string) =>
      (Date.parse(endOf(both, id)) - Date.parse(startOf(both, id))) / 3_600_000;
    expect(hours('wait:test-panel')).toBeCloseTo(24, 0);
    expect(hours('mould-heat')).toBeGreaterThanOrEqual(6);
    expect(startOf(both, 'mould-heat') >= endOf(both, 'mould-heat-setup')).toBe(true);
  });
});

describe('a mould that is warmed', () => {
  const HOURS = [7.5, 16.5] as const;
  const room = { temperatureC: { day: 20, night: 20 }, tent: { maxC: 50 } };
  const heatOf = (warmUpHours: number, more: object = {}, day = 0) => {
    const document: Build = {
      ...shaped('single'),
      mould: { warmUpHours },
      room: { ...room, ...more },
    };
    const { result } = plan(document, library(), NOW + day * 1440, FIRST_ANSWER);
    const at = (iso: string) => ({
      day: iso.slice(0, 10),
      h: Number(iso.slice(11, 13)) + Number(iso.slice(14, 16)) / 60,
    });
    const heat = stageOf(result, 'mould-heat')!;
    const on = at(heat.start!);
    const off = at(heat.end!);
    const weekday = new Date(isoToMinute(heat.start!)! * 60_000).getUTCDay();
    return {
      result,
      on,
      off,
      weekday,
      mix: at(startOf(result, 'layup:skin')),
      hours: (isoToMinute(heat.end!)! - isoToMinute(heat.start!)!) / 60,
    };
  };

  it('has its heat switched on by somebody who stays for the rise, and is warm when people are back', () => {
    let overnight = 0;
    for (let day = 0; day < 7; day++) {
      const { on, off, mix, weekday, hours } = heatOf(6, {}, day);
      expect(on.h).toBeGreaterThanOrEqual(HOURS[0]);
      // Four hours of the rise are attended.
      expect(on.h).toBeLessThanOrEqual(HOURS[1] - 4);
      expect(mix.day).toBe(off.day);
      expect(mix.h).toBeGreaterThanOrEqual(off.h);
      expect(hours).toBeGreaterThanOrEqual(6);
      if (on.day !== off.day) {
        overnight += 1;
        expect(off.h).toBe(HOURS[0]);
        // Not through a weekend, unless the shop allows it.
        expect(weekday).not.toBe(5);
      }
    }
    expect(overnight).toBeGreaterThan(0);
  });

  it('is warmed through a weekend where the shop lets heat run alone', () => {
    const weekdays = [0, 1, 2, 3, 4, 5, 6].map(
      (day) => heatOf(6, { heatAlone: 'weekends' }, day).weekday,
    );
    expect(weekdays).toContain(5);
  });

  it('is a stop where no start keeps the rule, and looser rules are offered', () => {
    const { result, on } = heatOf(12, { heatAlone: 'never' });
    const stop = result.findings.find(({ code }) => code === 'heat-alone')!;
    expect(stop.severity).toBe('stop');
    expect(stop.message).toBe(
      'Warm the mould: its heat runs 12 h, and at every start it would break the shop’s rule for heat that runs alone. ' +
        'Use less heat, change the rule, or have somebody there.',
    );
    expect(on.h).toBeGreaterThanOrEqual(HOURS[0]);
    expect(on.h).toBeLessThanOrEqual(HOURS[1]);
    expect(stageOf(result, 'layup:skin')!.withheld).not.toBeNull();
    // Six hours of a day and the wet work after them do not fit into it either; two and the wet work do.
    const codes = (hours: number) =>
      heatOf(hours, { heatAlone: 'never' }).result.findings.map(({ code }) => code);
    expect(codes(6)).toContain('heat-alone');
    expect(codes(1)).not.toContain('heat-alone');
  });
});

describe('resin', () => {
  it('is put in the warm while somebody is there, over a weekend on the Friday', () => {
    let fridays = 0;
    for (let day = 0; day < 7; day++) {
      const { result, detail } = plan(smallBuild(), library(), NOW + day * 1440, FIRST_ANSWER);
      const warm = stageOf(result, 'resin-warm')!;
      const from = isoToMinute(warm.start!)!;
      expect(isoToMinute(warm.end!)! - from).toBe(24 * 60);
      expect(detail.shopHours.some(({ start, end }) => start <= from && from <= end)).toBe(true);
      if (new Date(from * 60_000).getUTCDay() === 5) fridays += 1;
    }
    expect(fridays).toBeGreaterThan(0);
  });
});

describe('a question', () => {
  const asked = (question: object, more: Partial<Build> = {}): PlanResult =>
    planned({
      ...shaped('single'),
      ...more,
      part: {
        ...shaped('single').part,
        questions: [{ id: 'q', text: 'Q?', ...question } as never],
      },
    });
  const waits = (result: PlanResult): string[] =>
    result.stages
      .filter(({ waitsFor, start }) => (waitsFor ?? []).includes('q') && start !== null)
      .map(({ id }) => id);
  const mill = { id: 'mill', name: 'Mill', kind: 'machining' as const, workingDays: 3 };
  const paint = { id: 'paint', name: 'Paint', workingDays: 3 };

  it('about sizes holds up the machining, outside or in the house, or the mould where there is none', () => {
    const outside = asked({ before: 'machining' }, { outside: [mill] });
    expect(startOf(outside, 'outside:mill') >= endOf(outside, 'sign-off:q')).toBe(true);
    expect(waits(outside)[0]).toBe('outside:mill');
    expect(waits(asked({ before: 'mould' }, { outside: [mill] }))).toContain('outside:mill');
    const house = asked({ before: 'machining' }, { mould: { machinedInHouse: true } });
    expect(waits(house)[0]).toBe('machining');
    expect(waits(asked({ before: 'machining' }))[0]).toBe('mould');
    expect(waits(asked({ before: 'machining' }, { mould: { sealed: true } }))[0]).toBe('cutting');
  });

  it('about colour and bake holds up the order of resin alone', () => {
    const result = asked({ before: 'order', of: 'resin' });
    expect(startOf(result, 'order:resin-merchant') >= endOf(result, 'sign-off:q')).toBe(true);
    expect(waits(result)).toContain('order:resin-merchant');
    expect(waits(result)).not.toContain('order:cloth-merchant');
    expect(startOf(result, 'order:cloth-merchant')).toBe('2027-04-19T08:00+01:00');
  });

  it('of the usual ones is settled before the stage that its answer can spoil', () => {
    const build: Build = {
      ...shaped('single'),
      mould: { machinedInHouse: true },
      outside: [paint],
    };
    const read = readBuild(JSON.stringify(build), library());
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const questions = usualQuestions(read.build);
    const result = planned({ ...build, part: { ...build.part, questions } });
    const spoils: Record<string, string> = {
      'length-and-trim': 'machining',
      'frame-measured': 'machining',
      'features-and-holes': 'machining',
      'stiff-for-paint': 'cutting',
      'colour-and-bake': 'order:resin-merchant',
      'who-carries': 'wrap:paint',
    };
    expect(questions.map(({ id }) => id).sort()).toEqual(Object.keys(spoils).sort());
    for (const [question, stage] of Object.entries(spoils)) {
      expect(
        endOf(result, `sign-off:${question}`) <= startOf(result, stage),
        `${question} before ${stage}`,
      ).toBe(true);
    }
  });

  it('about who carries holds up the first visit, not the machining, or the hand-over', () => {
    const result = asked({ before: 'outside' }, { outside: [mill, paint] });
    expect(waits(result)).toContain('outside:paint');
    expect(waits(result)).not.toContain('outside:mill');
    expect(waits(asked({ before: 'outside' }))).toEqual(['hand-over']);
  });
});

describe('the kit', () => {
  const closeout = { widthMm: 60, plies: [{ cloth: CLOTH, angleDeg: 45 }] };
  const kitOf = (document: Build, rows: Library = library()) =>
    plan(document, rows, NOW, FIRST_ANSWER).detail.kit;
  const amount = (document: Build, id: string, rows?: Library): number =>
    kitOf(document, rows).find((line) => line.id === id)?.quantity ?? 0;
  const edged = shaped('single', { closeout, edgeM: 4 });

  it('holds sealer for a fresh mould, filler for a closed edge, and enough over for one repair', () => {
    // 0.15 kg/m over 4 m.
    expect(amount(edged, 'edge-filler')).toBeCloseTo(0.6, 6);
    expect(amount(shaped('single'), 'edge-filler')).toBe(0);
    expect(amount(edged, 'mould-sealer')).toBeGreaterThan(0);
    expect(amount({ ...edged, mould: { sealed: true } }, 'mould-sealer')).toBe(0);
    const old = ofBefore(library());
    expect(amount(edged, CLOTH) - amount(edged, CLOTH, old)).toBeCloseTo(0.25, 0);
    const resin = (rows: Library) =>
      kitOf(edged, rows)
        .filter(({ group }) => group === 'resin')
        .reduce((sum, { quantity }) => sum + quantity, 0);
    expect(resin(library()) - resin(old)).toBeGreaterThan(0.2);
    expect(resin(library()) - resin(old)).toBeLessThan(0.45);
  });

  it('is ordered in time for what consumes it: edge filler before the edge, sealer before the seal', () => {
    const result = planned(edged);
    expect(startOf(result, 'closeout:closeout') >= endOf(result, 'arrival:bench-supplies')).toBe(
      true,
    );
    expect(startOf(result, 'seal') >= endOf(result, 'arrival:board-merchant')).toBe(true);
  });
});

describe('a build that froze its rows before these were there', () => {
  const old = ofBefore(library());
  const local = [{ cloth: CLOTH, angleDeg: 45, place: 'between' as const, areaM2: 0.2 }];
  const frozen = frozenWith({ ...shaped('single', { local }), route: 'best' }, old);

  it('plans as before, to the minute, and keeps its rows when it is stored again', () => {
    const before = planned(frozen, old);
    const now = planned(frozen);
    const dates = ({ route, stages }: PlanResult) => [
      route.id,
      ...stages.map(({ id, name, start, end }) => [id, name, start, end]),
    ];
    expect(dates(now)).toEqual(dates(before));
    expect(now.stages.map(({ kind }) => kind)).not.toContain('tap-test');
    const again = frozenWith(frozen, library());
    expect(again.library!.labour!.map(({ id }) => id)).toEqual(old.labour.map(({ id }) => id));
  });
});

describe('a surface abraded again', () => {
  const sample = JSON.parse(readFileSync('samples/wren-sound-shell.build.json', 'utf8')) as Build;
  const withWash = (waitHoursAt20C: number): Library => ({
    ...library(),
    consequences: library().consequences.map((row) =>
      row.event === 'bond-window-missed' ? { ...row, waitHoursAt20C } : row,
    ),
  });

  it('is called what is done to it, on a skin and on bare core, and dries before the bond', () => {
    const result = planned(sample, withWash(4));
    const surface = stageOf(result, 'prepare:core')!;
    expect(surface.name).toBe('Strip peel ply, abrade and wipe for core bond');
    expect(stageOf(result, 'prepare:inner')!.name).toBe(
      'Vacuum bare core, abrade and wipe overlaps for inner skin',
    );
    const dries = stageOf(result, 'wait:surface-core')!;
    expect(dries).toMatchObject({ name: 'Abraded surface dries: core bond', kind: 'wait' });
    expect(dries.start! >= surface.end!).toBe(true);
    expect(dries.end! <= startOf(result, 'layup:core')).toBe(true);
    const hours = (isoToMinute(dries.end!)! - isoToMinute(dries.start!)!) / 60;
    // The room is warmer by day than the 20 C that the hours are counted at.
    expect(hours).toBeGreaterThan(3.5);
    expect(hours).toBeLessThan(4);
  });

  const until = (end: string): Build => ({
    ...sample,
    crew: sample.crew!.map((person) => ({
      ...person,
      hours: Object.fromEntries(
        (['mon', 'tue', 'wed', 'thu', 'fri'] as const).map((day) => [
          day,
          [
            ['07:30', '12:00'],
            ['12:30', end],
          ] as [string, string][],
        ]),
      ),
    })),
  });
  const said = (result: PlanResult): string[] =>
    result.findings.filter(({ code }) => code === 'bond-window-missed').map((one) => one.message);

  it('is told by the gel that nobody would see, and by the minutes that somebody would have to stay', () => {
    expect(said(planned(sample))).toEqual([
      'Core bond: with the peel ply stripped first thing on the day of the bond, the first mix would be at 08:11, and after 08:02 nobody would be there for its gel. So it is stripped the day before, and the surface is abraded, washed and wiped. Somebody who stays for the gel, about 9 min longer, makes it one stretch again.',
      'Inner skin: with the bare core vacuumed first thing on the day of the bond, the first mix would be at 08:22, and after 08:02 nobody would be there for its gel. So the core is vacuumed the day before, and its overlaps are abraded and wiped. Somebody who stays for the gel, about 20 min longer, makes it one stretch again.',
    ]);
  });

  it('is stripped and bonded in one stretch of the morning once somebody stays so long', () => {
    expect(said(planned(until('16:30')))).toHaveLength(2);
    const result = planned(until('16:50'));
    expect(said(result)).toEqual([]);
    expect(stageOf(result, 'prepare:core')!.name).toBe('Strip peel ply, clean for core bond');
    expect(startOf(result, 'layup:core')).toBe(endOf(result, 'prepare:core'));
    expect(startOf(result, 'layup:inner')).toBe(endOf(result, 'prepare:inner'));
  });

  it('does not dry where the table says no hours, nor where peel ply is stripped and bonded at once', () => {
    expect(stageOf(planned(sample), 'wait:surface-core')).toBeUndefined();
    const fresh = planned(shaped('single'), withWash(4));
    expect(stageOf(fresh, 'prepare:core')!.name).toBe('Strip peel ply, clean for core bond');
    expect(fresh.stages.filter(({ id }) => id.startsWith('wait:surface'))).toEqual([]);
  });
});
