/** Collects stages and relations while the network is laid out. */
import {
  modeId,
  readStageId,
  resourceId,
  stageId,
  type Gear,
  type StageRef,
} from '../../document/ids.ts';
import { practiceIf } from '../../document/library.ts';
import type { RelationReason, WindowReason } from '../../messages/relations.ts';
import type { AirKind, Milestone, StageKind } from '../../document/schema.ts';
import type { Layup } from '../../part/types.ts';
import type { CureClock } from '../../cure/types.ts';
import type { Calendar, Minute } from '../../time/instant.ts';
import type { Hold, Length, Mode, MonotoneMap, Relation, StageSpec, Use } from '../problem.ts';
import { besideOthers, crewModes, isWithoutBreak, shortInOneGo, type Crew } from './crew.ts';
import type { NetworkInput } from './input.ts';
import type { WetRule } from './wetRules.ts';

interface StageOptions {
  readonly ref: StageRef;
  readonly name: string;
  readonly kind: StageKind;
  readonly cure?: string;
  readonly air?: AirKind | null;
  readonly perishable?: boolean;
  readonly release?: Minute;
  readonly due?: Minute;
  readonly neededIf?: StageSpec['neededIf'];
}

interface HandsOnOptions extends StageOptions {
  readonly personMinutes: number;
  /** Hands-on part of it, where the stage also holds waiting time. */
  readonly countedMinutes?: number;
  /** As long on the clock for any number of hands. */
  readonly clockMinutes?: number;
  readonly peopleMin?: number;
  readonly peopleMax?: number;
  readonly unbroken?: boolean;
  /** Mixed or sprayed: not left over a break or a night where somebody's hours hold it. */
  readonly inOneGo?: boolean;
  readonly gear?: readonly Use[];
}

/** Besides curing: what is done to the mould, or to the part while it lies in it. */
const IS_ON_THE_MOULD: Readonly<Record<StageKind, boolean>> = {
  'sign-off': false,
  order: false,
  arrival: false,
  machining: false,
  mould: true,
  seal: true,
  'bag-test': true,
  'test-panel': false,
  release: true,
  'resin-warm': false,
  'mould-heat': false,
  cutting: false,
  'core-fit': false,
  inserts: false,
  rehearsal: false,
  prepare: true,
  'lay-dry': true,
  'drop-test': true,
  layup: true,
  'watched-vacuum': false,
  cure: false,
  'bag-off': true,
  'tap-test': false,
  'heat-setup': false,
  'post-cure': false,
  'heat-takedown': false,
  demould: true,
  repair: false,
  trim: false,
  'dry-fit': false,
  closeout: false,
  'edge-fill': false,
  rim: false,
  'fit-check': false,
  fair: false,
  prime: false,
  wait: false,
  wrap: false,
  drive: false,
  outside: false,
  hardware: false,
  'hand-over': false,
  own: false,
};

/** A rule that is not laid, because no mode of the stage can keep it at any time. */
export interface LeftOff {
  readonly stage: string;
  readonly rule: WetRule;
}

export class NetworkBuilder {
  readonly input: NetworkInput;
  /** Another job wants the mould as well, so that all work on it has to ask for it. */
  private readonly mouldIsShared: boolean;
  /** Something else of this plan or another job wants a tent, so that each is kept while it stands. */
  readonly tentIsShared: boolean;
  /** Another job wants a pump port, so that each is kept until its bag is off. */
  readonly pumpIsShared: boolean;
  readonly crew: Crew;
  readonly stages: StageSpec[] = [];
  readonly relations: Relation[] = [];
  readonly holds: Hold[] = [];
  /** Person-minutes of hands-on work by stage, for the count of hours. */
  readonly personMinutes: Record<string, number> = {};
  /** People that a stage takes, as far as the crew has them; one where it is not named. */
  readonly peopleAsked: Record<string, number> = {};
  /** Mixed or sprayed work that some ways, and not all, do without a break. */
  readonly askedInOneGo = new Set<string>();
  /** Fewest minutes of stripping, by stage id, where no day of the shop holds them. */
  readonly tooLongToStrip: Record<string, number> = {};
  /** The longest stretch of the crew's hours, min, by wet work that none of them holds. */
  readonly workedThrough: Record<string, number> = {};

  /** Rules about the start of wet work that no mode of the stage can keep, and which are not laid. */
  readonly leftOff: LeftOff[] = [];
  /** No start of the mould's warm-up keeps the shop's rule for heat that runs alone. */
  warmedAgainstRule = false;

  constructor(input: NetworkInput, crew: Crew) {
    this.input = input;
    this.crew = crew;
    const heats =
      input.postCures.length +
      input.cures.filter((one) => one.heatMinutes).length +
      (input.warmUp ? 1 : 0);
    this.tentIsShared = heats > 1 || input.build.busy.some(({ who }) => who.kind === 'tent');
    this.pumpIsShared = input.build.busy.some(({ who }) => who.kind === 'pump');
    this.mouldIsShared = input.build.busy.some(({ who }) => who.kind === 'mould');
  }

  private takesSharedMould({ kind, cure }: StageOptions): boolean {
    if (!this.mouldIsShared || !IS_ON_THE_MOULD[kind]) return false;
    return this.input.cures.every((one) => one.cure.id !== cure || one.cure.place === 'chain');
  }

  /** Adds a stage with the modes given and returns its id. */
  stage(options: StageOptions, modes: readonly Mode[]): string {
    const id = stageId(options.ref);
    const onMould = this.takesSharedMould(options);
    this.stages.push({
      id,
      name: options.name,
      kind: options.kind,
      cure: options.cure ?? null,
      modes: onMould ? modes.map((mode) => ({ ...mode, uses: [...mode.uses, MOULD] })) : modes,
      release: options.release ?? null,
      due: options.due ?? null,
      fixedStart: null,
      fixedEnd: null,
      air: options.air ?? null,
      perishable: options.perishable ?? false,
      ...(options.neededIf ? { neededIf: options.neededIf } : {}),
    });
    return id;
  }

