/** Inserts of solid laminate: laid on a flat beside the chain, cured, cut and let into the core. */
import { practiceOf } from '../../document/library.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { insertCount } from '../../part/inserts.ts';
import { gear, type NetworkBuilder } from './builder.ts';
import { waitMap } from './wait.ts';

/** @returns the stage that the core bond waits for; null where nothing is let in */
export function insertStages(
  net: NetworkBuilder,
  order: string | null,
  coreFit: string | null,
): string | null {
  const { build, library, part, profile } = net.input;
  const count = insertCount(build);
  const work = part.workFor('inserts');
  if (count === 0 || work.personMinutes <= 0) return null;
  const laid = net.labour({
    ref: { what: 'inserts' },
    name: STAGE_NAMES.inserts(count),
    kind: 'inserts',
    air: 'wet',
    gear: [gear('bench')],
  });
  net.after(order, laid, 'cloth-arrived');
  const hardens = waitMap(library, profile, practiceOf(library)('insert-cure-hours'));
  const cured = net.running(
    { ref: { what: 'wait', for: 'inserts' }, name: STAGE_NAMES.insertsCure(), kind: 'wait' },
    { kind: 'function', endOf: hardens.apply, latestStart: hardens.latest },
    [gear('pump')],
  );
  net.after(laid, cured, 'cure-from-sealed-bag');
  const fitted = net.handsOn({
    ...work,
    ref: { what: 'inserts-fit' },
    name: STAGE_NAMES.insertsFit(count),
    kind: 'inserts',
    personMinutes: count * practiceOf(library)('insert-fit-minutes'),
    air: 'dust',
  });
  net.after(cured, fitted, 'inserts-cured');
  net.after(coreFit, fitted, 'core-fitted');
  return fitted;
}
