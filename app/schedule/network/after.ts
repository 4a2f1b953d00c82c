/** From the last bag in the mould to the hand-over: demould, trim, edge, fairing, paint. */
import { finishingRounds } from '../../part/labour.ts';
import type { MonotoneMap } from '../problem.ts';
import { milestoneMap, type NetworkBuilder } from './builder.ts';
import { cureStages, prepareSurface, stageId, type CureStages } from './cures.ts';
import { handIn, outsideJob } from './outside.ts';
import { waitMap } from './wait.ts';

/** Lays out everything after the last chain cure. */
export function stagesAfter(net: NetworkBuilder, last: CureStages | null): void {
  const off = demould(net, last);
  const edged = afterTrim(net, trim(net, last, off));
  const fitted =
    net.labour({ id: 'fit-check', name: 'Fit check and weigh', kind: 'fit-check' }) ?? edged;
  net.after(edged, fitted === edged ? null : fitted, 'edges are closed');
  const finished = finishing(net, fitted ?? edged);
  handOver(net, finished);
}

/** Post-cure on the mould where the paint or the sun needs it, then demould. */
function demould(net: NetworkBuilder, last: CureStages | null): string | null {
  if (!last) return null;
  let ready = last.bagOff;
  const post = net.input.postCure;
  if (post) {
    const postCure = net.elapsed(
      { id: 'post-cure', name: 'Post-cure on the mould', kind: 'post-cure' },
      post.minutes,
      [
        { resource: 'mould', amount: 1 },
        { resource: 'tent', amount: 1 },
      ],
    );
    net.after(ready, postCure, 'the bag is off');
    const gel = milestoneMap(last.setup.clock, 'gel');
    const rested = {
      apply: (x: number) => plus(gel.apply(x), post.afterGelMinutes),
      latest: (y: number) => gel.latest(y - post.afterGelMinutes),
      earliest: (y: number) => gel.earliest(y - post.afterGelMinutes),
    };
    net.relate('at-least', 'start', last.lastLayup, postCure, rested, 'heat comes well after gel');
    ready = postCure;
  }
  const off = net.labour({ id: 'demould', name: 'Demould and weigh', kind: 'demould' });
  net.after(ready, off, 'the bag is off');
  const strong = milestoneMap(last.setup.clock, 'demould');
  net.relate('at-least', 'start', last.cure, off, strong, 'strong enough to leave the mould');
  return off ?? ready;
}

const plus = (minute: number | null, lag: number): number | null =>
  minute === null ? null : minute + lag;

function trim(net: NetworkBuilder, last: CureStages | null, off: string | null): string | null {
  const trimmed = net.labour({
    id: 'trim',
    name: 'Trim to line',
    kind: 'trim',
    air: 'dust',
    gear: [{ resource: 'bench', amount: 1 }],
  });
  net.after(off, trimmed, 'the part is out of the mould');
  if (last) {
    const sand = milestoneMap(last.setup.clock, 'sand');
    net.relate('at-least', 'start', last.cure, trimmed, sand, 'hard enough to cut and sand');
  }
  return trimmed ?? off;
}

/** Cures made on the trimmed part, each with its own surface work: local plies, closeout. */
function afterTrim(net: NetworkBuilder, trimmed: string | null): string | null {
  let ready = trimmed;
  for (const setup of net.input.cures.filter(({ cure }) => cure.place === 'after-trim')) {
    const layup = setup.cure.layups[0]!;
    const stages = cureStages(net, setup);
    const name = layup.name.toLowerCase();
    const prepared =
      layup.id === 'closeout'
        ? edgeWork(net, stages)
        : prepareSurface(net, { layup: stages.firstLayup, key: layup.id, name });
    net.after(ready, prepared ?? stages.firstLayup, 'the part is trimmed');
    ready = stages.bagOff;
  }
  return ready;
}

/** Core cut back, filled and rounded before the tape goes on. */
function edgeWork(net: NetworkBuilder, closeout: CureStages): string | null {
  const edge = net.labour({
    id: stageId('closeout', 'closeout'),
    name: 'Rebate core, fill and round the edge',
    kind: 'closeout',
    air: 'dust',
  });
  net.after(edge, closeout.firstLayup, 'the edge is filled and round');
  return edge;
}

/** Fairing and priming rounds in the library's order, each with its drying time. */
function finishing(net: NetworkBuilder, start: string | null): string | null {
  const { build, library, extraFairMinutes, model, profile, cures } = net.input;
  const rounds = finishingRounds(build, library);
  const bags = cures.length;
  let previous = start;
  let lag: MonotoneMap | number = 0;
  for (const [i, { row, personMinutes }] of rounds.entries()) {
    const extra = i === 0 ? extraFairMinutes : 0;
    const round = net.handsOn({
      id: stageId(row.stage, String(row.step)),
      name: row.name,
      kind: row.stage,
      personMinutes: personMinutes + extra,
      peopleMax: 2,
      air: row.air,
    });
    net.after(previous, round, 'the round before has dried', lag);
    if (i === 0 && bags > 0) sandable(net, round);
    previous = round;
    lag = row.waitHoursAt20C > 0 ? waitMap(model, profile, row.waitHoursAt20C) : 0;
  }
  if (previous === start || typeof lag === 'number') return previous;
  const dry = net.running(
    { id: 'wait:finish', name: 'Last coat dries', kind: 'wait' },
    { kind: 'function', endOf: lag.apply, latestStart: lag.latest },
  );
  net.after(previous, dry, 'the last coat dries');
  return dry;
}

/** Nothing is faired before every cure can be sanded. */
function sandable(net: NetworkBuilder, round: string): void {
  for (const { cure, clock } of net.input.cures) {
    const stage = stageId('cure', cure.layups[0]!.id);
    const sand = milestoneMap(clock, 'sand');
    net.relate('at-least', 'start', stage, round, sand, 'hard enough to sand');
  }
}

/** Outside jobs in the order of the build, hardware, the shop's spare time, hand-over. */
function handOver(net: NetworkBuilder, finished: string | null): void {
  let ready = finished;
  for (const party of net.input.build.outside.filter((p) => p.kind !== 'machining')) {
    const gate = handIn(net, party);
    const job = outsideJob(net, party);
    if (gate) {
      net.after(ready, gate, 'the part is ready for them');
      net.straightAfter(gate, job, 'work is taken in on that weekday');
    } else {
      net.after(ready, job, 'the part is ready for them');
    }
    ready = job;
  }
  const hardware = net.labour({ id: 'hardware', name: 'Fit hardware', kind: 'hardware' });
  net.after(ready, hardware, 'paint is hard');
  const over = net.labour({ id: 'hand-over', name: 'Hand over', kind: 'hand-over' });
  net.after(hardware ?? ready, over, 'everything is on the part');
}
