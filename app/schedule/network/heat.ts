/** Heat as work: tent up, heat, tent down; for a post-cure and for the programme over one cure. */
import { begunStages } from '../../document/records.ts';
import { layupStageId, stageId } from '../../document/ids.ts';
import { postCureOn, STAGE_NAMES } from '../../messages/stages.ts';
import type { Use } from '../problem.ts';
import { gear, laterBy, milestoneMap, type NetworkBuilder } from './builder.ts';
import type { CureSetup, PostCureSetup } from './input.ts';
import { hoursOfAnybody } from './orders.ts';
import { nextWorkday } from './workday.ts';

/**
 * The post-cure of a place, where the part has one: set up once `ready`, begun when the shop may switch
 * heat on, and taken down before anything else happens to the part.
 * @returns the stage that frees the part: the tent is down, else `ready`
 */
export function postCured(
  net: NetworkBuilder,
  place: PostCureSetup['place'],
  ready: string | null,
): string | null {
  const post = net.input.postCures.find((one) => one.place === place);
  if (!post) return ready;
  const { number, minutes, starts } = post;
  const up = begun(net, stageId({ what: 'post-cure', number }))
    ? null
    : net.labour({
        ref: { what: 'post-cure-setup', number },
        name: STAGE_NAMES.heatSetup(postCureOn(place)),
        kind: 'heat-setup',
        gear: heated(net, place),
      });
  const heat = net.elapsed(
    { ref: { what: 'post-cure', number }, name: STAGE_NAMES.postCure(place), kind: 'post-cure' },
    minutes,
    heated(net, place),
    starts,
  );
  const down = net.labour({
    ref: { what: 'post-cure-takedown', number },
    name: STAGE_NAMES.heatTakedown(postCureOn(place)),
    kind: 'heat-takedown',
    gear: heated(net, place),
  });
  keepTent(net, [up, heat, down]);
  net.after(ready, up ?? heat, place === 'mould' ? 'bag-off' : 'edge-closed');
  net.after(up, heat, 'tent-stands');
  net.after(heat, down, 'cooled-under-support');
  rested(net, post, heat);
  return down ?? heat;
}

/** Recorded as begun: the tent was up by then, even where that was not recorded. */
export const begun = ({ input }: NetworkBuilder, stage: string): boolean =>
  begunStages(input.build).has(stage);

const heated = (net: NetworkBuilder, place: PostCureSetup['place']): Use[] =>
  place === 'mould' ? [gear('mould'), ...tent(net)] : tent(net);

/** A tent that is kept while it stands is not asked for by each stage as well. */
export const tent = (net: NetworkBuilder): Use[] => (net.tentIsShared ? [] : [gear('tent')]);

/** Where others want the tent: it stands from its set-up to its end of take-down, nights between as well. */
export function keepTent(net: NetworkBuilder, stages: readonly (string | null)[]): void {
  const own = stages.filter((stage) => stage !== null);
  if (net.tentIsShared) net.keep('tent', own[0]!, own.at(-1)!, own);
}

/** Heat comes well after the gel of everything that goes into it. */
function rested(
  net: NetworkBuilder,
  { place, afterGelMinutes }: PostCureSetup,
  heat: string,
): void {
  const known = new Set(net.stages.map(({ id }) => id));
  for (const { cure, clock } of net.input.cures) {
    if (place === 'mould' && cure.place !== 'chain') continue;
    const curing = layupStageId('cure', cure.layups[0]!.id);
    // What is laid on the part after this heat is not in the network yet.
    if (!known.has(curing)) continue;
    const gel = milestoneMap(clock, 'gel');
    const lag = laterBy(gel, afterGelMinutes);
    net.relate('at-least', 'start', curing, heat, lag, 'heat-after-gel');
  }
}

/** Tent up before the bag of a heated cure is down, and down again before the bag comes off. */
export function tentOver(
  net: NetworkBuilder,
  { cure, heatMinutes }: CureSetup,
  curing: string,
): string {
  if (!heatMinutes) return curing;
  const key = cure.layups[0]!.id;
  const name = cure.name.toLowerCase();
  const wet = cure.layups.map(({ id }) => layupStageId('layup', id));
  const up = [curing, ...wet].some((id) => begun(net, id))
    ? null
    : net.labour({
        ref: { what: 'tent-setup', layup: key },
        name: STAGE_NAMES.heatSetup(name),
        kind: 'heat-setup',
        cure: cure.id,
        gear: tent(net),
      });
  const down = net.labour({
    ref: { what: 'tent-takedown', layup: key },
    name: STAGE_NAMES.heatTakedown(name),
    kind: 'heat-takedown',
    cure: cure.id,
    gear: tent(net),
  });
  keepTent(net, [up, curing, down]);
  net.after(up, curing, 'tent-stands');
  // The day before is soon enough: a tent is in the way, and a heater that was tried is moved.
  const soon = nextWorkday(hoursOfAnybody(net), net.input.build.zone);
  net.within(up, curing, soon, 'tent-in-time');
  net.after(curing, down, 'heat-off');
  return down ?? curing;
}
