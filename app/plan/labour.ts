/** The hours of a plan row by row: work by the rates, and what the choices at the bench bring later. */
import { stageId } from '../document/ids.ts';
import type { ConsequenceRow, FullBuild, Library, StageKind } from '../document/schema.ts';
import { finishingRounds } from '../part/labour.ts';
import type { Network } from '../schedule/network/network.ts';
import type { Consequences, ConsequenceLine } from './consequences.ts';

/** One row of the count of hours. */
export type LabourEntry = {
  readonly id: string;
  readonly name: string;
  /** Of one person, the average where it happens only sometimes; negative where a choice saves work. */
  readonly personMinutes: number;
} & (
  | { readonly of: 'stage'; readonly kind: StageKind }
  | { readonly of: 'price'; readonly event: ConsequenceRow['event'] }
);

/**
 * Stages in the order of the network, then the price of the route line by line. Work of a price that
 * is sure is done in the first round of fairing; it stands in its own row, not in the round's.
 * @param price the price of the route, surfaces that went stale included
 */
export function labourEntries(
  { build, library }: { readonly build: FullBuild; readonly library: Library },
  { problem, personMinutes }: Network,
  { sureMinutes }: Consequences,
  price: readonly ConsequenceLine[],
): LabourEntry[] {
  const first = firstRound(build, library);
  const stages = problem.stages.flatMap(({ id, name, kind }): LabourEntry[] => {
    const minutes = (personMinutes[id] ?? 0) - (id === first ? sureMinutes : 0);
    return minutes !== 0 ? [{ of: 'stage', id, name, kind, personMinutes: minutes }] : [];
  });
  const later = price.flatMap(({ event, name, chance, minutes }, i): LabourEntry[] => {
    if (minutes === 0) return [];
    const often = chance < 1 ? `, on average (${Math.round(chance * 100)} % of jobs)` : '';
    const id = `price:${i + 1}-${event}`;
    return [{ of: 'price', id, name: `${name}${often}`, event, personMinutes: minutes }];
  });
  return [...stages, ...later];
}

/** The round of fairing in which a price that is sure is worked off. */
function firstRound(build: FullBuild, library: Library): string | null {
  const row = finishingRounds(build, library)[0]?.row;
  return row ? stageId({ what: row.stage, round: String(row.step) }) : null;
}
