/** What the floor needs of the machine: that it stays awake, and that it calls out. */
import { StoreRefusal } from '../store/errors.ts';
import type { Handler } from './types.ts';

export const keepAwake: Handler<'keep-awake'> = (session, { on }) => {
  session.floor.awake = on;
  if (session.keepAwake === null) {
    throw new StoreRefusal('not-here', 'The browser keeps its own screen awake.');
  }
  session.keepAwake(on);
  return { on };
};

export const alarmsSet: Handler<'alarms-set'> = (session, { alarms }) => {
  session.floor.alarmsMs = alarms.map(({ at }) => Date.parse(at));
  if (session.setAlarms === null) {
    throw new StoreRefusal('not-here', 'The browser shows its own notifications.');
  }
  session.setAlarms(alarms);
  return { set: alarms.length };
};

/** A page that is open says so once a minute. */
export const pageHere: Handler<'page-here'> = () => ({});
