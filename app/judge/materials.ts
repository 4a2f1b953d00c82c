/** Findings about people, materials and weight. */
import { heldUp } from '../document/heldUp.ts';
import { layupStageId, stageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { PartCheck } from '../part/checks.ts';
import type { KitLine } from '../part/types.ts';
import type { PlanContext } from '../plan/context.ts';
import type { CureTimes } from '../plan/cureTimes.ts';
import type { RoutePlan } from '../plan/routePlan.ts';

export function materialFindings(
  context: PlanContext,
  plan: RoutePlan,
  times: readonly CureTimes[],
  facts: readonly PartCheck[],
): Finding[] {
  if (context.part.layups.length === 0) {
    return [finding('part-empty', {})];
  }
  return [
    ...crewFindings(context, times),
    ...deliveries(context, plan),
    ...questions(context, plan),
    ...weight(context, plan),
    ...fillAdvice(context, plan),
    ...facts.map((check) => check.finding),
  ];
}

function crewFindings(context: PlanContext, times: readonly CureTimes[]): Finding[] {
  const { build, practice } = context;
  if (build.crew.length === 0) {
    return [finding('crew-empty', {})];
  }
  const wanted = Math.max(0, ...context.part.layups.map((layup) => layup.peopleMin));
  const findings: Finding[] = [];
  if (wanted > build.crew.length) {
    findings.push(finding('works-alone', { wanted, crew: build.crew.length }));
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
