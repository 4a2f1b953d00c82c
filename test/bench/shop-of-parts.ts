/** Demo problem: parts of one shape that share two people, one room and a few moulds and ports. */
import type { AirKind } from '../../app/document/schema.ts';
import type { Mode, Problem, Relation, StageSpec } from '../../app/schedule/problem.ts';
import type { Calendar } from '../../app/time/instant.ts';

/** A Monday, 00:00 UTC. */
const MONDAY = Date.UTC(2027, 3, 19) / 60_000;
const MINUTES_PER_DAY = 1440;

const shift = (days: number): Calendar =>
  Array.from({ length: days }, (_, day) => day)
    .filter((day) => day % 7 < 5)
    .map((day) => ({
      start: MONDAY + day * MINUTES_PER_DAY + 450,
      end: MONDAY + day * MINUTES_PER_DAY + 990,
    }));

const KINDS = ['cut', 'release', 'wet', 'cure', 'strip', 'sand', 'wet', 'cure', 'demould', 'fill'];

function stageOf(part: number, n: number, hours: Calendar): StageSpec {
  const kind = KINDS[n % KINDS.length]!;
  const hands = (who: string): Mode => ({
    id: who,
    uses: [{ resource: who, amount: 1 }],
    calendar: hours,
    length: {
      kind: 'work',
      minutes: 45 + ((part * 7 + n * 13) % 8) * 15,
      unbroken: kind === 'wet',
    },
  });
  const cure: Mode = {
    id: 'cure',
    uses: [{ resource: 'port', amount: 1 }],
    calendar: null,
    length: { kind: 'elapsed', minutes: 600 },
  };
  const air: Record<string, AirKind> = { wet: 'wet', sand: 'dust', release: 'release' };
  return {
    id: `p${part}-${String(n).padStart(2, '0')}`,
    name: `Part ${part} ${kind} ${n}`,
    kind: 'own',
    cure: null,
    modes: kind === 'cure' ? [cure] : [hands('ann'), hands('bo')],
    release: null,
    due: null,
    fixedStart: null,
    fixedEnd: null,
    air: air[kind] ?? null,
    perishable: kind === 'release',
  };
}

/** `parts` chains of `stages` stages each, in one shop. */
export function manyParts(parts: number, stages: number): Problem {
  const days = 30 + Math.ceil((parts * stages) / 2);
  const hours = shift(days);
  const all = Array.from({ length: parts }, (_, part) =>
    Array.from({ length: stages }, (_, n) => stageOf(part, n, hours)),
  );
  const relations = all.flatMap((chain) =>
    chain.slice(1).map((stage, i): Relation => ({
      type: 'at-least',
      from: chain[i]!.id,
      anchor: 'end',
      to: stage.id,
      lag: 0,
      why: 'own-order',
    })),
  );
  return {
    from: MONDAY,
    due: MONDAY + (days - 7) * MINUTES_PER_DAY,
    horizon: MONDAY + days * MINUTES_PER_DAY,
    resources: [
      { id: 'ann', name: 'Ann', capacity: 1 },
      { id: 'bo', name: 'Bo', capacity: 1 },
      { id: 'port', name: 'Pump ports', capacity: 4 },
    ],
    stages: all.flat(),
    relations,
    airSettleMinutes: 60,
  };
}
