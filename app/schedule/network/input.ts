/** What the network of stages is built from. */
import type { FullBuild, Library, StageKind } from '../../document/schema.ts';
import type { BagDueRange } from '../../cure/bag-due.ts';
import type { CureClock, TemperatureProfile } from '../../cure/types.ts';
import type { DryWork } from '../../part/layDry.ts';
import type { PartResult } from '../../part/types.ts';
import type { Route, RouteCure } from '../../route/types.ts';
import type { Calendar, Minute } from '../../time/instant.ts';

/** One cure of the route with its chemistry settled. */
export interface CureSetup {
  readonly cure: RouteCure;
  /** The late side: what is waited for. */
  readonly clock: CureClock;
  /** The early side, for what must be done before something; the same as `clock` when absent. */
  readonly early?: CureClock;
  /** The film in the room before its bag is sealed, late side; as `clock` unless the cure is heated. */
  readonly laid?: CureClock;
  /** The same, early side; as `laid` when absent. */
  readonly laidEarly?: CureClock;
  /** Tent or oven from the sealed bag on, as it is used: minutes of its programme. */
  readonly heatMinutes?: number | null;
  /** Minutes at which that heat may be switched on; null: any. */
  readonly heatStarts?: Calendar | null;
  /** Minutes from first mix to the due bag in this room, at any minute; null: not known beforehand. */
  readonly bagDueRange?: BagDueRange | null;
  /** Infused: what is laid and bagged dry before the first mix; null or absent: cloth is laid wet. */
  readonly dry?: DryWork | null;
  /** Person-minutes of wet work of each layup, mixing included, by layup id. */
  readonly wetMinutes: Readonly<Record<string, number>>;
  /** The same for so many hands: fewer spread slower, so that they may mix smaller batches and more of them. */
  readonly inHands?: (people: number) => Pick<CureSetup, 'wetMinutes'>;
}

/** A post-cure, as one elapsed stretch with ramps. */
export interface PostCureSetup {
  /** 1, or 2 for a second one. */
  readonly number: number;
  /** On the mould before demould, or on supports after the last cure. */
  readonly place: 'mould' | 'supports';
  readonly minutes: number;
  readonly afterGelMinutes: number;
  /** Minutes at which the heat may be switched on, as half-open intervals. */
  readonly starts: Calendar;
}

/** A mould that is warmed before its first mix. */
export interface WarmUpSetup {
  readonly minutes: number;
  /** Minutes at which the heat may be switched on, as half-open intervals. */
  readonly starts: Calendar;
  /** When somebody is there: what is warm by night is kept warm until then. */
  readonly staffed: Calendar;
}

/** One supplier's delivery, as far as the network needs it. */
export interface DeliverySetup {
  readonly supplier: string;
  readonly name: string;
  /** Working days of the supplier. */
  readonly leadDays: number;
  /** Hours in which it works and its goods are taken in. */
  readonly receives: Calendar;
  /** What it brings is used in these kinds of stage. */
  readonly kinds: ReadonlySet<StageKind>;
}

export interface NetworkInput {
  readonly build: FullBuild;
  readonly library: Library;
  readonly part: PartResult;
  readonly route: Route;
  readonly cures: readonly CureSetup[];
  readonly profile: TemperatureProfile;
  readonly postCures: readonly PostCureSetup[];
  /** Null or absent: the mould is not warmed. */
  readonly warmUp?: WarmUpSetup | null;
  /** Person-minutes of fairing that the route's merges add. */
  readonly extraFairMinutes: number;
  /** Hours at 20 C that the merges, the release and the shape add to the drying of the first round. */
  readonly extraWaitHoursAt20C: number;
  readonly personHours: Readonly<Record<string, Calendar>>;
  /** Hours beyond those that each may stay where a date needs it. */
  readonly personOvertime?: Readonly<Record<string, Calendar>>;
  readonly outsideHours: Readonly<Record<string, Calendar>>;
  readonly deliveries: readonly DeliverySetup[];
  /** Nothing is placed by it: no rule about the start of wet work is laid, no clash of orders looked for. */
  readonly lengthsOnly?: boolean;
  readonly now: Minute;
  readonly from: Minute;
  readonly due: Minute;
  readonly horizon: Minute;
}
