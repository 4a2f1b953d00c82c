/** The part on its way to an outside party and back: wrap, drive, and the hours that paint needs before each. */
import { driveHoursOf } from '../../document/drive.ts';
import { paintWait, type PaintWait } from '../../document/ids.ts';
import { practiceIf } from '../../document/library.ts';
import type { Library, OutsideParty } from '../../document/schema.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { MINUTES_PER_HOUR } from '../../time/instant.ts';
import type { NetworkBuilder } from './builder.ts';

/** Where the party works on the part. */
type Where = 'their-shop' | 'on-site' | 'on-the-way';

const WHERE: Readonly<Record<OutsideParty['kind'], Where | null>> = {
  machining: null,
  paint: 'their-shop',
  other: 'their-shop',
  install: 'on-site',
  transport: 'on-the-way',
};

/** True for a build that plans the way to outside parties. */
export const plansTheWay = (library: Pick<Library, 'labour'>): boolean =>
  library.labour.some(({ stage }) => stage === 'wrap');

/** What the part and its paint wait for on the way. */
export class Transport {
  private readonly net: NetworkBuilder;
  /** It stands where it belongs: nothing more is carried. */
  private onSite = false;
  /** Moments from which the paint on the part may be taped, and wrapped. */
  private tape: string[] = [];
  private wrap: string[] = [];

  constructor(net: NetworkBuilder) {
    this.net = net;
  }

  /** Wrapped and brought to a party; what its job waits for. */
  out(party: OutsideParty, ready: readonly string[]): readonly string[] {
    const where = WHERE[party.kind];
    if (where === null || this.onSite || !plansTheWay(this.net.input.library)) return ready;
    const wrapped = this.net.labour({
      ref: { what: 'wrap', party: party.id },
      name: STAGE_NAMES.wrap(party.name),
      kind: 'wrap',
    });
    for (const stage of ready) this.net.after(stage, wrapped, 'part-ready');
    for (const stage of this.wrap) this.net.after(stage, wrapped, 'paint-wrapped');
    this.onSite = where !== 'their-shop';
    const left = wrapped === null ? ready : [wrapped];
    if (where === 'on-the-way' || party.carriedBy === 'party') return left;
    const drive = this.driven(party, 'drive');
    for (const stage of left) this.net.after(stage, drive, 'wrapped-first');
    return drive === null ? left : [drive];
  }

  /** From the end of a party's job until the part is back and may be handled. */
  back(party: OutsideParty, job: string): string {
    if (WHERE[party.kind] !== 'their-shop' || !plansTheWay(this.net.input.library)) return job;
    const dry = this.dries(party, job);
    if (party.carriedBy === 'party') return dry;
    const drive = this.driven(party, 'drive-back');
    this.net.after(dry, drive, 'paint-handled');
    return drive ?? dry;
  }

  /** Fittings wait until the paint takes tape. */
  beforeFittings(stage: string | null): void {
    for (const dry of this.tape) this.net.after(dry, stage, 'paint-takes-tape');
  }

  /** Hours after a paint job, each a stage that can be seen; what was baked is hard at once. */
  private dries(party: OutsideParty, job: string): string {
    const { build, library } = this.net.input;
    if (party.kind !== 'paint') return job;
    const several = build.outside.filter(({ kind }) => kind === 'paint').length > 1;
    const hours = (id: string): number => practiceIf(library, id) ?? 0;
    const bakedC = practiceIf(library, 'paint-baked-c');
    const baked = party.bakeC !== null && bakedC !== null && party.bakeC >= bakedC;
    const wait = (what: PaintWait, from: number): string => {
      const stage = this.net.elapsed(
        {
          ref: { what: 'wait', for: paintWait(what, party.id) },
          name: STAGE_NAMES.paintDries(what, several ? party.name : null),
          kind: 'wait',
        },
        Math.max(1, Math.round(from * MINUTES_PER_HOUR)),
      );
      this.net.after(job, stage, 'coat-dries');
      return stage;
    };
    if (baked) return wait('handle', hours('paint-baked-hours'));
    this.tape = [...this.tape, wait('tape', hours('paint-tape-hours'))];
    if (this.leavesAgain(party)) this.wrap = [wait('wrap', hours('paint-wrap-hours'))];
    return wait('handle', hours('paint-handle-hours'));
  }

  /** Another party comes after this one, for which the painted part is wrapped. */
  private leavesAgain({ id }: OutsideParty): boolean {
    const { outside } = this.net.input.build;
    const later = outside.slice(outside.findIndex((one) => one.id === id) + 1);
    return later.some(({ kind }) => WHERE[kind] !== null);
  }

  /** There and home again, by as many people as lift the part. */
  private driven(party: OutsideParty, what: 'drive' | 'drive-back'): string | null {
    const { input, crew } = this.net;
    const { library, part } = input;
    const work = part.workFor('drive');
    const clock = work.personMinutes + 2 * driveHoursOf(party, library) * MINUTES_PER_HOUR;
    if (work.personMinutes <= 0 || crew.size === 0) return null;
    const people = Math.min(work.peopleMin, crew.size);
    const longest = (practiceIf(library, 'drive-unbroken-hours') ?? 0) * MINUTES_PER_HOUR;
    return this.net.handsOn({
      ...work,
      ref: { what, party: party.id },
      name: what === 'drive' ? STAGE_NAMES.driveTo(party.name) : STAGE_NAMES.driveBack(party.name),
      kind: 'drive',
      // The road is as long for two as for one.
      clockMinutes: clock,
      countedMinutes: clock * people,
      peopleMax: work.peopleMin,
      unbroken: clock <= longest,
    });
  }
}
