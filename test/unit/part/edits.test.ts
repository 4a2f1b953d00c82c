import { describe, expect, it } from 'vitest';
import { assume } from '../../../app/document/assume.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER, type PlanOutcome } from '../../../app/plan/outcome.ts';
import { lighterOptions } from '../../../app/part/lighter.ts';
import { measurePart } from '../../../app/part/measure.ts';
import { measureMesh } from '../../../app/part/mesh/measure.ts';
import { readMesh } from '../../../app/part/mesh/read.ts';
import { shapeReach } from '../../../app/part/shapes.ts';
import { plan } from '../../../app/answer/plan.ts';
import { shoppingList } from '../../../app/shop/shopping.ts';
import { hoursByRow } from '../../../app/plan/hoursByRow.ts';
import { applyLighterOption } from '../../../app/part/lighter-edit.ts';
import { setAreaFromMesh } from '../../../app/part/mesh/mesh-edit.ts';
import { putLabour, setFinishing, setLabour } from '../../../app/part/rate-edit.ts';
import { learned } from '../../../app/plan/learnedRates.ts';
import { setAreaFromShape } from '../../../app/part/shape-edit.ts';
import { putStock } from '../../../app/shop/stockEdit.ts';
import type { Draft } from '../../../app/document/edit/path.ts';
import canopy from '../../../samples/low-water-canopy.build.json' with { type: 'json' };
import { library } from '../../library.ts';
import { binaryStl, type Triangle } from './mesh-files.ts';

const sample = canopy as unknown as Draft;
const NOW = Math.floor(Date.parse('2027-04-12T06:00Z') / 60_000);
const planned = (document: Draft): PlanOutcome =>
  plan(document as Build, library, NOW, FIRST_ANSWER);
const before = planned(sample);

describe('stock', () => {
  const { line } = shoppingList(before)[0]!;

  it('comes off what is to order, and is one entry a line however often it is typed', () => {
    const once = putStock(sample, line, 1).document;
    const twice = putStock(once, line, 2).document;
    expect(twice.stock).toEqual([{ row: line.id, quantity: 2 }]);
    const order = shoppingList(planned(twice)).find((one) => one.line.id === line.id)!;
    expect(order.inStock).toBe(2);
    expect(order.toOrder).toBeGreaterThanOrEqual(line.quantity - 2 - 1e-9);
    expect(order.toOrder).toBeLessThan(line.quantity);
  });

  it('that is emptied leaves nothing behind', () => {
    const put = putStock(sample, line, 3).document;
    expect(putStock(put, line, null).document.stock).toEqual([]);
    expect(sample.stock ?? []).toEqual([]);
  });
});

describe('rates', () => {
  it('set by the shop change hours and plan of this build, and keep the order of the table', () => {
    const joints = before.result.routes.find(({ id }) => id === before.result.route.id)!.joints;
    const { document } = setLabour(sample, library, 'layup-core', 'setupMinutes', 400);
    const after = planned({ ...document, route: { joints } });
    expect(after.result.totals.labourHours).toBeGreaterThan(before.result.totals.labourHours);
    const ids = after.detail.library.labour.map((row) => row.id);
    expect(ids).toEqual(library.labour.map((row) => row.id));
    const row = after.detail.library.labour.find(({ id }) => id === 'layup-core')!;
    expect(row).toMatchObject({ revision: 2, provenance: { kind: 'measured' } });
    // The rows of other layups are as they were.
    const minutes = (outcome: PlanOutcome, id: string): number =>
      hoursByRow(outcome).find((one) => one.id === id)!.personMinutes;
    expect(minutes(after, 'layup')).toBe(minutes(before, 'layup'));
    expect(minutes(after, 'layup-core')).toBeGreaterThan(minutes(before, 'layup-core'));
  });

  it('can be taken back to the library’s', () => {
    const changed = setLabour(sample, library, 'trim', 'minutesPerEdgeM', 99).document;
    const shipped = library.labour.find(({ id }) => id === 'trim')!;
    const back = planned(putLabour(changed, library, shipped, 'as in the library').document);
    expect(hoursByRow(back)).toEqual(hoursByRow(before));
  });

  it('of a finishing round count as well', () => {
    const round = hoursByRow(before).find((row) => row.table === 'finishing')!;
    const { document } = setFinishing(sample, library, round.id, 'setupMinutes', 300);
    const after = hoursByRow(planned(document)).find(({ id }) => id === round.id)!;
    expect(after.personMinutes).toBeGreaterThan(round.personMinutes);
  });

  it('account for every hour of the plan', () => {
    const rows = hoursByRow(before);
    const minutes = rows.reduce((sum, row) => sum + row.personMinutes, 0);
    expect(Math.round((minutes / 60) * 10) / 10).toBe(before.result.totals.labourHours);
    const wet = rows
      .filter((row) => row.table !== 'none' && row.kind === 'layup')
      .reduce((sum, row) => sum + row.personMinutes, 0);
    // The batches of the plan are mixed as well as laid.
    expect(wet).toBeGreaterThanOrEqual(before.detail.part.workFor('layup').personMinutes);
  });

  it('learn from what the floor wrote down', () => {
    const stage = before.result.stages.find(({ kind }) => kind === 'cutting')!;
    const day = stage.start!.slice(0, 10);
    const record = { stage: stage.id, start: `${day}T08:00`, end: `${day}T09:00` };
    const rates = learned(planned({ ...sample, records: [record] }));
    expect([...rates.keys()]).toEqual(['cutting']);
    expect(rates.get('cutting')!.factor).toBeLessThan(1);
    expect(learned(before).size).toBe(0);
  });

  it('count the same records once, and those of another build beside them', () => {
    const stage = before.result.stages.find(({ kind }) => kind === 'cutting')!;
    const day = stage.start!.slice(0, 10);
    const record = { stage: stage.id, start: `${day}T08:00`, end: `${day}T09:00` };
    const recorded = { ...sample, records: [record] };
    const taken = (document: typeof recorded) => {
      const outcome = planned(document);
      const rate = learned(outcome).get('cutting')!;
      const change = putLabour(document, outcome.detail.library, rate.row, 'as recorded');
      return { rate, document: { ...document, library: change.document.library } };
    };
    const first = taken(recorded);
    const again = taken(first.document);
    expect(again.rate.row).toEqual(first.rate.row);
    expect(again.rate.factor).toBe(1);
    const other = taken({ ...first.document, id: 'another-build' });
    expect(other.rate.row.setupMinutes).toBeLessThan(first.rate.row.setupMinutes);
    expect(other.rate.row.provenance.source).toContain('2 of');
    const back = taken({ ...other.document, id: recorded.id ?? 'build' });
    expect(back.rate.row).toEqual(other.rate.row);
  });
});

