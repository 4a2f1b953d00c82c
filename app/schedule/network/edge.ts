/** The edge: closed on the trimmed part before it leaves the shop, or between two visits of it. */
import { layupStageId } from '../../document/ids.ts';
import { practiceOf } from '../../document/library.ts';
import type { FinishingRow } from '../../document/schema.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { finishingRounds } from '../../part/labour.ts';
import { milestoneMap, type NetworkBuilder } from './builder.ts';
import { cureStages, type CureStages } from './cures.ts';
import type { CureSetup } from './input.ts';
import { prepareSurface } from './surface.ts';
import { waitMap } from './wait.ts';

const closes = ({ cure }: CureSetup): boolean => cure.layups[0]!.id === 'closeout';

/** True for the cure of an edge that is closed between two visits. */
export const closesLate = (net: NetworkBuilder, setup: CureSetup): boolean =>
  net.input.build.closeoutAfter !== null && closes(setup);

/** Cures made on the trimmed part before it leaves the shop: local plies, closeout. */
export const curesAfterTrim = (net: NetworkBuilder, trimmed: string | null): string | null =>
  net.input.cures
    .filter((setup) => setup.cure.place === 'after-trim' && !closesLate(net, setup))
    .reduce<string | null>((ready, setup) => onTrimmed(net, setup, ready), trimmed);

/** One cure with its own surface work. */
function onTrimmed(net: NetworkBuilder, setup: CureSetup, ready: string | null): string {
  const layup = setup.cure.layups[0]!;
  const stages = cureStages(net, setup);
  const name = layup.name.toLowerCase();
  const prepared = closes(setup)
    ? edgeWork(net, stages)
    : prepareSurface(net, {
        layup: stages.firstLayup,
        key: layup.id,
        name,
        under: setup.cure.layups,
      });
  net.after(ready, prepared ?? stages.firstLayup, 'trimmed');
  return stages.bagOff;
}

/**
 * Core cut back, filled and rounded before the tape goes on: in one stage, or as the build says, with the
 * tape on the wet filler or after a night and a sanding. A potted rim is sanded and no more.
 */
function edgeWork(net: NetworkBuilder, closeout: CureStages): string | null {
  const { build, library, part, profile } = net.input;
  const { edge } = build.part;
  const layup = closeout.firstLayup;
  const filling = part.workFor('edge-fill').personMinutes;
  if (edge?.rim) return sandedEdge(net, layup);
  const whole = part.workFor('closeout').personMinutes;
  const split = edge !== null && filling > 0;
  const rebate = net.labour({
    ref: { what: 'closeout', layup: 'closeout' },
    name: split ? STAGE_NAMES.rebate() : STAGE_NAMES.closeout(),
    kind: 'closeout',
    air: 'dust',
    ...(split ? { personMinutes: Math.max(1, whole - filling) } : {}),
  });
  if (!split) {
    net.after(rebate, layup, 'edge-filled');
    return rebate;
  }
  const atOnce = edge.tape === 'at-once';
  const fill = net.labour({
    ref: { what: 'edge-fill' },
    name: STAGE_NAMES.edgeFill(atOnce),
    kind: 'edge-fill',
    inOneGo: true,
    air: 'wet',
  });
  net.after(rebate, fill, 'edge-rebated');
  if (atOnce) {
    net.after(fill, layup, 'edge-filled');
    net.within(fill, layup, practiceOf(library)('edge-tape-within-minutes'), 'edge-taped-wet');
    return rebate;
  }
  const hardens = waitMap(library, profile, practiceOf(library)('edge-fill-hours'));
  const hard = net.running(
    { ref: { what: 'wait', for: 'edge-fill' }, name: STAGE_NAMES.edgeFillHardens(), kind: 'wait' },
    { kind: 'function', endOf: hardens.apply, latestStart: hardens.latest },
  );
  net.after(fill, hard, 'edge-filler-dries');
  net.after(hard, sandedEdge(net, layup), 'edge-filler-dries');
  return rebate;
}

/** The hard edge sanded flush, on the day of its tape. */
function sandedEdge(net: NetworkBuilder, layup: string): string {
  const { part, library } = net.input;
  const sanded = net.handsOn({
    ref: { what: 'prepare', layup: 'closeout' },
    name: STAGE_NAMES.sandEdge(),
    kind: 'prepare',
    personMinutes: Math.max(1, practiceOf(library)('edge-sand-minutes-per-m') * part.edgeM),
    peopleMax: 2,
    air: 'dust',
  });
  net.after(sanded, layup, 'edge-filled');
  return sanded;
}

/** A round of filler on faces that are seen; the tape gets one too. */
const fillsSeen = ({ stage, finishes, waitHoursAt20C }: FinishingRow): boolean =>
  stage === 'fair' && finishes.some((finish) => finish !== 'hidden') && waitHoursAt20C > 0;

/**
 * The edge closed after a visit, where the build says so; on a face that is seen the tape is then
 * faired by itself. Returns what the next visit waits for.
 */
export function closedLate(net: NetworkBuilder, back: string): string {
  const { build, library, profile } = net.input;
  const setup = net.input.cures.find(closes);
  if (!setup) return back;
  const bagOff = onTrimmed(net, setup, back);
  const round = finishingRounds(build, library).find(({ row }) => fillsSeen(row));
  if (!round) return bagOff;
  const edgeM = setup.cure.layups.reduce((sum, layup) => sum + layup.edgeM, 0);
  const faired = net.handsOn({
    ref: { what: 'fair', round: 'edge' },
    name: STAGE_NAMES.edgeFair(),
    kind: 'fair',
    personMinutes: Math.max(1, edgeM * practiceOf(library)('late-edge-fair-minutes-per-m')),
    peopleMax: 2,
    air: 'dust',
  });
  net.after(bagOff, faired, 'bag-off');
  const sand = milestoneMap(setup.clock, 'sand');
  net.relate(
    'at-least',
    'start',
    layupStageId('cure', 'closeout'),
    faired,
    sand,
    'fit-for-sanding',
  );
  const dries = waitMap(library, profile, round.waitHoursAt20C);
  const dry = net.running(
    { ref: { what: 'wait', for: 'edge' }, name: STAGE_NAMES.edgeFillerDries(), kind: 'wait' },
    { kind: 'function', endOf: dries.apply, latestStart: dries.latest },
  );
  net.after(faired, dry, 'edge-filler-dries');
  return dry;
}