  /** Stages so far: id, kind, and the outside party of a job that leaves the shop. */
  stageHeads(): { readonly id: string; readonly kind: StageKind; readonly party: string | null }[] {
    return this.stages.map(({ id, kind }) => {
      const ref = readStageId(id);
      return { id, kind, party: ref?.what === 'outside' ? ref.party : null };
    });
  }

  /** Work by hand: one mode for every set of people that may do it. */
  handsOn(options: HandsOnOptions): string {
    const modes = crewModes(this.crew, this.inOneGo(options));
    const short = practiceIf(this.input.library, 'short-work-in-one-go-minutes') ?? 0;
    const own = shortInOneGo(modes, short);
    const id = this.stage(options, [...own, ...this.besideOthers(options, own)]);
    this.asksFor(id, options.peopleMin);
    if (options.inOneGo && modes.some(isWithoutBreak)) this.askedInOneGo.add(id);
    this.personMinutes[id] = options.countedMinutes ?? options.personMinutes;
    return id;
  }

  /** A build that has not taken the row leaves mixed work over a break, as it did. */
  private inOneGo(options: HandsOnOptions): HandsOnOptions {
    if (!options.inOneGo || practiceIf(this.input.library, 'mixed-in-one-go') === 1) return options;
    return { ...options, inOneGo: false };
  }

  /** Ways of doing it in shared air, where the shop allows that. */
  private besideOthers({ air }: StageOptions, modes: readonly Mode[]): Mode[] {
    if (air !== 'release' && air !== 'spray') return [];
    return this.input.build.room.releaseAndSpray === 'beside' ? besideOthers(modes) : [];
  }

  /** Notes how many people a stage takes, where the crew has more than one of them. */
  asksFor(stage: string, people = 1): void {
    const wanted = Math.min(people, this.crew.size);
    if (wanted > 1) this.peopleAsked[stage] = wanted;
  }

  /** Work of a kind with the labour of the library, on the part or `under` one bag; null when there is none. */
  labour(
    options: Omit<HandsOnOptions, 'personMinutes'> & { readonly personMinutes?: number },
    under: readonly Layup[] | null = null,
  ): string | null {
    const { part } = this.input;
    const work = under ? part.workUnder(options.kind, under) : part.workFor(options.kind);
    if (work.personMinutes <= 0) return null;
    return this.handsOn({ ...work, ...options });
  }

  /** Time that passes by itself. */
  elapsed(
    options: StageOptions,
    minutes: number,
    gear: readonly Use[] = [],
    starts: Calendar | null = null,
  ): string {
    return this.stage(options, [aloneMode({ kind: 'elapsed', minutes }, gear, starts)]);
  }

  /** Time that passes by itself and depends on when it starts. */
  running(
    options: StageOptions,
    length: Length,
    gear: readonly Use[] = [],
    starts: Calendar | null = null,
  ): string {
    return this.stage(options, [aloneMode(length, gear, starts)]);
  }

  /** `to` starts at the end of `from` or `lag` later. Either may be absent. */
  after(
    from: string | null,
    to: string | null,
    why: RelationReason,
    lag: number | MonotoneMap = 0,
  ): void {
    this.relate('at-least', 'end', from, to, lag, why);
  }

  /** `to` starts no later than `lag` after the end of `from`. */
  within(
    from: string | null,
    to: string | null,
    lag: number | MonotoneMap,
    why: WindowReason,
  ): void {
    this.relate('at-most', 'end', from, to, lag, why);
  }

  /** Keeps one piece of gear from the start of a stage to the end of another. */
  keep(kind: Gear, from: string, to: string, through: readonly string[]): void {
    this.holds.push({ ...gear(kind), from, to, through });
  }

  relate<T extends Relation['type']>(
    type: T,
    anchor: Relation['anchor'],
    from: string | null,
    to: string | null,
    lag: number | MonotoneMap,
    why: T extends 'at-most' ? WindowReason : RelationReason,
    onlyIf?: Relation['onlyIf'],
  ): void {
    if (from === null || to === null) return;
    this.relations.push({ type, from, anchor, to, lag, why, ...(onlyIf ? { onlyIf } : {}) });
  }

  /** `to` starts exactly when `from` ends. */
  straightAfter(from: string | null, to: string | null, why: WindowReason): void {
    this.after(from, to, why);
    this.within(from, to, 0, why);
  }
}

/** One piece of gear that a stage takes. */
export const gear = (kind: Gear): Use => ({ resource: resourceId({ kind }), amount: 1 });

const MOULD = gear('mould');

/** @param starts minutes at which it may begin; null: any */
const aloneMode = (length: Length, gear: readonly Use[], starts: Calendar | null): Mode => ({
  id: modeId({ by: 'itself' }),
  uses: gear,
  calendar: starts,
  length,
});

/** A cure milestone as a map from the start of the clock. */
export const milestoneMap = (clock: CureClock, milestone: Milestone): MonotoneMap => ({
  apply: (x) => clock.reached(x, milestone),
  latest: (y) => clock.latestStart(y, milestone),
  earliest: (y) => clock.earliestStart(y, milestone),
});

/** A map whose every moment comes so many minutes later. */
export const laterBy = (map: MonotoneMap, minutes: number): MonotoneMap => ({
  apply: (x) => {
    const minute = map.apply(x);
    return minute === null ? null : minute + minutes;
  },
  latest: (y) => map.latest(y - minutes),
  earliest: (y) => map.earliest(y - minutes),
});
