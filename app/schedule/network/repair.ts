/** Repair after demould: what was marked is mended, and plies that are replaced cure under a bag of their own. */
import { practiceOf } from '../../document/library.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { MINUTES_PER_HOUR } from '../../time/instant.ts';
import { gear, type NetworkBuilder } from './builder.ts';
import { cureStages } from './cures.ts';

/** @returns what the next work on the part waits for */
export function repaired(net: NetworkBuilder, off: string | null): string | null {
  const setup = net.input.cures.find(({ cure }) => cure.place === 'after-demould');
  const mended = net.labour({
    ref: { what: 'repair' },
    name: STAGE_NAMES.repair(setup !== undefined),
    kind: 'repair',
    air: 'dust',
    gear: [gear('bench')],
  });
  net.after(off, mended, 'out-of-mould');
  if (!setup) return mended ?? off;
  const patch = cureStages(net, setup);
  net.after(mended ?? off, patch.firstLayup, 'marks-ground');
  const keeps = practiceOf(net.input.library)('abraded-keeps-hours') * MINUTES_PER_HOUR;
  net.within(mended, patch.firstLayup, keeps, 'abraded-keeps');
  return patch.bagOff;
}
