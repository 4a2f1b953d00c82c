/** The floor's records: the newest of each stage holds, and one that takes back leaves none. */
import type { FloorRecord, FullBuild } from './schema.ts';

type Recorded = Pick<FullBuild, 'records'>;

/** The record that holds of each stage that has begun, by stage id, in the order of writing. */
export function recordsInForce({ records }: Recorded): ReadonlyMap<string, FloorRecord> {
  const newest = new Map<string, FloorRecord>();
  for (const record of records) {
    newest.delete(record.stage);
    if (!record.takenBack) newest.set(record.stage, record);
  }
  return newest;
}

/** Stages that the floor has written down as begun. */
export const begunStages = (build: Recorded): ReadonlySet<string> =>
  new Set(recordsInForce(build).keys());

/** Joints of the route that was worked by, as the newest record that notes them says; null: not noted. */
export const recordedJoints = (build: Recorded): FloorRecord['joints'] =>
  [...recordsInForce(build).values()].findLast((record) => record.joints !== null)?.joints ?? null;
