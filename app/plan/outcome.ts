/** What one run of the pipeline hands to screen, paper and command. */
import type { AirKind, FullBuild, Library, PlanResult } from '../document/schema.ts';
import type { Assumption } from '../document/assume.ts';
import type { Batch, CureModel, TemperatureProfile } from '../cure/types.ts';
import type { TgNeed } from './glass.ts';
import type { KitLine, PartResult } from '../part/types.ts';
import type { WeightRow } from '../part/weight.ts';
import type { Calendar, Interval, Minute } from '../time/instant.ts';
import type { ConsequenceLine } from './consequences.ts';
import type { CureGlass } from './cureGlass.ts';
import type { CureTimes } from './cureTimes.ts';
import type { LabourEntry } from './labour.ts';
import type { Move } from '../messages/moves.ts';
import type { StartHour } from './startHours.ts';

/** Routes that a first answer gives up on before it leaves the rest to the full one. */
export interface MostInVain {
  /** Their wet work does not fit the resin or the hours. */
  readonly wet: number;
  /** Planned, and something cannot be placed: mostly what stops every route. */
  readonly planned: number;
}

/**
 * How hard to think. `schedules` is a count of generated schedules, never milliseconds.
 * `first`: part and one good plan of the chosen route; closing times, other routes and levers follow
 * with `full`, from the worker.
 */
export interface Effort {
  readonly scope: 'first' | 'full';
  /** Where the answer is made on the thread that draws: how much it may look at in vain. Absent: all of it. */
  readonly inVain?: MostInVain;
  readonly schedules: number;
}
export const FIRST_ANSWER: Effort = {
  scope: 'first',
  schedules: 1,
  inVain: { wet: 8, planned: 2 },
};
export const FULL_ANSWER: Effort = { scope: 'full', schedules: 5000 };

/** The curve of one cure: room temperature and progress through it, for the chart. */
export interface CureCurve {
  readonly cure: string;
  readonly points: readonly {
    readonly minute: Minute;
    readonly temperatureC: number;
    /** Dose reached as a share of the dose of `demould`, 0 to 1. */
    readonly progress: number;
  }[];
}

/** What one cure is made with, and the temperature it goes through as planned. */
export interface CureDetail {
  readonly hardener: string;
  readonly model: CureModel;
  readonly profile: TemperatureProfile;
  /** Tent or oven over the bag; null: the room alone. */
  readonly heat: (Interval & { readonly hottestC: number }) | null;
  /** When it reaches what, as in the result. */
  readonly times: Omit<CureTimes, 'cure'>;
  /** Null while the cure has no place in time. */
  readonly glass: CureGlass | null;
}

/** What the hours, the cost and the weight of a route are made up of. */
export interface RouteSums {
  /** Everything to buy. */
  readonly kit: readonly KitLine[];
  readonly labour: readonly LabourEntry[];
  /** What is on the part, row by row, exact. */
  readonly weight: readonly WeightRow[];
  /** What its joints, release and shape cost later. */
  readonly price: readonly ConsequenceLine[];
  readonly bags: number;
  readonly batches: number;
}

/** Everything behind the published result that a screen or a sheet shows. */
export interface PlanDetail {
  readonly build: FullBuild;
  /** The rows used, frozen copies of the build first, the shipped library after. */
  readonly library: Library;
  readonly assumptions: readonly Assumption[];
  readonly part: PartResult;
  readonly model: CureModel;
  /** Coldest spot of part and mould, without heat. */
  readonly profile: TemperatureProfile;
  /** Air of the room. */
  readonly air: TemperatureProfile;
  /** What each cure is made with and goes through, by cure id. */
  readonly cures: Readonly<Record<string, CureDetail>>;
  /** First and last minute of interest: now or the first stage, to the deadline or the last stage. */
  readonly span: Interval;
  readonly now: Minute;
  readonly deadline: Minute;
  /** Hours in which at least one person works. */
  readonly shopHours: Calendar;
  readonly personHours: Readonly<Record<string, Calendar>>;
  readonly outsideHours: Readonly<Record<string, Calendar>>;
  readonly curves: readonly CureCurve[];
  /** Batches of each cure, by cure id. */
  readonly batches: Readonly<Record<string, readonly Batch[]>>;
  /** Everything to buy for the chosen route. */
  readonly kit: readonly KitLine[];
  /** What the hours of the totals are made up of. */
  readonly labour: readonly LabourEntry[];
  /** What is on the part, row by row, exact. */
  readonly weight: readonly WeightRow[];
  /** The same for the chosen and every other route that has been judged, by route id. */
  readonly routes: Readonly<Record<string, RouteSums>>;
  /** Minutes of work of each stage inside its own calendar, by stage id (elapsed for cures). */
  readonly workMinutes: Readonly<Record<string, number>>;
  /** Who does each stage and how, by the planner's own name, by stage id. */
  readonly modes?: Readonly<Record<string, string>>;
  /** What must have come before each stage, whatever has been recorded, by stage id. */
  readonly before?: Readonly<Record<string, readonly string[]>>;
  /** What everything on the part stands, and the post-cures that are planned. */
  readonly tg?: TgNeed;
  readonly shown?: ShownDetail;
  /** Why what is still to come starts at another moment than was printed, in the order of the plan. */
  readonly moves?: readonly Move[];
}

/** What the picture of the plan shows beside its stages. */
export interface ShownDetail {
  /** What each stage does to the room's air, by stage id; left out: nothing. */
  readonly air: Readonly<Record<string, AirKind>>;
  /** When the wet work of each bag may start, by the id of its stage. */
  readonly starts?: Readonly<Record<string, readonly StartHour[]>>;
  /** The stage fixed by hand that keeps another from starting sooner, by the id of that other. */
  readonly fixedBy?: Readonly<Record<string, string>>;
}

export interface PlanOutcome {
  readonly result: PlanResult;
  readonly detail: PlanDetail;
}
