/** From the last bag in the mould to the hand-over: demould, trim, edge, fairing, paint. */
import { STAGE_NAMES } from '../../messages/stages.ts';
import { gear, milestoneMap, type NetworkBuilder } from './builder.ts';
import type { CureStages } from './cures.ts';
import { closedLate, curesAfterTrim } from './edge.ts';
import { finishing } from './finishing.ts';
import { frameThere } from './frame.ts';
import { postCured } from './heat.ts';
import { partVisits, visit } from './outside.ts';
import { pottedRim } from './rim.ts';
import { repaired } from './repair.ts';
import { Transport } from './transport.ts';

/** Lays out everything after the last chain cure. */
export function stagesAfter(net: NetworkBuilder, last: CureStages | null): void {
  const off = repaired(net, demould(net, last));
  const fits = dryFit(net, trim(net, last, off));
  const edged = postCured(net, 'supports', curesAfterTrim(net, pottedRim(net, fits)));
  const fitted =
    net.labour({ ref: { what: 'fit-check' }, name: STAGE_NAMES.fitCheck(), kind: 'fit-check' }) ??
    edged;
  net.after(edged, fitted === edged ? null : fitted, 'edges-closed');
  const finished = finishing(net, fitted ?? edged);
  handOver(net, finished);
}

/** Post-cure on the mould where it is done there, then demould. */
function demould(net: NetworkBuilder, last: CureStages | null): string | null {
  if (!last) return null;
  const ready = postCured(net, 'mould', last.bagOff);
  const off = net.labour({
    ref: { what: 'demould' },
    name: STAGE_NAMES.demould(),
    kind: 'demould',
  });
  net.after(ready, off, 'bag-off');
  const strong = milestoneMap(last.setup.clock, 'demould');
  net.relate('at-least', 'start', last.cure, off, strong, 'strong-enough');
  const tap = net.labour({
    ref: { what: 'tap-test', at: 'demould' },
    name: STAGE_NAMES.tapTestPart(),
    kind: 'tap-test',
  });
  net.after(off ?? ready, tap, 'out-of-mould');
  return tap ?? off ?? ready;
}

function trim(net: NetworkBuilder, last: CureStages | null, off: string | null): string | null {
  const trimmed = net.labour({
    ref: { what: 'trim' },
    name: STAGE_NAMES.trim(),
    kind: 'trim',
    air: 'dust',
    gear: [gear('bench')],
  });
  net.after(off, trimmed, net.input.part.repair ? 'marks-repaired' : 'out-of-mould');
  if (last) {
    const sand = milestoneMap(last.setup.clock, 'sand');
    net.relate('at-least', 'start', last.cure, trimmed, sand, 'fit-for-cutting');
  }
  return trimmed ?? off;
}

/** Held to the frame while its edge can still be cut; only where an edge is closed or a frame is spoken of. */
function dryFit(net: NetworkBuilder, trimmed: string | null): string | null {
  const { build } = net.input;
  if (!build.part.frame && !build.part.zones.some((zone) => zone.closeout)) return trimmed;
  const fitted = net.labour({
    ref: { what: 'dry-fit' },
    name: STAGE_NAMES.dryFit(),
    kind: 'dry-fit',
    ...frameThere(build),
  });
  net.after(trimmed, fitted, 'trimmed');
  return fitted ?? trimmed;
}

/** Outside jobs in the order of the build, hardware, hand-over. */
function handOver(net: NetworkBuilder, finished: readonly string[]): void {
  let ready = finished;
  const way = new Transport(net);
  for (const party of partVisits(net.input.build)) {
    const job = way.back(party, visit(net, party, way.out(party, ready)));
    ready = [party.id === net.input.build.closeoutAfter ? closedLate(net, job) : job];
  }
  const hardware = net.labour({
    ref: { what: 'hardware' },
    name: STAGE_NAMES.hardware(),
    kind: 'hardware',
  });
  const over = net.labour({
    ref: { what: 'hand-over' },
    name: STAGE_NAMES.handOver(),
    kind: 'hand-over',
  });
  for (const stage of ready) net.after(stage, hardware, 'paint-hard');
  way.beforeFittings(hardware);
  for (const stage of hardware ? [hardware] : ready) {
    net.after(stage, over, 'on-the-part');
  }
}
