/**
 * What a verdict must keep to, whatever the build: it does not hang on the moment of asking, on the order of
 * names, or on having more than before. Asked of the plans themselves, before ways out and odds are sought.
 */
import { settledSteps, type Settled } from '../../app/answer/judgement.ts';
import { judgedRoutes } from '../../app/answer/routesJudged.ts';
import type { Build, Library } from '../../app/document/schema.ts';
import { isPossible, type JudgedRoute } from '../../app/judge/rank.ts';
import { contextOf, type PlanContext } from '../../app/plan/context.ts';
import { draftRoute, planRoute } from '../../app/plan/routePlan.ts';
import { brokenStarts } from '../../app/plan/wetWindows.ts';
import { violations } from '../../app/schedule/check.ts';
import { runToEnd } from '../../app/schedule/generators.ts';

/** A case in which a law was asked: both sides are counted, a broken one is told. */
export interface Verdict {
  readonly law: string;
  /** On which side of the law the case lies: whether the build as drawn fits. */
  readonly side: string;
  /** What broke it; null: it holds. */
  readonly broken: string | null;
}

export interface LawsOptions {
  readonly library: Library;
  /** Schedules of each answer. */
  readonly schedules: number;
}

const HOUR = 60;
const DAY = 1440;
const LATER = [4 * HOUR, 26 * HOUR, 4 * DAY] as const;

/** The reasons against a route that a warmer room may bring. */
const FALLS_WITH_HEAT = /^(open-time-short|tack-out-of-hours|stack-too-hot)$/;

/** What the program decides at one moment. */
interface Answer extends Settled {
  readonly context: PlanContext;
  readonly fits: boolean;
}

export function answerTo(
  document: Build,
  now: number,
  { library, schedules }: LawsOptions,
  scope: 'first' | 'full' = 'full',
): Answer {
  const context = contextOf(document, library, now);
  const effort = { scope, schedules } as const;
  const looked = runToEnd(judgedRoutes(context, effort));
  const settled = runToEnd(settledSteps(context, looked, effort));
  return { context, ...settled, fits: isFit(context, settled.taken) };
}

/** In time, possible, and no bag down too late. */
const isFit = (context: PlanContext, one: JudgedRoute): boolean =>
  isPossible(one) &&
  one.plan.schedule.fits &&
  brokenStarts(context, one.plan).every(({ rule }) => rule !== 'bag-down');
const sideOf = ({ fits }: Answer): string => (fits ? 'fits' : 'does not fit');

/** Every law for one build asked at one moment. */
export function lawsOf(document: Build, now: number, options: LawsOptions): Verdict[] {
  const ask = (one: Build, at = now): Answer => answerTo(one, at, options);
  const base = ask(document);
  const out: Verdict[] = [];
  const law = (name: string, broken: string | null, side = sideOf(base)) =>
    out.push({ law: name, side, broken });

  const first = answerTo(document, now, { ...options, schedules: 1 }, 'first');
  const takenBack = first.fits && !base.fits;
  law('what a first answer fits, the full one fits', takenBack ? told(base) : null, sideOf(first));
  let before = base;
  for (const later of LATER) {
    const then = ask(document, now + later);
    const comesBack = !before.fits && then.fits;
    law(
      'what does not fit now does not fit later',
      comesBack ? `fits ${later / HOUR} h later` : null,
      sideOf(before),
    );
    before = then;
  }
  for (const { broken, side } of closing(base, now, (at) => ask(document, at))) {
    law('a route fits up to its closing time, and not after a proven one', broken, side);
  }
  for (const [what, other] of Object.entries(reversed(document))) {
    const then = ask(other);
    const [one, two] = [fingerprint(base), fingerprint(then)];
    law(`${what} in another order change nothing`, one === two ? null : `${one} became ${two}`);
  }
  for (const [what, richer] of Object.entries(richerThan(document))) {
    const then = ask(richer);
    law(
      `${what} loses no fit`,
      base.fits && !then.fits ? `${told(base)} became ${told(then)}` : null,
    );
    // Where a rule had to be left off, more hands or hours may well be able to keep it.
    const { schedule, network } = base.taken.plan;
    const throughout = Object.keys(network.workedThrough).length > 0;
    if (schedule.placed.length > 0 && network.leftOff.length === 0 && !throughout) {
      law(`a plan of before holds with ${what}`, heldBy(base, richer, now, options));
    }
  }
  const warmer = ask(warmed(document));
  const named = warmer.compared.some(({ reasons }) =>
    reasons.some(({ code }) => FALLS_WITH_HEAT.test(code)),
  );
  law(
    'a warmer room loses a fit only by a named rule',
    base.fits && !warmer.fits && !named ? told(warmer) : null,
  );
  law('the taken route is never worse in every count', dominated(base));
  return out;
}

