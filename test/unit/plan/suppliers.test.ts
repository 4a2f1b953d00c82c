/** Orders supplier by supplier, and documents of before that know one order of everything. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { freezeRows } from '../../../app/document/library.ts';
import { readBuild } from '../../../app/document/read.ts';
import type { Build, Library, PlanResult } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { shoppingList } from '../../../app/shop/shopping.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const JOINTS = { 'skin-core': 'apart', 'core-inner': 'apart' } as const;
const build = (more: Partial<Build> = {}): Build => ({
  ...smallBuild(),
  route: { joints: JOINTS },
  ...more,
});
const outcomeOf = (document: Build, rows: Library = library()) =>
  plan(document, rows, NOW, FIRST_ANSWER);
const planned = (document: Build, rows?: Library): PlanResult => outcomeOf(document, rows).result;
const stageOf = ({ stages }: PlanResult, id: string) => stages.find((stage) => stage.id === id)!;
const ids = ({ stages }: PlanResult, head: string) =>
  stages.flatMap(({ id }) => (id === head || id.startsWith(`${head}:`) ? [id] : []));

/** The library as it was before rows named who delivers. */
function withoutSuppliers(rows: Library): Library {
  const bare = <T extends object>(list: readonly T[]): T[] =>
    list.map((row) => ({ ...row, supplier: null }));
  return {
    ...rows,
    resins: bare(rows.resins).map((resin) => ({ ...resin, hardeners: bare(resin.hardeners) })),
    cloths: bare(rows.cloths),
    cores: bare(rows.cores),
    consumables: bare(rows.consumables),
    releases: bare(rows.releases),
    moulds: bare(rows.moulds),
  };
}

describe('one delivery for each supplier', () => {
  const result = planned(build());

  it('is ordered, comes in its own working days and is checked', () => {
    expect(ids(result, 'order')).toEqual([
      'order:bench-supplies',
      'order:board-merchant',
      'order:cloth-merchant',
      'order:core-merchant',
      'order:resin-merchant',
    ]);
    // Monday 19 April 2027, 08:00: three working days to Thursday evening.
    expect(stageOf(result, 'order:cloth-merchant')).toMatchObject({
      name: 'Order from cloth merchant, 3 working days',
      start: '2027-04-19T08:00+01:00',
      end: '2027-04-22T17:00+01:00',
    });
    const check = stageOf(result, 'arrival:cloth-merchant');
    expect(check.people).toHaveLength(1);
    expect(check.start).toBe('2027-04-23T07:30+01:00');
  });

  it('holds up what it is needed for and nothing else', () => {
    const late = planned(
      build({ suppliers: [{ id: 'cloth-merchant', name: 'Weft', leadDays: 15 }] }),
    );
    const cloth = stageOf(late, 'arrival:cloth-merchant').end!;
    expect(stageOf(late, 'cutting').start! >= cloth).toBe(true);
    expect(stageOf(late, 'mould').start).toBe(stageOf(result, 'mould').start);
    expect(stageOf(late, 'mould').start! < cloth).toBe(true);
    const board = stageOf(late, 'arrival:board-merchant').end!;
    expect(stageOf(late, 'mould').start! >= board).toBe(true);
  });

  it('is not ordered where everything of it lies in the shop', () => {
    const stock = [{ row: 'pvc-80-10mm', quantity: 50 }];
    expect(ids(planned(build({ stock })), 'order')).not.toContain('order:core-merchant');
  });

  it('is ordered by a working hour, and the shopping list says so', () => {
    const outcome = outcomeOf(build());
    const cloth = shoppingList(outcome).find(({ line }) => line.group === 'cloth')!;
    expect(cloth.orderBy).toBe(
      stageOf(outcome.result, 'order:cloth-merchant').latestStart!.slice(0, 16),
    );
    const hour = cloth.orderBy!.slice(11);
    expect(hour >= '07:30' && hour < '16:30').toBe(true);
  });

  it('passes over holidays of outside parties and the supplier’s own days off', () => {
    const ends = (more: Partial<Build>) =>
      stageOf(planned(build(more)), 'order:cloth-merchant').end!.slice(0, 10);
    const day = { date: '2027-04-21', name: 'Fair Day' };
    expect(ends({ holidays: [{ ...day, for: 'outside' }] })).toBe('2027-04-23');
    expect(ends({ holidays: [{ ...day, for: 'shop' }] })).toBe('2027-04-22');
    const own = { id: 'cloth-merchant', name: 'Weft', off: ['2027-04-21', '2027-04-22'] };
    expect(ends({ suppliers: [own] })).toBe('2027-04-26');
    const kept = { ...day, for: { party: 'cloth-merchant' } };
    expect(ends({ holidays: [kept], suppliers: [{ id: 'cloth-merchant', name: 'Weft' }] })).toBe(
      '2027-04-23',
    );
  });

  it('that never comes is a stop with its way out, and everything still has dates', () => {
    const never = planned(build({ suppliers: [{ id: 'core-merchant', name: 'Kern', hours: {} }] }));
    const stop = never.findings.find(({ code }) => code === 'supplier-closed')!;
    expect(stop).toMatchObject({ severity: 'stop', stage: 'order:core-merchant' });
    expect(stop.message).toContain('enter what lies in the shop as stock');
    expect(never.fits).toBe(false);
    expect(never.stages.filter(({ start }) => start === null)).toEqual([]);
  });
});

describe('a build of before, with one order of everything', () => {
  const read = readBuild(JSON.stringify(build()), library());
  if (!read.ok) throw new Error('not read');
  const old = withoutSuppliers(library());
  const frozen = freezeRows(read.document, read.build, old) as Build;

  it('keeps its one order until it takes rows that name suppliers', () => {
    const before = planned(frozen, old);
    const now = planned(frozen);
    expect(ids(now, 'order')).toEqual(['order']);
    expect(ids(now, 'arrival')).toEqual([]);
    const dates = (result: PlanResult) =>
      result.stages.map(({ id, start, end }) => [id, start, end]);
    expect(dates(now)).toEqual(dates(before));
  });

  it.each([1, 2])(
    'of format %i means the same by its pin, record and link on the order',
    (version) => {
      const named = (more: object): PlanResult => {
        const document = JSON.stringify({ ...build(), formatVersion: version, ...more });
        const again = readBuild(document, library());
        if (!again.ok) throw new Error(JSON.stringify(again.faults));
        return planned(again.document);
      };
      const pinned = named({ pins: [{ stage: 'order', start: '2027-04-21T09:00' }] });
      expect(ids(pinned, 'order').map((id) => stageOf(pinned, id).start)).toEqual(
        Array(5).fill('2027-04-21T09:00+01:00'),
      );
      const record = { stage: 'order', start: '2027-04-12T09:00', end: '2027-04-16T10:00' };
      const recorded = named({ records: [record] });
      for (const id of [...ids(recorded, 'order'), ...ids(recorded, 'arrival')]) {
        expect([id, stageOf(recorded, id).end]).toEqual([id, '2027-04-16T10:00+01:00']);
      }
      expect(stageOf(recorded, 'cutting').start!.slice(0, 10)).toBe('2027-04-19');
      const link = { before: 'order', after: 'trim', minHours: 2000 };
      const linked = named({ links: [link], unveiling: '2027-12-01' });
      const arrived = stageOf(linked, 'arrival:core-merchant').end!;
      const hours = (Date.parse(stageOf(linked, 'trim').start!) - Date.parse(arrived)) / 3_600_000;
      expect(hours).toBeGreaterThanOrEqual(2000);
    },
  );
});
