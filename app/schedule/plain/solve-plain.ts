/** The plain case: which search takes it, and what it proves. */
import { geneticSearch } from './genetic.ts';
import { LagSearch } from './lagged.ts';
import { isPrecedenceOnly, type PlainEffort, type PlainModel, type PlainResult } from './model.ts';
import { networksOf } from './network.ts';

/**
 * The shortest schedule found within a count of schedules. Precedences alone go to the two
 * populations, greatest lags to the complete search.
 * @throws Error when precedences form a cycle.
 */
export function solvePlain(model: PlainModel, effort: PlainEffort): PlainResult {
  return isPrecedenceOnly(model) ? solvePrecedences(model, effort) : solveLags(model, effort);
}

function solvePrecedences(model: PlainModel, effort: PlainEffort): PlainResult {
  const { forward, backward } = networksOf(model);
  const lowerBound = lowerBoundOf(model, forward.tail[0]!);
  const found = geneticSearch(forward, backward, scarcity(model), lowerBound, effort);
  return {
    starts: Array.from(found.start),
    makespan: found.makespan,
    lowerBound,
    infeasible: false,
    generated: found.generated,
  };
}

/** The longest path, or the work that the scarcest resource has to do. */
function lowerBoundOf(model: PlainModel, longestPath: number): number {
  return model.capacity.reduce((bound, capacity, k) => {
    const work = model.demand.reduce((sum, row, i) => sum + row[k]! * model.duration[i]!, 0);
    return capacity > 0 ? Math.max(bound, Math.ceil(work / capacity)) : bound;
  }, longestPath);
}

/** Share of all capacities that each activity takes while it runs. */
const scarcity = (model: PlainModel): Float64Array =>
  Float64Array.from(model.demand, (row) =>
    row.reduce((sum, amount, k) => sum + (amount > 0 ? amount / model.capacity[k]! : 0), 0),
  );

function solveLags(model: PlainModel, effort: PlainEffort): PlainResult {
  const search = new LagSearch(model, effort);
  const exhausted = search.run() === 'exhausted';
  return {
    starts: search.starts,
    makespan: search.starts ? search.makespan : null,
    lowerBound: exhausted && search.starts ? search.makespan : search.lowerBound,
    infeasible: exhausted && search.starts === null,
    generated: search.generated,
  };
}
