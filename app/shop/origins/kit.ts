/** How a line of the kit comes to its quantity, for the slip that opens from it. */
import { zonesFinished } from '../../document/finish.ts';
import type { PartZone } from '../../document/schema.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import type { KitLine } from '../../part/types.ts';
import { processOf } from '../../part/process.ts';
import { bothWords, quantityWords } from '../plyBook.ts';
import { provenanceWords, type Origin, type OriginRow } from './origin.ts';
import { money, plural } from '../../units/words.ts';
import { practiceOrigin } from './origin.ts';
import { figure } from '../../units/words.ts';

const total = (zones: readonly PartZone[], size: 'areaM2' | 'edgeM'): number =>
  zones.reduce((sum, zone) => sum + zone[size], 0);

/** How a line of the kit comes to its quantity. */
export function kitOrigin({ result, detail }: PlanOutcome, line: KitLine): Origin {
  const bags = result.route.cures.length;
  const batches = Object.values(detail.batches).reduce((sum, list) => sum + list.length, 0);
  const { build, library } = detail;
  const bought = line.detail === undefined ? [] : [{ name: 'Bought as', value: line.detail }];
  if (line.group === 'consumable') {
    const row = library.consumables.find(({ id }) => id === line.id);
    if (row) {
      const from = provenanceWords(row.provenance);
      const zones = zonesFinished(build, row.finishes);
      const [areaM2, edgeM] = [total(zones, 'areaM2'), total(zones, 'edgeM')];
      const rate = (name: string, value: number, unit: string): OriginRow[] =>
        value > 0 ? [{ name, value: `${value} ${unit}`, from }] : [];
      return {
        formula: row.everyBag
          ? 'Rate × area and edge under every bag, added up over the bags, rounded up.'
          : 'Rate × area and edge of the part, plus what every batch takes, rounded up.',
        rows: [
          ...rate('Per square metre', row.perM2, `${row.unit}/m²`),
          ...rate('Per metre of edge', row.perEdgeM, `${row.unit}/m`),
          ...rate('Per batch', row.perBatch, row.unit),
          ...rate(row.everyBag ? 'Every bag' : 'In all', row.fixed, row.unit),
          { name: 'Area and edge', value: `${figure(areaM2)} m², ${figure(edgeM)} m` },
          { name: 'Bags and batches', value: `${bags} and ${batches}`, from: 'chosen route' },
        ],
        source: from,
      };
    }
  }
  const basis: Readonly<Record<typeof line.group, readonly [string, string]>> = {
    cloth: [
      'Every ply with its run past the trim line and overlaps, nested on the roll width; bias strips in lanes.',
      'Shelf packing on the roll, first fit by falling length: Coffman and others (1980), from memory.',
    ],
    core: [
      'Area of the zones with this core plus waste, in whole sheets.',
      'Sheet size: row of the library.',
    ],
    resin: [
      'Resin in plies, trimmings and core, what the bag bleeds or mesh and lines hold, and what cups or bucket keep; divided by the mixing ratio.',
      'Ratio: data sheet row of the hardener. Losses: common practice.',
    ],
    release: ['Mould surface: the part and the flange for the bag.', 'Common practice, no source.'],
    mould: ['Mould surface: the part and the flange for the bag.', 'Common practice, no source.'],
    consumable: ['', ''],
  };
  const [formula, source] = basis[line.group];
  const losses =
    line.group === 'resin'
      ? (processOf(build) === 'infused'
          ? ['infusion-mesh-resin-g-m2', 'infusion-left-share']
          : ['bleed-g-m2', 'cup-loss-share']
        ).map((id) => practiceOrigin(library, id))
      : line.group === 'core'
        ? [practiceOrigin(library, 'core-waste-share')]
        : line.group === 'cloth'
          ? [practiceOrigin(library, 'ply-excess-mm'), practiceOrigin(library, 'ply-overlap-mm')]
          : [practiceOrigin(library, 'flange-mm')];
  return {
    formula,
    rows: [
      { name: 'Needed', value: bothWords(line.quantity, line.unit) },
      ...bought,
      { name: 'Smallest step', value: quantityWords(line.step, line.unit) },
      ...losses,
      {
        name: 'Price of all of it',
        value: line.costMinor === null ? 'no price' : money(line.costMinor, build.currency),
        from: provenanceWords(line.provenance),
      },
      {
        name: 'Lead time',
        value: line.leadDays === null ? 'not known' : plural(line.leadDays, 'day'),
        from: provenanceWords(line.provenance),
      },
    ],
    source,
  };
}
