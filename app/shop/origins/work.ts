/** How a row of work comes to its hours. */
import { mouldOf, releaseOf } from '../../document/library.ts';
import type { StageKind } from '../../document/schema.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { layupRow } from '../../part/layups.ts';
import type { HoursRow } from '../../plan/hoursByRow.ts';
import { explainWork } from '../../part/derivations.ts';
import { otherTrades } from '../../part/otherTrades.ts';
import { labourById } from '../../part/labour.ts';
import { provenanceWords, type Origin } from './origin.ts';
import { originOf } from './origin.ts';
import { workHoursWords } from '../../units/summed.ts';
import { figure, exact } from '../../units/words.ts';

/** Coats of sealer and release are rows of the mould and of the release. */
function coatRows(kind: StageKind, { build, library }: PlanOutcome['detail']): Origin['rows'] {
  if (kind === 'seal') {
    const { name, sealCoats, sealMinutesPerM2, provenance } = mouldOf(
      library,
      build.mould.material,
    );
    const value = `${sealCoats} coats × ${exact(sealMinutesPerM2)} min/m² of mould`;
    return [{ name, value, from: provenanceWords(provenance) }];
  }
  if (kind === 'release') {
    const { name, coats, minutesPerM2, provenance } = releaseOf(library, build.mould.release);
    const value = `${coats} coats × ${exact(minutesPerM2)} min/m² of mould`;
    return [{ name, value, from: provenanceWords(provenance) }];
  }
  return [];
}

/** Published bands of other trades beside the shop's own row. */
const tradeRows = (id: string, { part, build, library }: PlanOutcome['detail']): Origin['rows'] =>
  otherTrades(id, part, build, library).map(({ trade, hours: [least, most], source }) => ({
    name: `Other trades: ${trade}`,
    value: least === most ? `${figure(least)} h` : `${figure(least)} to ${figure(most)} h`,
    from: `${source}; not this trade, a band and no target`,
  }));

const growthRow = (exponent: number): Origin['rows'][number] => ({
  name: 'Ply doubled in area',
  value: `× ${figure(2 ** exponent)}`,
  from: 'Northrop, AFFDL-TR-76-87 (1976), as quoted: dry plies, not this trade',
});

/** How a row comes to its hours. */
export function workOrigin({ detail }: PlanOutcome, row: HoursRow): Origin {
  const { part, build, library } = detail;
  if (row.table === 'none') {
    const value = workHoursWords(row.personMinutes / 60);
    return {
      formula: 'Counted once for this route.',
      rows: [{ name: row.name, value }],
      source: row.from,
    };
  }
  if (row.table === 'finishing') {
    const from = provenanceWords(row.row.provenance);
    return {
      formula:
        'person-minutes = (set-up + per m² × area, curved areas counted for more) × familiarity',
      rows: [
        { name: 'Set-up', value: `${exact(row.row.setupMinutes)} min`, from },
        { name: 'Per square metre', value: `${exact(row.row.minutesPerM2)} min/m²`, from },
        { name: 'Area', value: `${figure(part.areaM2)} m²`, from: 'typed' },
      ],
      source: from,
    };
  }
  const origin = originOf(explainWork(row.kind, build, library, part));
  const trades = tradeRows(row.id, detail);
  if (row.kind !== 'layup')
    return { ...origin, rows: [...coatRows(row.kind, detail), ...origin.rows, ...trades] };
  // Each layup has a row and an area of its own.
  const labour = labourById(library, row.id);
  const from = provenanceWords(labour.provenance);
  return {
    ...origin,
    rows: [
      { name: 'Set-up', value: `${figure(labour.setupMinutes)} min`, from },
      { name: 'Per square metre', value: `${figure(labour.minutesPerM2)} min/m²`, from },
      { name: 'Per square metre of ply', value: `${figure(labour.minutesPerPlyM2)} min/m²`, from },
      { name: 'Per metre of edge', value: `${figure(labour.minutesPerEdgeM)} min/m`, from },
      ...(labour.plyExponent < 1 ? [growthRow(labour.plyExponent)] : []),
      ...part.layups
        .filter((layup) => layupRow(layup.id) === row.id)
        .map((layup) => ({
          name: layup.name,
          value: `${figure(layup.areaM2)} m², ply ${figure(layup.plyAreaM2)} m², edge ${figure(layup.edgeM)} m`,
          from: `= ${figure(layup.personMinutes)} min`,
        })),
      ...trades,
    ],
    source: from,
  };
}
