/** The stages of one cure: surface, wet work, watched vacuum, cure, bag-off. */
import { practiceOf } from '../../document/library.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { stretchesOf } from '../../route/routes.ts';
import { unite } from '../../time/calendar.ts';
import type { Calendar } from '../../time/instant.ts';
import type { Length } from '../problem.ts';
import { crewModes } from './crew.ts';
import { gear, laterBy, milestoneMap, type NetworkBuilder } from './builder.ts';
import { dryStages } from './dry.ts';
import { tentOver } from './heat.ts';
import type { CureSetup } from './input.ts';
import { handoverModes } from './watch.ts';
import type { WetRule } from './wetRules.ts';
import type { WetStretch } from './wetStarts.ts';
import { isTooLong, personMinutesOf, wetModes, wetStretches } from './wetStretches.ts';
import { longestStretch } from './workedThrough.ts';

/** Ids of the stages to which the stages before and after a cure are linked. */
export interface CureStages {
  readonly setup: CureSetup;
  /** Where cloth first lies on the mould or on the cure before: dry, or with its first mix. */
  readonly firstLayup: string;
  readonly firstMix: string;
  readonly lastLayup: string;
  readonly cure: string;
  readonly bagOff: string;
}

/**
 * Adds the wet work, the watched vacuum, the cure and the bag-off of one bag. Their ids derive from
 * its first layup, so that pins survive replanning and merging.
 */
export function cureStages(net: NetworkBuilder, setup: CureSetup): CureStages {
  const { layups, leftOff, through } = wetWork(net, setup);
  const lastLayup = layups.at(-1)!;
  const laidDry = dryStages(net, setup, layups[0]!);
  const { cure } = setup;
  const key = cure.layups[0]!.id;
  const practice = practiceOf(net.input.library);
  const watchMinutes = practice('watch-minutes');
  const watchModes = crewModes(net.crew, { personMinutes: watchMinutes, unbroken: true });
  const watch = net.stage(
    {
      ref: { what: 'watched-vacuum', layup: key },
      name: STAGE_NAMES.watchedVacuum(cure.name),
      kind: 'watched-vacuum',
      cure: cure.id,
    },
    [
      ...(through.length === 0
        ? watchModes
        : watchModes.map((mode) => ({ ...mode, calendar: unite(mode.calendar!, through) }))),
      ...handoverModes(net.input, watchMinutes),
    ],
  );
  net.personMinutes[watch] = watchMinutes;
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
  // Resin that gels while the only pair of hands still lays it is seen by them.
  const gelsInHand = through.length > 0 || (leftOff.includes('bag-down') && net.crew.size < 2);
  if (!gelsInHand && !leftOff.includes('gel-in-hours')) gelLook(net, setup, lastLayup);
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
  // The pump runs until the bag is off, nights between as well.
  if (net.pumpIsShared && bagOff !== null)
    net.keep('pump', laidDry?.bagged ?? curing, bagOff, [curing]);
  return {
    setup,
    firstLayup: laidDry?.laid ?? layups[0]!,
    firstMix: layups[0]!,
    lastLayup,
    cure: curing,
    bagOff: bagOff ?? curing,
  };
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
function wetWork(
  net: NetworkBuilder,
  setup: CureSetup,
): {
  readonly layups: readonly string[];
  readonly leftOff: readonly WetRule[];
  /** Hours that are worked through for the last stretch; empty where the crew's own hold it. */
  readonly through: Calendar;
} {
  const { cure } = setup;
  const laid = setup.laid ?? setup.clock;
  const laidEarly = setup.laidEarly ?? laid;
  const stretches = stretchesOf(cure);
  const watchMinutes = practiceOf(net.input.library)('watch-minutes');
  const laidOut = net.input.lengthsOnly
    ? wetModes(net.crew, setup, net.input.library).map((own): WetStretch => ({
        modes: own,
        leftOff: [],
      }))
    : wetStretches(net.crew, net.input, setup).laid;
  const ids = stretches.map((stretch, i) => {
    const first = stretch[0]!;
    const id = net.stage(
      {
        ref: { what: 'layup', layup: first.id },
        name: (setup.dry ? STAGE_NAMES.infuse : STAGE_NAMES.layup)(stretch.map(({ name }) => name)),
        kind: 'layup',
        cure: cure.id,
        air: 'wet',
      },
      laidOut[i]!.modes,
    );
    net.personMinutes[id] = personMinutesOf(setup, stretch);
    net.asksFor(id, setup.dry ? 1 : Math.max(...stretch.map((layup) => layup.peopleMin)));
    if (isTooLong(net.crew, laidOut[i]!.modes, watchMinutes)) {
      net.workedThrough[id] = longestStretch(net.crew.teamsOf(1, 1).map(({ hours }) => hours));
    }
    net.leftOff.push(...laidOut[i]!.leftOff.map((rule) => ({ stage: id, rule })));
    return id;
  });
  ids.slice(1).forEach((id, i) => {
    const before = ids[i]!;
    const gel = milestoneMap(laid, 'gel');
    const tackFree = milestoneMap(laidEarly, 'tackFree');
    net.after(before, id, 'hands-free');
    net.relate('at-least', 'start', before, id, gel, 'tack-begins');
    // Where nobody can ever be in time, there are dates all the same, and the finding says why they fail.
    if (laidOut[i]!.leftOff.includes('tack-in-hours')) return;
    net.relate('at-most', 'start', before, id, tackFree, 'tack-ends');
  });
  const last = laidOut.at(-1)!.modes;
  return {
    layups: ids,
    leftOff: laidOut.flatMap((stretch) => stretch.leftOff),
    through: isTooLong(net.crew, last, watchMinutes)
      ? last.map(({ calendar }) => calendar!).reduce(unite, [])
      : [],
  };
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
