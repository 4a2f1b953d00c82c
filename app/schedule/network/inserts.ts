/** Inserts of solid laminate: a layup with a bag of its own on a flat beside the chain, then let into the core. */
import { STAGE_NAMES } from '../../messages/stages.ts';
import { insertCount } from '../../part/inserts.ts';
import { gear, milestoneMap, type NetworkBuilder } from './builder.ts';
import { cureStages } from './cures.ts';

interface Ready {
  readonly order: string | null;
  readonly cutting: string | null;
  readonly warm: string;
  readonly coreFit: string | null;
}

/** @returns the stage that the core bond waits for; null where nothing is let in */
export function insertStages(net: NetworkBuilder, ready: Ready): string | null {
  const setup = net.input.cures.find(({ cure }) => cure.place === 'beside');
  if (!setup) return null;
  const laid = cureStages(net, setup);
  net.after(ready.order, laid.firstLayup, 'cloth-arrived');
  net.after(ready.cutting, laid.firstLayup, 'plies-cut');
  net.after(ready.warm, laid.firstLayup, 'resin-warm');
  const fitted = net.labour({
    ref: { what: 'inserts-fit' },
    name: STAGE_NAMES.insertsFit(insertCount(net.input.build)),
    kind: 'inserts',
    air: 'dust',
    gear: [gear('bench')],
  });
  net.after(laid.bagOff, fitted, 'inserts-cured');
  const sand = milestoneMap(setup.clock, 'sand');
  net.relate('at-least', 'start', laid.cure, fitted, sand, 'fit-for-cutting');
  net.after(ready.coreFit, fitted, 'core-fitted');
  return fitted ?? laid.bagOff;
}
