/** The thickest lift of filler or potting in words. */
import type { LargestLift } from '../../app/cure/stack.ts';
import { formatBoth } from '../../app/units/convert.ts';

/** `up to 12 mm (0.472 in)` */
export function liftWords({ unlimited, liftMm }: LargestLift): string {
  if (unlimited) return `${liftMm} mm and more`;
  return liftMm === 0 ? 'not even half a millimetre' : `up to ${formatBoth(liftMm, 'lengthMm')}`;
}
