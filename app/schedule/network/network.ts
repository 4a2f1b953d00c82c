/** Lays a route out as a scheduling problem: stages, relations, people, gear and air. */
import { heldUp } from '../../document/heldUp.ts';
import { practiceOf, releaseOf } from '../../document/library.ts';
import { GEAR, resourceId, type Gear } from '../../document/ids.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { MINUTES_PER_HOUR } from '../../time/instant.ts';
import type { Problem, Resource } from '../problem.ts';
import { stagesAfter } from './after.ts';
import { stagesBefore, type Before } from './before.ts';
import { absences, busyGear } from './busy.ts';
import { keptPins, type DroppedPin } from '../keptPins.ts';
import { keptOrders, type DroppedOrder } from '../ownOrders.ts';
import { NetworkBuilder, type LeftOff } from './builder.ts';
import { crewOf } from './crew.ts';
import { cureStages, type CureStages } from './cures.ts';
import { mouldWarmed } from './mouldWarm.ts';
import { comesBefore, type ComesBefore } from './implied.ts';
import type { NetworkInput } from './input.ts';
import { roundMouldJobs } from './mouldJobs.ts';
import { orderStages, waitForDeliveries } from './orders.ts';
import { relationsToOpenStages, withRecordsAndPins } from './recorded.ts';
import { coatedAgain } from './sections.ts';
import { prepareSurface } from './surface.ts';

export interface Network {
  readonly problem: Problem;
  /** Own orders that cannot be obeyed and are left out of the problem. */
  readonly droppedOrders: readonly DroppedOrder[];
  /** Pins that contradict older ones and are left out of the problem. */
  readonly droppedPins: readonly DroppedPin[];
  /** Hands-on person-minutes by stage id. */
  readonly personMinutes: Readonly<Record<string, number>>;
  /** People that a stage takes, as far as the crew has them; one where it is not named. */
  readonly peopleAsked: Readonly<Record<string, number>>;
  /** Mixed or sprayed work that some ways, and not all, do without a break. */
  readonly askedInOneGo: ReadonlySet<string>;
  /** Fewest minutes of stripping, by stage id, where no day of the shop holds them. */
  readonly tooLongToStrip: Readonly<Record<string, number>>;
  /** The longest stretch of the crew's hours, min, by wet work that none of them holds. */
  readonly workedThrough: Readonly<Record<string, number>>;
  /** What must have come before each stage, whatever has been recorded. */
  readonly before: ComesBefore;
  readonly leftOff: readonly LeftOff[];
  /** No start of the mould's warm-up keeps the shop's rule for heat that runs alone. */
  readonly warmedAgainstRule: boolean;
}

/**
 * The scheduling problem of one route: stages, relations, people, gear and air. Pins, records and the shop's
 * own links are applied to it last.
 * @throws MissingRow when the library lacks a row that a stage needs
 */
export function buildNetwork(input: NetworkInput): Network {
  const net = new NetworkBuilder(
    input,
    crewOf(input.personHours, input.library, input.personOvertime),
  );
  if (input.part.layups.length > 0) {
    const orders = orderStages(net);
    const before = stagesBefore(net, orders);
    const chain = input.cures.filter(({ cure }) => cure.place === 'chain');
    const last = chainStages(net, before, chain);
    stagesAfter(net, last);
    waitForDeliveries(net, orders);
    signOffs(net);
    shopLinks(net);
  }
  const stages = withRecordsAndPins(net.stages, net.relations, input);
  const whole: Problem = {
    from: input.from,
    due: input.due,
    horizon: input.horizon,
    resources: resourcesOf(input),
    stages,
    relations: relationsToOpenStages(net.relations, stages, input),
    airSettleMinutes: practiceOf(input.library)('air-settle-minutes'),
    ...(net.holds.length > 0 ? { holds: net.holds } : {}),
    busy: busyGear(input),
  };
  const plain = { problem: whole, dropped: [] };
  const ordered = input.lengthsOnly ? plain : keptOrders(roundMouldJobs(whole));
  const pinned = input.lengthsOnly ? plain : keptPins(ordered.problem, pinsByAge(input));
  return {
    problem: pinned.problem,
    droppedOrders: ordered.dropped,
    droppedPins: pinned.dropped,
    personMinutes: net.personMinutes,
    peopleAsked: net.peopleAsked,
    askedInOneGo: net.askedInOneGo,
    tooLongToStrip: net.tooLongToStrip,
    workedThrough: net.workedThrough,
    before: comesBefore(net.stages, net.relations),
    leftOff: net.leftOff,
    warmedAgainstRule: net.warmedAgainstRule,
  };
}

/** Pinned stages, the oldest pin first; of two pins of a stage the last one holds. */
const pinsByAge = ({ build: { pins } }: NetworkInput): string[] =>
  pins
    .filter((pin, i) => !pins.slice(i + 1).some(({ stage }) => stage === pin.stage))
    .map(({ stage }) => stage);

