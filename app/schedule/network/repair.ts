/** Repair after demould: what was marked is mended, and plies that are replaced cure under a bag of their own. */
import { practiceOf } from '../../document/library.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { gear, type NetworkBuilder } from './builder.ts';
import { waitMap } from './wait.ts';

/** @returns what the next work on the part waits for */
export function repaired(net: NetworkBuilder, off: string | null): string | null {
  const { part, library, profile } = net.input;
  const mended = net.labour({
    ref: { what: 'repair' },
    name: STAGE_NAMES.repair(),
    kind: 'repair',
    air: 'dust',
    gear: [gear('bench')],
  });
  net.after(off, mended, 'out-of-mould');
  if (mended === null || !part.repair?.cures) return mended ?? off;
  const hardens = waitMap(library, profile, practiceOf(library)('repair-cure-hours'));
  const cured = net.running(
    { ref: { what: 'wait', for: 'repair' }, name: STAGE_NAMES.repairCures(), kind: 'wait' },
    { kind: 'function', endOf: hardens.apply, latestStart: hardens.latest },
    [gear('pump')],
  );
  net.after(mended, cured, 'repair-cured');
  return cured;
}
