/** Findings about people, materials and weight. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { elapsed, plain } from '../messages/words.ts';
import type { PartCheck } from '../part/checks.ts';
import type { PlanContext } from '../plan/context.ts';
import type { CureTimes } from '../plan/cureTimes.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { finding } from './finding.ts';

export function materialFindings(
  context: PlanContext,
  plan: RoutePlan,
  times: readonly CureTimes[],
  facts: readonly PartCheck[],
): Finding[] {
  if (context.part.layups.length === 0) {
    return [finding('part-empty', 'stop', 'Give at least one zone an area and a ply.')];
  }
  return [
    ...crewFindings(context, times),
    ...questions(context, plan),
    ...weight(context, plan),
    ...fillAdvice(context, plan),
    ...facts.map(factFinding),
  ];
}

function crewFindings(context: PlanContext, times: readonly CureTimes[]): Finding[] {
  const { build, practice } = context;
  if (build.crew.length === 0) {
    return [finding('crew-empty', 'stop', 'Nobody is in the crew: add a name and hours.')];
  }
  const wanted = Math.max(0, ...context.part.layups.map((layup) => layup.peopleMin));
  const findings: Finding[] = [];
  if (wanted > build.crew.length) {
    const message =
      `Wet work here wants ${wanted} people and the crew has ${build.crew.length}. ` +
      'Nobody should laminate alone: find a second pair of hands.';
    findings.push(finding('works-alone', 'warn', message));
  }
  const limit = practice('long-wet-work-hours') * 60;
  for (const { firstMix, sealed, cure } of times) {
    if (firstMix === null || sealed === null || cure.cure.joints.includes('tack')) continue;
    if (sealed - firstMix <= limit) continue;
    const message =
      `${cure.cure.name}: ${elapsed(sealed - firstMix)} of wet work in one go. Over ` +
      `${elapsed(limit)} people tire and mix badly; never alone.`;
    const stage = layupStageId('layup', cure.cure.layups[0]!.id);
    findings.push(finding('long-wet-work', 'warn', message, { stage }));
  }
  return findings;
}

function questions({ build }: PlanContext, plan: RoutePlan): Finding[] {
  return build.part.questions
    .filter((question) => question.answer === null)
    .map((question) => {
      const stage = plan.network.problem.stages.find((s) => s.kind === question.before);
      const message =
        `Not settled: ${question.text} ${stage ? `It holds up '${stage.name}'.` : ''}`.trim();
      return finding('question-open', 'warn', message, { stage: stage?.id ?? null });
    });
}

function weight({ build }: PlanContext, plan: RoutePlan): Finding[] {
  const target = build.part.targetMassKg;
  if (target === null || plan.massKg <= target) return [];
  const what = { shell: 'bare shell', faired: 'faired part', painted: 'painted part' };
  const fillerKg = plan.price.reduce((sum, line) => sum + line.fillerKg, 0);
  const filler = fillerKg >= 0.05 ? ` with ${plain(fillerKg)} kg of filler for this route` : '';
  const message =
    `The ${what[build.part.targetIncludes]}${filler} comes out at about ${plain(plan.massKg)} kg; ` +
    `the target is ${plain(target)} kg.`;
  const numbers = { massKg: Number(plan.massKg.toFixed(2)), targetMassKg: target };
  return [finding('weight-over', 'warn', message, { numbers })];
}

/** A route that needs much filler: one heavy go or several thin ones, by the table. */
function fillAdvice({ part, practice }: PlanContext, plan: RoutePlan): Finding[] {
  const fillerKg = plan.price.reduce((sum, line) => sum + line.fillerKg, 0);
  if (fillerKg < practice('much-filler-kg-m2') * part.areaM2) return [];
  const choice = plan.fill;
  if (!choice || choice.better !== 'one-heavy') return [];
  const message =
    `This route needs about ${plain(fillerKg)} kg of filler. Put it on in one heavy go and sand ` +
    `longer: several thin fills take ${elapsed(choice.extraMinutes)} more work and ` +
    `${plain(choice.extraWaitHoursAt20C)} h more drying.`;
  const numbers = { fillerKg: Number(fillerKg.toFixed(2)) };
  return [finding('fill-in-one-go', 'note', message, { numbers })];
}

/** What part/ has noted; codes and words are its own. */
const factFinding = ({ code, severity, message, numbers }: PartCheck): Finding =>
  finding(code, severity, message, { numbers: { ...numbers } });
