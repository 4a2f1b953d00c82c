/** The stages as a table for a spreadsheet (RFC 4180). */
import type { PlanOutcome } from '../plan/outcome.ts';
import type { StageResult } from '../document/schema.ts';
import { mixDestination, scaleReadings } from './mixes.ts';
import { sheetDataOf, type SheetData } from './sheetData.ts';

interface Column {
  readonly name: string;
  readonly value: (stage: StageResult, facts: SheetData) => string | number | null;
}

/** Wall-clock time without offset, which spreadsheets read as a date; the zone is in the header. */
const wall = (iso: string | null): string | null =>
  iso === null ? null : `${iso.slice(0, 10)} ${iso.slice(11, 16)}`;

/** Tells the two passes of an hour apart that the clock shows twice. */
const offsetMinutes = (iso: string | null): number | null =>
  iso === null
    ? null
    : (iso[16] === '-' ? -1 : 1) * (Number(iso.slice(17, 19)) * 60 + Number(iso.slice(20, 22)));

const columnsFor = (zone: string): readonly Column[] => [
  { name: 'stage', value: (stage) => stage.id },
  { name: 'name', value: (stage) => stage.name },
  { name: 'kind', value: (stage) => stage.kind },
  { name: 'cure', value: (stage) => stage.cure },
  { name: `start (${zone})`, value: (stage) => wall(stage.start) },
  { name: `end (${zone})`, value: (stage) => wall(stage.end) },
  { name: 'UTC offset at start (min)', value: (stage) => offsetMinutes(stage.start) },
  { name: `earliest start (${zone})`, value: (stage) => wall(stage.earliestStart) },
  { name: `latest start (${zone})`, value: (stage) => wall(stage.latestStart) },
  { name: `latest end (${zone})`, value: (stage) => wall(stage.latestEnd) },
  { name: 'float (h)', value: (stage) => stage.floatHours },
  { name: 'critical', value: (stage) => (stage.critical ? 'yes' : 'no') },
  { name: 'people', value: (stage, facts) => facts.personNames(stage.people) },
  { name: 'gear', value: (stage, facts) => facts.gearNames(stage.gear) },
];

/** One line for every stage, placed or not, in the order of the result; CRLF line ends. */
export function stagesCsv(outcome: PlanOutcome): string {
  const facts = sheetDataOf(outcome);
  const columns = columnsFor(facts.zone);
  const lines = [
    columns.map((column) => cell(column.name)),
    ...facts.result.stages.map((stage) =>
      columns.map((column) => cell(column.value(stage, facts))),
    ),
  ];
  return lines.map((cells) => `${cells.join(',')}\r\n`).join('');
}

/** One line for every batch of every cure: when, what the scale reads as on its card, where it goes. */
export function batchesCsv(outcome: PlanOutcome): string {
  const facts = sheetDataOf(outcome);
  const tolerance = facts.practice('mix-tolerance-share');
  const head = [
    'cure',
    'name',
    'batch',
    `mix at (${facts.zone})`,
    `use by (${facts.zone})`,
    'UTC offset at mix (min)',
    'resin (g)',
    'hardener (g)',
    'scale reads after hardener (g)',
    'lowest (g)',
    'highest (g)',
    'pot life (min)',
    'peak in the cup (C)',
    'goes on',
    'not to be built',
  ];
  const rows = facts.cures.flatMap((cure) =>
    cure.mixes.map((mix, i) => {
      const read = scaleReadings(mix, tolerance);
      return [
        cure.id,
        cure.name,
        mix.batch,
        wall(mix.mixAt),
        wall(mix.useBy),
        offsetMinutes(mix.mixAt),
        read.resinG,
        read.hardenerG,
        read.cumulativeG,
        read.lowestG,
        read.highestG,
        mix.potLifeMin === null ? null : Math.floor(mix.potLifeMin),
        mix.peakC === null ? null : Math.round(mix.peakC),
        mixDestination(cure.layups, cure.mixes, i),
        cure.withheld.join(' '),
      ];
    }),
  );
  return [head, ...rows].map((cells) => `${cells.map(cell).join(',')}\r\n`).join('');
}

/**
 * One cell: text that a spreadsheet would run as a formula, its wide signs of East Asian type too, gets an
 * apostrophe in front; quotes are doubled. Numbers stay numbers, negative ones too.
 */
export function cell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const guarded = /^[=+\-@\uff1d\uff0b\uff0d\uff20\t\r\n]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}