describe('a lighter option', () => {
  it('taken writes what it changes and nothing else, and weighs what it said', () => {
    const { build } = assume(sample as Build);
    for (const option of lighterOptions(build, library, 4, 20)) {
      const change = applyLighterOption(sample, build.part.zones, option);
      if (option.build === null) {
        expect(change).toBeNull();
        continue;
      }
      const { build: after } = assume(change!.document as Build);
      expect(after.part.zones).toEqual(option.build.part.zones);
      expect(
        measurePart(after, library).countedMassKg - before.detail.part.countedMassKg,
      ).toBeCloseTo(option.massKg, 9);
      expect({ ...change!.document, part: null }).toEqual({ ...sample, part: null });
    }
  });
});

describe('a lighter core', () => {
  it('leaves a treatment assumed that nobody typed', () => {
    const { build } = assume(sample as Build);
    const thinner = lighterOptions(build, library, 4, 20).find(({ id }) => id === 'core-thinner')!;
    const { document } = applyLighterOption(sample, build.part.zones, thinner)!;
    expect(sample.part!.zones![1]!.core).not.toHaveProperty('treatment');
    expect(document.part!.zones![1]!.core).not.toHaveProperty('treatment');
    expect(document.part!.zones![1]!.core!.thicknessMm).toBeLessThan(10);
  });
});

describe('a zone’s area', () => {
  // A sheet of 2000 x 500, open all round, in the unit of its file.
  const sheet: Triangle[] = [
    [
      [0, 0, 0],
      [2000, 0, 0],
      [2000, 500, 0],
    ],
    [
      [0, 0, 0],
      [2000, 500, 0],
      [0, 500, 0],
    ],
  ];

  it('from a mesh takes area, edge and shape in the confirmed unit', () => {
    const measure = measureMesh(readMesh('sheet.stl', binaryStl(sheet)));
    const { document, label } = setAreaFromMesh(sample, 1, measure, 'mm', 'Left wing');
    expect(document.part!.zones![1]).toMatchObject({ areaM2: 1, edgeM: 5, shape: 'flat' });
    expect(document.part!.zones![1]!.sizeM).toBeUndefined();
    expect(document.part!.zones![0]).toBe(sample.part!.zones![0]);
    expect(label).toContain('Left wing: 1 m²');
    expect(setAreaFromMesh(sample, 1, measure, 'in', 'x').document.part!.zones![1]!.areaM2).toBe(
      645.2,
    );
  });

  it('from length and girth keeps both for cutting and stiffness', () => {
    const shape = { kind: 'rectangle', lengthM: 1.9, girthM: 1.3 } as const;
    const { document } = setAreaFromShape(sample, 0, shape, shapeReach(shape)!, 'Crown');
    expect(document.part!.zones![0]).toMatchObject({ areaM2: 2.47, edgeM: 6.4, sizeM: [1.9, 1.3] });
    const disc = { kind: 'disc', diameterM: 1 } as const;
    const round = setAreaFromShape(document, 0, disc, shapeReach(disc)!, 'Crown').document;
    expect(round.part!.zones![0]!.sizeM).toBeUndefined();
  });
});
