/** Findings about people, materials and weight. */
import { driveHoursOf } from '../document/drive.ts';
import { heldUp } from '../document/heldUp.ts';
import { layupStageId, outsideStageId, stageId } from '../document/ids.ts';
import { workDayMinutes } from '../document/library.ts';
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { PartCheck } from '../part/checks.ts';
import type { FillWay } from '../part/filling.ts';
import type { KitLine } from '../part/types.ts';
import type { PlanContext } from '../plan/context.ts';
import type { Infusion } from '../plan/infusionFill.ts';
import type { CureTimes } from '../plan/cureTimes.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { workBetween } from '../time/calendar.ts';

export function materialFindings(
  context: PlanContext,
  plan: RoutePlan,
  times: readonly CureTimes[],
  facts: readonly PartCheck[],
  infusions: readonly Infusion[],
): Finding[] {
  if (context.part.layups.length === 0) {
    return [finding('part-empty', {})];
  }
  return [
    ...crewFindings(context, times),
    ...handsShort(plan),
    ...leftOverBreak(context, plan),
    ...airShared(context, plan),
    ...pastHours(context, plan),
    ...helperCalled(context, plan),
    ...carrying(context, plan),
    ...repairs(context, plan),
    ...deliveries(context, plan),
    ...questions(context, plan),
    ...weight(context, plan),
    ...fillAdvice(context, plan),
    ...fillLifts(context),
    ...processUnplanned(context),
    ...infusions.map(filled),
    ...facts.map((check) => check.finding),
  ];
}

/** The plan is that of a layup under a bag, whatever the part asks for. */
function processUnplanned({ build }: PlanContext): Finding[] {
  return build.part.process === 'hand' ? [finding('process-not-planned', { process: 'hand' })] : [];
}

const filled = ({ stage, ...fill }: Infusion): Finding =>
  finding('infusion-fill', fill, { severity: fill.isSound ? 'note' : 'stop', stage });

function crewFindings(context: PlanContext, times: readonly CureTimes[]): Finding[] {
  const { build, practice } = context;
  if (build.crew.length === 0) {
    return [finding('crew-empty', {})];
  }
  // Whoever has a helper beside them does not lay alone.
  const wanted = Math.max(
    0,
    ...context.part.layups.map(
      ({ id, peopleMin }) => peopleMin - (build.helperFor.includes(id) ? 1 : 0),
    ),
  );
  const findings: Finding[] = [];
  if (wanted > build.crew.length || build.crew.length === 1) {
    const args = { wanted, crew: build.crew.length };
    const severity = wanted > build.crew.length ? 'warn' : 'note';
    findings.push(finding('works-alone', args, { severity }));
  }
  const { lift, areaM2 } = context.part;
  if (lift.hands > build.crew.length) {
    const args = { wanted: lift.hands, crew: build.crew.length, massKg: lift.massKg, areaM2 };
    findings.push(finding('lift-alone', args, { stage: stageId({ what: 'demould' }) }));
  }
  const limitMinutes = practice('long-wet-work-hours') * 60;
  for (const { firstMix, sealed, cure } of times) {
    if (firstMix === null || sealed === null || cure.cure.joints.includes('tack')) continue;
    const minutes = sealed - firstMix;
    if (minutes <= limitMinutes) continue;
    const stage = layupStageId('layup', cure.cure.layups[0]!.id);
    const args = { cure: cure.cure.name, minutes, limitMinutes };
    findings.push(finding('long-wet-work', args, { stage }));
  }
  return findings;
}

/** Wet work that no stretch of the crew's hours holds. */
const pastHours = ({ build, practice }: PlanContext, plan: RoutePlan): Finding[] =>
  plan.pastHours.map(({ stage, name, start, end, longestMinutes, way }) => {
    const minutes = end - start + practice('watch-minutes');
    const when = { start, end, minutes, longestMinutes };
    const args = { work: name, ...when, way, zone: build.zone, currency: build.currency };
    return finding('wet-past-hours', args, { stage });
  });

/** When the helper is to be there, and what those hours cost. */
function helperCalled({ build }: PlanContext, { helperCalls }: RoutePlan): Finding[] {
  if (helperCalls.length === 0) return [];
  const calls = helperCalls.map(({ name, start, end }) => ({ work: name, start, end }));
  const costMinor = helperCalls.reduce((sum, call) => sum + call.costMinor, 0);
  const args = { calls, zone: build.zone, costMinor, currency: build.currency };
  return [finding('helper-called', args, { stage: helperCalls[0]!.stage })];
}

/** Work that the plan does with fewer people than it takes, though the crew has them. */
const handsShort = ({ handsShort: stages }: RoutePlan): Finding[] =>
  stages.map(({ stage, name, kind, wanted, there }) =>
    finding(
      kind === 'layup' ? 'laid-alone' : 'hands-short',
      { work: name, wanted, there },
      { stage },
    ),
  );

const leftOverBreak = ({ build }: PlanContext, plan: RoutePlan): Finding[] =>
  plan.leftOverBreak.map(({ stage, name, ...spot }) =>
    finding('left-over-break', { work: name, ...spot, zone: build.zone }, { stage }),
  );

