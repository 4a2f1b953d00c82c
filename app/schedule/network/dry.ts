/** What comes before the first mix of an infusion. */
import { practiceIf } from '../../document/library.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { MINUTES_PER_HOUR } from '../../time/instant.ts';
import type { NetworkBuilder } from './builder.ts';
import type { CureSetup } from './input.ts';

/**
 * Cloth and core laid dry and bagged before an infusion, in as many days as it takes; then the drop test, which
 * holds good only so long.
 * @returns null where cloth is laid wet
 */
export function dryStages(
  net: NetworkBuilder,
  { dry, cure }: CureSetup,
  firstMix: string,
): { readonly laid: string; readonly bagged: string } | null {
  if (!dry) return null;
  const key = cure.layups[0]!.id;
  const laid = net.handsOn({
    ref: { what: 'lay-dry', layup: key },
    name: STAGE_NAMES.layDry(cure.name),
    kind: 'lay-dry',
    cure: cure.id,
    // Loose cloth wants the air that wet cloth wants.
    air: 'wet',
    ...dry,
  });
  const tested = net.labour(
    {
      ref: { what: 'drop-test', layup: key },
      name: STAGE_NAMES.dropTest(cure.name),
      kind: 'drop-test',
      cure: cure.id,
      unbroken: true,
      perishable: true,
    },
    cure.layups,
  );
  net.after(laid, tested ?? firstMix, 'bagged-dry');
  if (tested === null) return { laid, bagged: firstMix };
  net.after(tested, firstMix, 'drop-tested');
  const keeps = practiceIf(net.input.library, 'drop-test-keeps-hours');
  if (keeps !== null) {
    net.within(tested, firstMix, Math.round(keeps * MINUTES_PER_HOUR), 'drop-test-keeps');
  }
  return { laid, bagged: tested };
}
