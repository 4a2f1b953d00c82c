/** A rim potted solid: level on a released flat, behind a dam, in lifts that each cool, with a night of its own. */
import { practiceOf } from '../../document/library.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { rimLifts } from '../../part/inserts.ts';
import { gear, type NetworkBuilder } from './builder.ts';
import { waitMap } from './wait.ts';

/** @returns what the next work on the edge waits for */
export function pottedRim(net: NetworkBuilder, ready: string | null): string | null {
  const { build, library, part, profile } = net.input;
  const rim = build.part.edge?.rim ?? null;
  const work = part.workFor('rim');
  if (rim === null || work.personMinutes <= 0) return ready;
  const practice = practiceOf(library);
  const lifts = rimLifts(rim.depthMm, library);
  const rebate = net.labour({
    ref: { what: 'closeout', layup: 'closeout' },
    name: STAGE_NAMES.rebate(),
    kind: 'closeout',
    air: 'dust',
    personMinutes: rebateMinutes(net),
  });
  net.after(ready, rebate, 'trimmed');
  let last = rebate ?? ready;
  for (let lift = 1; lift <= lifts; lift++) {
    const poured = net.handsOn({
      ...work,
      ref: { what: 'rim', number: lift },
      name: STAGE_NAMES.rim(lift, lifts),
      kind: 'rim',
      personMinutes: lift === 1 ? work.personMinutes : work.personMinutes * LATER_LIFT,
      air: 'wet',
      inOneGo: true,
      gear: [gear('bench')],
    });
    net.after(last, poured, lift === 1 ? 'edge-rebated' : 'rim-cooled');
    const hours = practice(lift === lifts ? 'rim-hours' : 'rim-lift-hours');
    const hardens = waitMap(library, profile, hours);
    last = net.running(
      {
        ref: { what: 'wait', for: `rim-${lift}` },
        name: STAGE_NAMES.rimCools(lift === lifts),
        kind: 'wait',
      },
      { kind: 'function', endOf: hardens.apply, latestStart: hardens.latest },
      [gear('bench')],
    );
    net.after(poured, last, 'rim-hard');
  }
  const flush = net.handsOn({
    ref: { what: 'fair', round: 'rim' },
    name: STAGE_NAMES.sandRim(),
    kind: 'fair',
    personMinutes: Math.max(1, practice('edge-sand-minutes-per-m') * part.edgeM),
    peopleMax: 2,
    air: 'dust',
  });
  net.after(last, flush, 'rim-hard');
  return flush;
}

/** The row of an edge holds its filling as well, which a potted rim has not. */
function rebateMinutes({ input: { part, library } }: NetworkBuilder): number {
  const fill = library.labour.find(({ stage }) => stage === 'edge-fill');
  const filling = fill ? fill.setupMinutes + fill.minutesPerEdgeM * part.edgeM : 0;
  return Math.max(1, part.workFor('closeout').personMinutes - filling);
}

/** A lift after the first needs no dam and no levelling. */
const LATER_LIFT = 0.4;
