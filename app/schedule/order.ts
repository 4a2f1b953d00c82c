/** A plan's own resource order: who hands each person, port and tool on to whom. */
import { airOf, type Compiled } from './compile.ts';
import { NEVER } from './length.ts';
import type { Assignment } from './serial.ts';
import type { OrderArc } from './windows.ts';

/** A stretch of use of one resource, from the start of one stage to the end of another. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly amount: number;
  readonly start: number;
  readonly end: number;
}

function stretchesOf(compiled: Compiled, plan: Assignment): Stretch[][] {
  const byResource: Stretch[][] = compiled.capacity.map(() => []);
  for (const stage of compiled.stages) {
    const i = stage.index;
    if (plan.end[i]! <= plan.start[i]!) continue;
    for (const use of stage.modes[plan.mode[i]!]?.uses ?? []) {
      byResource[use.resource]!.push({
        from: i,
        to: i,
        amount: use.amount,
        start: plan.start[i]!,
        end: plan.end[i]!,
      });
    }
  }
  for (const hold of compiled.holds) {
    byResource[hold.resource]!.push({
      ...hold,
      start: plan.start[hold.from]!,
      end: plan.end[hold.to]!,
    });
  }
  return byResource;
}

/** Hands units of one resource on in order of start: every pass over the arcs keeps its capacity. */
function chain(stretches: Stretch[], capacity: number, resource: number, out: OrderArc[]): void {
  stretches.sort((a, b) => a.start - b.start || a.end - b.end || a.from - b.from);
  const units: (Stretch | null)[] = new Array<Stretch | null>(capacity).fill(null);
  for (const stretch of stretches) {
    const free = units
      .map((last, unit) => ({ last, unit }))
      .filter(({ last }) => last === null || last.end <= stretch.start)
      .sort((a, b) => (b.last?.end ?? NEVER) - (a.last?.end ?? NEVER) || a.unit - b.unit);
    const givers = new Set<number>();
    for (const { last, unit } of free.slice(0, stretch.amount)) {
      units[unit] = stretch;
      if (last && last.to !== stretch.from) givers.add(last.to);
    }
    for (const from of givers) out.push({ from, to: stretch.from, gap: 0, resource });
  }
}

function airOrder(compiled: Compiled, plan: Assignment, out: OrderArc[]): void {
  const gap = compiled.problem.airSettleMinutes;
  const users = compiled.stages
    .filter((stage) => airOf(stage, plan.mode[stage.index]!) >= 0)
    .filter((stage) => plan.end[stage.index]! > plan.start[stage.index]!)
    .sort((a, b) => plan.start[a.index]! - plan.start[b.index]!);
  for (let k = 0; k < users.length; k++) {
    const to = users[k]!;
    for (let h = 0; h < k; h++) {
      const from = users[h]!;
      if (from.air !== to.air) out.push({ from: from.index, to: to.index, gap, resource: -1 });
    }
  }
}

/** Order arcs under which the plan's starts are feasible and any pass keeps all capacities. */
export function resourceOrder(compiled: Compiled, plan: Assignment): OrderArc[] {
  const out: OrderArc[] = [];
  stretchesOf(compiled, plan).forEach((stretches, resource) =>
    chain(stretches, compiled.capacity[resource]!, resource, out),
  );
  airOrder(compiled, plan, out);
  return out;
}
