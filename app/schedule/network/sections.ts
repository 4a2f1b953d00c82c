/** The bare mould of a later section of the outer skin, released again after the cure before it. */
import { releaseOf } from '../../document/library.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { coatAgainMinutes } from '../../part/sectionWork.ts';
import { MINUTES_PER_HOUR } from '../../time/instant.ts';
import type { NetworkBuilder } from './builder.ts';
import type { CureStages } from './cures.ts';

/**
 * One coat, while peel ply still covers the joint, so that no release comes on what is bonded.
 * @param ready the bag of the section before is off
 * @returns the last stage before the joint is stripped
 */
export function coatedAgain(net: NetworkBuilder, ready: string, { setup, firstLayup }: CureStages) {
  const { build, library } = net.input;
  const [layup] = setup.cure.layups;
  const minutes = coatAgainMinutes(layup!, build, library);
  if (minutes <= 0) return ready;
  const row = releaseOf(library, build.mould.release);
  const coat = net.handsOn({
    ref: { what: 'release', layup: layup!.id },
    name: STAGE_NAMES.releaseAgain(layup!.name),
    kind: 'release',
    cure: setup.cure.id,
    personMinutes: minutes,
    air: 'release',
    perishable: true,
  });
  net.after(ready, coat, 'bag-off');
  net.after(coat, firstLayup, 'coat-settles', row.lastWaitMinutes);
  net.within(coat, firstLayup, Math.round(row.keepsHours * MINUTES_PER_HOUR), 'coat-keeps');
  return coat;
}