const airShared = ({ build }: PlanContext, { sharedAir }: RoutePlan): Finding[] =>
  sharedAir.map(({ stage, name, ...spot }) =>
    finding('air-shared', { work: name, ...spot, zone: build.zone }, { stage }),
  );

/** Who carries, where nobody has said; and parties that are closed throughout. */
function carrying(
  { build, library, part, outsideClosed }: PlanContext,
  plan: RoutePlan,
): Finding[] {
  const stages = new Set(plan.network.problem.stages.map(({ id }) => id));
  return build.outside.flatMap((party) => {
    const driven = stageId({ what: 'drive', party: party.id });
    const args = {
      party: party.name,
      driveHours: driveHoursOf(party, library),
      people: part.workFor('drive').peopleMin,
    };
    return [
      ...(outsideClosed.has(party.id)
        ? [finding('party-closed', { party: party.name }, { stage: outsideStageId(party.id) })]
        : []),
      ...(party.carriedBy === null && stages.has(driven)
        ? [finding('carrier-unknown', args, { stage: driven })]
        : []),
    ];
  });
}

/** All that demould may leave to mend, against the hours that are left. */
function repairs({ part, shopHours, build, library }: PlanContext, plan: RoutePlan): Finding[] {
  const { repair } = part;
  const id = stageId({ what: 'repair' });
  const at = plan.placed.get(id);
  const done = build.records.some((record) => record.stage === id && record.end !== null);
  if (!repair || !at || done || plan.lateMinutes === null || plan.lateMinutes > 0) return [];
  const planned = part.workFor('repair').personMinutes + part.repairLaidMinutes;
  const mostMinutes = planned - repair.minutes + repair.mostMinutes;
  const people = Math.max(1, Math.min(part.workFor('repair').peopleMax, build.crew.length));
  const cure = repair.pliesChance > 0 && !repair.cures;
  // A night of cure costs the shop a day of its hours.
  const nightMinutes = cure ? workDayMinutes(library) : 0;
  const spareMinutes = workBetween(shopHours, at.start, at.latestStart ?? at.start);
  if ((mostMinutes - planned) / people + nightMinutes <= spareMinutes) return [];
  const args = { plannedMinutes: planned, mostMinutes, cure, spareMinutes };
  return [finding('repair-over-spare', args, { stage: id })];
}

/** Suppliers that deliver nothing, and what nobody knows the lead time of. */
function deliveries(context: PlanContext, { deliveries: all }: RoutePlan): Finding[] {
  const names = (lines: readonly KitLine[]) => lines.map(({ name }) => name);
  const unknown = all.flatMap((delivery) => delivery.unknown);
  return [
    ...all.flatMap(({ supplier, name, lines }) => {
      if (!context.supplierHours[supplier]?.closed) return [];
      const args = { supplier: name, lines: names(lines) };
      return [finding('supplier-closed', args, { stage: stageId({ what: 'order', supplier }) })];
    }),
    ...(unknown.length > 0 ? [finding('lead-time-unknown', { lines: names(unknown) })] : []),
  ];
}

function questions({ build, library }: PlanContext, plan: RoutePlan): Finding[] {
  return build.part.questions
    .filter((question) => question.answer === null)
    .map((question) => {
      const [stage] = heldUp(question, plan.network.problem.stages, build, library);
      const args = { question: question.text, holdsUp: stage?.name ?? null };
      return finding('question-open', args, { stage: stage?.id ?? null });
    });
}

function weight({ build }: PlanContext, plan: RoutePlan): Finding[] {
  const { targetMassKg, targetIncludes: counts } = build.part;
  const { massKg } = plan;
  if (targetMassKg === null || massKg <= targetMassKg) return [];
  // A bare shell is weighed before any filler lies on it.
  const fillerKg = counts === 'shell' ? 0 : plan.fillerKg;
  return [finding('weight-over', { counts, fillerKg, massKg, targetMassKg })];
}

/** A route that needs much filler: one heavy go or several thin ones, by the table. */
function fillAdvice({ part, practice }: PlanContext, plan: RoutePlan): Finding[] {
  const { fillerKg } = plan;
  if (fillerKg < practice('much-filler-kg-m2') * part.areaM2) return [];
  const choice = plan.fill;
  if (!choice || choice.better !== 'one-heavy') return [];
  const { extraMinutes, extraWaitHoursAt20C: extraWaitHours } = choice;
  return [finding('fill-in-one-go', { fillerKg, extraMinutes, extraWaitHours })];
}

/** A hollow of a depth that somebody gave: the way it is filled, and what the others would take. */
function fillLifts({ build, fillWays }: PlanContext): Finding[] {
  const { deepestFillMm } = build.part;
  const [taken, ...others] = fillWays;
  if (deepestFillMm === null || !taken || taken.refused !== null) return [];
  const told = ({ row, lifts, nights, costMinor, refused }: FillWay) => ({
    ...{ name: row.name, lifts, nights, refused },
    moreMinor: costMinor - taken.costMinor,
  });
  const stage = stageId({ what: 'fair', round: '1' });
  const args = {
    deepestMm: deepestFillMm,
    liftMm: taken.filling.liftMm,
    taken: told(taken),
    others: others.map(told),
    currency: build.currency,
  };
  return [finding('fill-lifts', args, { stage })];
}
