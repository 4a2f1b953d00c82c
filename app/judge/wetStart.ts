/** Wet work that the plan begins against a rule: by its fixed start, or because no start would keep it. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { BrokenStart } from '../plan/wetWindows.ts';

/** @param broken of the plan, in the order of its cures */
export const wetStartFindings = (zone: string, broken: readonly BrokenStart[]): Finding[] =>
  broken.map((one) => {
    const layups = one.layups.map(({ name }) => name);
    const place = { stage: layupStageId('layup', one.layups[0]!.id) };
    const { mixed } = one;
    if (one.rule === 'bag-down') {
      return finding('bag-late', { layups, mixed, sealed: one.sealed, due: one.due, zone }, place);
    }
    const { pinned, settleMinutes } = one;
    return finding('mix-on-arrival', { layups, mixed, pinned, settleMinutes, zone }, place);
  });
