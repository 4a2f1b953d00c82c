/** The stages of one cure: surface, wet work, watched vacuum, cure, bag-off. */
import { practiceOf } from '../../document/library.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { stretchesOf } from '../../route/routes.ts';
import type { Length } from '../problem.ts';
import { gear, laterBy, milestoneMap, type NetworkBuilder } from './builder.ts';
import { tentOver } from './heat.ts';
import type { CureSetup } from './input.ts';

/** Ids of the stages to which the stages before and after a cure are linked. */
export interface CureStages {
  readonly setup: CureSetup;
  readonly firstLayup: string;
  readonly lastLayup: string;
  readonly cure: string;
  readonly bagOff: string;
}

/**
 * Adds the wet work, the watched vacuum, the cure and the bag-off of one bag. Their ids derive from
 * its first layup, so that pins survive replanning and merging.
 */
export function cureStages(net: NetworkBuilder, setup: CureSetup): CureStages {
  const layups = wetWork(net, setup);
  const lastLayup = layups.at(-1)!;
  const { cure } = setup;
  const key = cure.layups[0]!.id;
  const practice = practiceOf(net.input.library);
  const watch = net.handsOn({
    ref: { what: 'watched-vacuum', layup: key },
    name: STAGE_NAMES.watchedVacuum(cure.name),
    kind: 'watched-vacuum',
    cure: cure.id,
    personMinutes: practice('watch-minutes'),
    unbroken: true,
  });
  net.straightAfter(lastLayup, watch, 'bag-watched');
  const curing = net.running(
    {
      ref: { what: 'cure', layup: key },
      name: STAGE_NAMES.cure(cure.name),
      kind: 'cure',
      cure: cure.id,
    },
    cureLength(setup),
    [
      gear('pump'),
      ...(cure.place === 'chain' ? [gear('mould')] : []),
      ...(setup.heatMinutes && !net.tentIsShared ? [gear('tent')] : []),
    ],
    setup.heatStarts ?? null,
  );
  net.straightAfter(lastLayup, curing, 'cure-from-sealed-bag');
  if (setup.gelCanBeSeen) gelLook(net, setup, lastLayup);
  const bagOff = net.labour(
    {
      ref: { what: 'bag-off', layup: key },
      name: STAGE_NAMES.bagOff(cure.name),
      kind: 'bag-off',
      cure: cure.id,
    },
    cure.layups,
  );
  net.after(tentOver(net, setup, curing), bagOff, 'cure-done');
  return { setup, firstLayup: layups[0]!, lastLayup, cure: curing, bagOff: bagOff ?? curing };
}

/**
 * To bag-off. A bag under a tent or in an oven stays on, and the tent over it, until the programme has
 * run as well: the later of two ends that never come earlier for a later start.
 */
function cureLength({ clock, heatMinutes }: CureSetup): Length {
  const heat = heatMinutes ?? 0;
  return {
    kind: 'function',
    endOf: (start) => {
      const off = clock.reached(start, 'debag');
      return off === null ? null : Math.max(off, start + heat);
    },
    latestStart: (end) => {
      const start = clock.latestStart(end, 'debag');
      return start === null ? null : Math.min(start, end - heat);
    },
  };
}

/** One unbroken stretch for what goes in one bag; a stretch each where a layup waits for tack. */
function wetWork(net: NetworkBuilder, setup: CureSetup): string[] {
  const { cure } = setup;
  const laid = setup.laid ?? setup.clock;
  const laidEarly = setup.laidEarly ?? laid;
  const stretches = stretchesOf(cure);
  const ids = stretches.map((stretch) => {
    const first = stretch[0]!;
    return net.handsOn({
      ref: { what: 'layup', layup: first.id },
      name: STAGE_NAMES.layup(stretch.map((layup) => layup.name)),
      kind: 'layup',
      cure: cure.id,
      personMinutes: stretch.reduce((sum, layup) => sum + setup.wetMinutes[layup.id]!, 0),
      peopleMin: Math.max(...stretch.map((layup) => layup.peopleMin)),
      peopleMax: Math.max(...stretch.map((layup) => layup.peopleMax)),
      unbroken: true,
      air: 'wet',
    });
  });
  ids.slice(1).forEach((id, i) => {
    const before = ids[i]!;
    const gel = milestoneMap(laid, 'gel');
    const tackFree = milestoneMap(laidEarly, 'tackFree');
    net.after(before, id, 'hands-free');
    net.relate('at-least', 'start', before, id, gel, 'tack-begins');
    net.relate('at-most', 'start', before, id, tackFree, 'tack-ends');
  });
  return ids;
}

/** Somebody looks at the bag from its earliest gel on: at once, or by the time of the next look. */
function gelLook(net: NetworkBuilder, setup: CureSetup, layup: string): void {
  const key = setup.cure.layups[0]!.id;
  const practice = practiceOf(net.input.library);
  const look = net.handsOn({
    ref: { what: 'gel-look', layup: key },
    name: STAGE_NAMES.gelLook(setup.cure.name),
    kind: 'watched-vacuum',
    cure: setup.cure.id,
    personMinutes: practice('gel-look-minutes'),
    unbroken: true,
  });
  const gel = milestoneMap(setup.early ?? setup.clock, 'gel');
  const due = laterBy(gel, practice('look-every-minutes'));
  net.relate('at-least', 'start', layup, look, gel, 'gel-seen');
  net.relate('at-most', 'start', layup, look, due, 'gel-seen-in-time');
}
