/** Keeps the machine and its screen awake while a cure's clock runs. */
import type { PowerSaveBlocker } from 'electron';

type Blocker = Pick<PowerSaveBlocker, 'start' | 'stop'>;

/** One block at a time, however often it is asked for. */
export function keeperAwake(blocker: Blocker): (on: boolean) => void {
  let block: number | null = null;
  return (on) => {
    if (on) block ??= blocker.start('prevent-display-sleep');
    else if (block !== null) {
      blocker.stop(block);
      block = null;
    }
  };
}
