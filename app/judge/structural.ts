/** Findings about a part that carries load: its joints, its late plies, its surfaces. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { elapsed, listed, plain } from '../messages/words.ts';
import type { PlanContext } from '../plan/context.ts';
import type { RoutePlan } from '../plan/routePlan.ts';
import { mergeWords } from './closingWords.ts';
import { finding } from './finding.ts';

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
  const merged = route.cures.flatMap((cure) =>
    cure.joints.map((state, i) => {
      const [before, after] = [cure.layups[i]!, cure.layups[i + 1]!];
      return `the ${mergeWords({ id: '', before, after }, state)}`;
    }),
  );
  if (merged.length === 0) return [];
  const joints = price.filter(({ event }) => event === 'joint-one-bag' || event === 'joint-tack');
  const minutes = joints.reduce((sum, line) => sum + line.minutes, 0);
  const message =
    `The part carries load, and fibre may move in ${listed(merged)}: cured apart it lies straightest. ` +
    `Cutting out and making good is counted with ${elapsed(minutes)} of work.`;
  const stage = layupStageId(
    'layup',
    route.cures.find((cure) => cure.joints.length > 0)!.layups[0]!.id,
  );
  const numbers = { joints: merged.length, hours: Number((minutes / 60).toFixed(1)) };
  return [finding('structural-merge', 'warn', message, { stage, numbers })];
}

function lateLocals({ part }: PlanContext): Finding[] {
  const late = part.layups.find((layup) => layup.id === 'local-after');
  if (!late) return [];
  const message =
    'The part carries load, and its local plies are laid on the demoulded part: a bond on a cured, ' +
    'abraded skin. Between the skins they cure with the laminate.';
  const numbers = { areaM2: Number(late.areaM2.toFixed(2)) };
  return [
    finding('structural-local-after', 'warn', message, {
      stage: layupStageId('layup', late.id),
      numbers,
    }),
  ];
}

/** Tape that is cured bare ages within a day and is then washed, dried and abraded. */
function bareTape({ build }: PlanContext): Finding[] {
  const bare = build.part.zones.filter((zone) => zone.closeout && !zone.closeout.peelPly);
  if (bare.length === 0) return [];
  const message =
    `The part carries load, and the edge of ${listed(bare.map((zone) => zone.name))} is closed without ` +
    'peel ply: what is bonded to it later wants washing, drying and abrading P80 to P120.';
  const stage = layupStageId('layup', 'closeout');
  return [finding('structural-no-peel-ply', 'warn', message, { stage })];
}

function scuffed({ practice, part }: PlanContext, { network, abraded }: RoutePlan): Finding[] {
  const bonds = network.problem.stages.filter(
    (stage) => stage.kind === 'prepare' && !abraded.includes(stage.id),
  );
  if (bonds.length === 0) return [];
  const each = practice('structural-scuff-minutes-per-m2') * part.areaM2;
  const message =
    `The part carries load: ${bonds.length === 1 ? 'its bond' : `each of its ${bonds.length} bonds`} ` +
    `on a cured skin gets a light scuff after the peel ply is stripped, ${elapsed(each)} each, and is ` +
    `made within ${plain(practice('strip-to-bond-hours'), 0)} h.`;
  const numbers = { bonds: bonds.length, minutesEach: Math.round(each) };
  return [finding('structural-scuff', 'note', message, { stage: bonds[0]!.id, numbers })];
}