/** The cures in the mould, one after the other. */
function chainStages(
  net: NetworkBuilder,
  before: Before,
  chain: NetworkInput['cures'],
): CureStages | null {
  let last: CureStages | null = null;
  for (const setup of chain) {
    const stages = cureStages(net, setup);
    const first = setup.cure.layups[0]!;
    if (last) {
      const next = {
        layup: stages.firstLayup,
        key: first.id,
        name: first.name.toLowerCase(),
        under: setup.cure.layups,
        onBareCore: last.setup.cure.layups.at(-1)!.hasCore,
      };
      const prepared = prepareSurface(net, next);
      const ready = tapped(net, last);
      const released = coatedAgain(net, ready, stages);
      const why = released === ready ? 'bag-off' : 'coat-dries';
      net.after(released, prepared ?? stages.firstLayup, why);
    } else {
      firstMix(net, before, stages);
    }
    if (setup.cure.layups.some((layup) => layup.hasCore)) {
      net.after(before.coreFit, stages.firstLayup, 'core-fitted');
      net.after(before.inserts, stages.firstLayup, 'inserts-let-in');
    }
    last = stages;
  }
  return last;
}

/** The core bond tapped over once its bag is off, before anything covers it. */
function tapped(net: NetworkBuilder, { setup: { cure }, bagOff }: CureStages): string {
  if (!cure.layups.some((layup) => layup.hasCore)) return bagOff;
  const tap = net.labour(
    { ref: { what: 'tap-test', at: 'core' }, name: STAGE_NAMES.tapTestCore(), kind: 'tap-test' },
    cure.layups,
  );
  net.after(bagOff, tap, 'bag-off');
  return tap ?? bagOff;
}

/** What the very first mix waits for, and what does not keep until it. */
function firstMix(net: NetworkBuilder, before: Before, first: CureStages): void {
  const { library, build } = net.input;
  const release = releaseOf(library, build.mould.release);
  const layup = first.firstLayup;
  for (const stage of [before.cutting, before.rehearsal]) {
    net.after(stage, layup, 'cut-and-rehearsed');
  }
  net.after(settled(net, before.release), layup, 'coat-settles');
  net.within(
    before.release,
    layup,
    Math.round(release.keepsHours * MINUTES_PER_HOUR),
    'coat-keeps',
  );
  net.after(before.warm, first.firstMix, 'resin-warm');
  mouldWarmed(net, before.release, first.firstMix);
}

/** The last release coat settles in a stage of its own, so that it can be seen. */
function settled(net: NetworkBuilder, released: string | null): string | null {
  const { library, build } = net.input;
  const { lastWaitMinutes } = releaseOf(library, build.mould.release);
  if (lastWaitMinutes === 0) return released;
  const settles = net.elapsed(
    { ref: { what: 'wait', for: 'release' }, name: STAGE_NAMES.releaseSettles(), kind: 'wait' },
    lastWaitMinutes,
  );
  net.after(released, settles, 'coat-dries');
  return settles;
}

/** An unanswered question holds up the stages that depend on it. */
function signOffs(net: NetworkBuilder): void {
  const targets = [...net.stages];
  for (const question of net.input.build.part.questions.filter((q) => q.answer === null)) {
    const signed = net.labour({
      ref: { what: 'sign-off', question: question.id },
      name: STAGE_NAMES.settle(question.text),
      kind: 'sign-off',
    });
    for (const stage of heldUp(question, targets, net.input.build, net.input.library)) {
      net.after(signed, stage.id, { code: 'answer-awaited', question: question.text });
    }
  }
}

/** The shop's own order between stages; links to stages that this route lacks are ignored. */
function shopLinks(net: NetworkBuilder): void {
  const known = new Set(net.stages.map((stage) => stage.id));
  for (const link of net.input.build.links) {
    if (!known.has(link.before) || !known.has(link.after)) continue;
    net.after(link.before, link.after, 'own-order', Math.round(link.minHours * MINUTES_PER_HOUR));
    if (link.maxHours !== null) {
      net.within(
        link.before,
        link.after,
        Math.round(link.maxHours * MINUTES_PER_HOUR),
        'own-order',
      );
    }
  }
}

function resourcesOf({ build, from, due }: NetworkInput): Resource[] {
  const { gear } = build;
  const counts: Readonly<Record<Gear, readonly [name: string, capacity: number]>> = {
    mould: ['mould', gear.moulds],
    pump: ['pump port', gear.pumpPorts],
    tent: ['tent', Math.max(gear.tents, build.room.tent ? 1 : 0)],
    bench: ['bench', gear.benches],
  };
  return [
    ...build.crew.map((person) => ({
      id: resourceId({ kind: 'person', person: person.id }),
      name: person.name,
      capacity: 1,
      ...awayOf(absences(build, person.id, from, due)),
    })),
    ...GEAR.map((kind) => {
      const [name, capacity] = counts[kind];
      return { id: resourceId({ kind }), name, capacity };
    }),
  ];
}

const awayOf = (away: readonly string[]): Pick<Resource, 'away'> =>
  away.length > 0 ? { away } : {};
