/** Findings about a part that carries load: its joints, its late plies, its surfaces. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RoutePlan } from '../plan/routePlan.ts';

/** Trade practice alone (common practice, no source); a part that carries nothing has none of them. */
export function structuralFindings(context: PlanContext, plan: RoutePlan): Finding[] {
  if (!context.build.part.structural) return [];
  return [
    ...movedFibre(plan),
    ...lateLocals(context),
    ...bareTape(context),
    ...scuffed(context, plan),
  ];
}

function movedFibre({ route, price }: RoutePlan): Finding[] {
  const joints = route.cures.flatMap((cure) =>
    cure.joints.flatMap((state, i) => {
      const [before, after] = [cure.layups[i]!, cure.layups[i + 1]!];
      if (state === 'one-bag' && after.partOf === before.id) return [];
      return { before: before.name, after: after.name, state };
    }),
  );
  if (joints.length === 0) return [];
  const priced = price.filter(({ event }) => event === 'joint-one-bag' || event === 'joint-tack');
  const minutes = priced.reduce((sum, line) => sum + line.minutes, 0);
  const stage = layupStageId(
    'layup',
    route.cures.find((cure) => cure.joints.length > 0)!.layups[0]!.id,
  );
  return [finding('structural-merge', { joints, minutes }, { stage })];
}

function lateLocals({ part }: PlanContext): Finding[] {
  const late = part.layups.find((layup) => layup.id === 'local-after');
  if (!late) return [];
  const stage = layupStageId('layup', late.id);
  return [finding('structural-local-after', { areaM2: late.areaM2 }, { stage })];
}

/** Tape that is cured bare ages within a day and is then washed, dried and abraded. */
function bareTape({ build }: PlanContext): Finding[] {
  const bare = build.part.zones.filter((zone) => zone.closeout && !zone.closeout.peelPly);
  if (bare.length === 0) return [];
  const zones = bare.map((zone) => zone.name);
  return [
    finding('structural-no-peel-ply', { zones }, { stage: layupStageId('layup', 'closeout') }),
  ];
}

function scuffed({ practice, part }: PlanContext, { network, abraded }: RoutePlan): Finding[] {
  const { stages, relations } = network.problem;
  // Bare core has no peel ply: what is scuffed there are overlaps, as part of making it ready.
  const others = new Set([
    ...abraded.map(({ stage }) => stage),
    ...relations.filter(({ why }) => why === 'core-vacuumed').map(({ from }) => from),
  ]);
  const bonds = stages.filter(({ kind, id }) => kind === 'prepare' && !others.has(id));
  if (bonds.length === 0) return [];
  const args = {
    bonds: bonds.length,
    minutesEach: practice('structural-scuff-minutes-per-m2') * part.areaM2,
    withinHours: practice('strip-to-bond-hours'),
  };
  return [finding('structural-scuff', args, { stage: bonds[0]!.id })];
}
