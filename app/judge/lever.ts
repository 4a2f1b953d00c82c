/** What each kind of lever says of itself: when it is offered, the edit that it is, what it excludes. */
import type { LeverKind, LeverRef } from '../document/ids.ts';
import type { Build, Finding, FullBuild, Library } from '../document/schema.ts';
import type { FindingCode } from '../messages/findings.ts';
import type { LeverWords } from '../messages/levers.ts';
import type { PlanContext } from '../plan/context.ts';
import type { Lookups } from '../plan/lookups.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import type { JudgedRoute } from './rank.ts';

/** A lever before it is weighed. */
export interface LeverEdit extends LeverWords {
  readonly id: string;
  readonly document: Build;
  /** What it costs beside material, minor units: wages, heat, hire. */
  readonly addedMinor: number;
}

/** What the levers of a build are made from. */
export interface OfferInput {
  readonly document: Build;
  readonly build: FullBuild;
  readonly library: Library;
  /** Days for which heat and wages run. */
  readonly days: number;
  readonly lookups: Lookups;
}

/** What the levers of a plan are made from. */
export interface PlanOfferInput {
  readonly context: PlanContext;
  readonly document: Build;
  readonly plan: RoutePlan;
  /** Days from now until the plan ends, for which heat and wages run. */
  readonly days: number;
  readonly routes: readonly JudgedRoute[];
  readonly lookups: Lookups;
}

type Ref<K extends LeverKind> = Extract<LeverRef, { lever: K }>;

/** Levers that a build leaves open, whatever its plan. One is applied as it is offered. */
interface OfABuild<K extends LeverKind> {
  /** Of the levers of one subject the search applies at most one; null: it leaves them out. */
  readonly subject: string | null | ((ref: Ref<K>) => string);
  readonly offer: (input: OfferInput) => LeverEdit[];
}

/** Levers that only a plan or one of its findings invites. Their ids hold all that applying them needs. */
interface OfAPlan<K extends LeverKind> {
  readonly subject: OfABuild<K>['subject'];
  /** Weighed against every finding that levers can clear. */
  readonly offerWithPlan?: (input: PlanOfferInput) => LeverEdit[];
  /** Weighed only against a finding that has ways out of its own; the edit that this finding asks for. */
  readonly answers?: Readonly<
    Partial<
      Record<FindingCode, (document: Build, finding: Finding, library: Library) => LeverEdit | null>
    >
  >;
  /** The edit that an id stands for; null where it does not go with the build. */
  readonly edit: (document: Build, ref: Ref<K>, library: Library) => LeverEdit | null;
}

export type LeverRules<K extends LeverKind> = OfABuild<K> | OfAPlan<K>;

/** A table of the levers of one file. */
export type LeverTable<K extends LeverKind> = { readonly [one in K]: LeverRules<one> };