/** Up to its closing time the taken route fits; a day after a proven one it does not. */
function closing(
  base: Answer,
  now: number,
  ask: (at: number) => Answer,
): { readonly side: string; readonly broken: string | null }[] {
  const { id } = base.taken.plan.route;
  const own = base.closings.get(id);
  const closes = own?.minute ?? null;
  if (!base.fits || closes === null || closes <= now) return [];
  const routeFits = (at: number): boolean => {
    const { context, compared } = ask(at);
    return compared.some((one) => one.plan.route.id === id && isFit(context, one));
  };
  const upTo = { side: 'at it', broken: routeFits(closes) ? null : `${id} at its closing time` };
  if (!own!.proven) return [upTo];
  const after = {
    side: 'a day after',
    broken: routeFits(closes + DAY) ? `${id} a day after` : null,
  };
  return [upTo, after];
}

const told = ({ taken }: Answer): string => {
  const stops = taken.reasons.filter(({ severity }) => severity === 'stop');
  const why = stops.length > 0 ? stops.map(({ code }) => code).join(', ') : null;
  return `${taken.plan.route.id} (${why ?? `${taken.plan.lateMinutes} min late`})`;
};

const fingerprint = (answer: Answer): string => {
  const { plan } = answer.taken;
  return `${sideOf(answer)} ${plan.route.id} end ${plan.schedule.end} cost ${plan.materialCostMinor}`;
};

/** Lists in another order; the order of outside visits is that of their numbers. */
function reversed(document: Build): Record<string, Build> {
  const { crew = [], part, outside = [] } = document;
  return {
    ...(crew.length > 1 ? { people: { ...document, crew: crew.toReversed() } } : {}),
    ...(part.zones.length > 1
      ? { zones: { ...document, part: { ...part, zones: part.zones.toReversed() } } }
      : {}),
    ...(outside.length > 1 ? { parties: { ...document, outside: outside.toReversed() } } : {}),
  };
}

function richerThan(document: Build): Record<string, Build> {
  const [person] = document.crew ?? [];
  const gear = document.gear ?? {};
  const { unveiling } = document;
  const day = Number(unveiling.slice(8, 10)) + 1;
  const later = `${unveiling.slice(0, 8)}${String(day).padStart(2, '0')}${unveiling.slice(10)}`;
  return {
    'one more person': {
      ...document,
      crew: [...(document.crew ?? []), { ...person!, id: 'one-more', name: 'Joel Field' }],
    },
    'one more pump port': { ...document, gear: { ...gear, pumpPorts: 3 } },
    'one more tent': { ...document, gear: { ...gear, tents: 1 } },
    ...(day <= 28 ? { 'a day more': { ...document, unveiling: later } } : {}),
  };
}

/** Whether the placement keeps every rule in the richer build, and what of it does not. */
function heldBy(
  { taken }: Answer,
  richer: Build,
  now: number,
  { library }: LawsOptions,
): string | null {
  const context = contextOf(richer, library, now);
  const { route, schedule } = taken.plan;
  const { network } = planRoute(context, draftRoute(context, route), 0);
  const broken = violations(network.problem, schedule.placed);
  return broken.length === 0 ? null : `${route.id}: ${broken.join('; ')}`;
}

function warmed(document: Build): Build {
  const { day, night } = document.room!.temperatureC!;
  return {
    ...document,
    room: { ...document.room, temperatureC: { day: day! + 1, night: night! + 1 } },
  } as Build;
}

/** A route that fits and is better than the taken one in every count that it is compared by; null: none. */
function dominated({ context, compared, taken, fits }: Answer): string | null {
  if (!fits) return null;
  const counts = ({ plan }: JudgedRoute): number[] => [
    plan.route.merging,
    plan.schedule.end ?? Infinity,
    plan.labourHours,
    plan.materialCostMinor,
    plan.massKg,
  ];
  const own = counts(taken);
  const better = compared.find(
    (one) =>
      isFit(context, one) &&
      one.plan.route.id !== taken.plan.route.id &&
      one.plan.unseenGels.length <= taken.plan.unseenGels.length &&
      counts(one).every((count, k) => count < own[k]!),
  );
  return better ? `${taken.plan.route.id} by ${better.plan.route.id}` : null;
}

/** Counts by law and side, with what broke it. */
export interface LawCount {
  readonly law: string;
  readonly sides: Readonly<Record<string, number>>;
  readonly broken: readonly { readonly build: string; readonly how: string }[];
}

/** @param asked of each build, by its name */
export function countLaws(
  asked: readonly { readonly build: string; readonly verdicts: readonly Verdict[] }[],
): LawCount[] {
  const laws = new Map<
    string,
    { sides: Record<string, number>; broken: { build: string; how: string }[] }
  >();
  for (const { build, verdicts } of asked) {
    for (const { law, side, broken } of verdicts) {
      const own = laws.get(law) ?? { sides: {}, broken: [] };
      own.sides[side] = (own.sides[side] ?? 0) + 1;
      if (broken !== null) own.broken.push({ build, how: broken });
      laws.set(law, own);
    }
  }
  return [...laws].map(([law, own]) => ({ law, ...own }));
}
