/**
 * Small builds in which everything that has a price is there to be paid: dates missed, surfaces abraded
 * again, wet work that tires, overtime, and starts that rules allow at some minutes alone.
 */
import type { Mode, Problem, StageSpec } from '../../app/schedule/problem.ts';
import { seededRandom, type Random } from '../../app/schedule/random.ts';
import { makeBuild, problemOfBuild, SLOT_MINUTES } from './builds.ts';

const STAGES = 4;
/** Work that takes longer tires. */
const TIRES_SLOTS = 3;
const SLOTS_PER_DAY = 48;

/** The first stages of a drawn build over two days, with prices. */
export function pricedProblem(seed: number): Problem {
  const random = seededRandom(seed * 104_729 + 7);
  const build = makeBuild(seed);
  const kept = new Set(build.stages.slice(0, STAGES).map(({ id }) => id));
  const problem = problemOfBuild({
    ...build,
    due: 20 + random.below(50),
    horizon: 2 * SLOTS_PER_DAY - 6,
    stages: build.stages
      .filter(({ id }) => kept.has(id))
      .map((stage) => ({
        ...stage,
        release: stage.release % 20,
        due: random.below(4) === 0 ? 20 + random.below(40) : null,
        modes: stage.modes.map((mode) => ({
          ...mode,
          amount: mode.kind === 'cure' ? 10 + (mode.amount % 30) : 1 + (mode.amount % 6),
          overtime: mode.overtime === 0 ? 0 : (1 + (mode.amount % 6)) * SLOT_MINUTES,
        })),
      })),
    relations: build.relations
      .filter((r) => kept.has(r.from) && kept.has(r.to) && r.onlyIf === null)
      .map((r) => ({ ...r, lag: r.type === 'at-most' ? 4 + (r.lag % 20) : r.lag % 4 })),
    holds: [],
  });
  return {
    ...problem,
    ...abraded({ ...problem, stages: problem.stages.map(priced(random)) }, random),
  };
}

/** Long work of few hands tires; some work begins at some minutes only. */
const priced =
  (random: Random) =>
  (stage: StageSpec): StageSpec => {
    const limited = random.below(3) === 0;
    return {
      ...stage,
      modes: stage.modes.map((mode) => ({
        ...tiring(mode),
        ...(limited ? startsOf(mode, random) : {}),
      })),
    };
  };

const tiring = (mode: Mode): Mode =>
  mode.length.kind === 'work' && mode.length.minutes > TIRES_SLOTS * SLOT_MINUTES
    ? { ...mode, warnings: 1 }
    : mode;

function startsOf({ calendar }: Mode, random: Random): Partial<Mode> {
  if (!calendar) return {};
  const late = random.below(4) * SLOT_MINUTES;
  const open = calendar
    .map(({ start, end }) => ({ start: start + late, end }))
    .filter(({ start, end }) => start < end);
  return { starts: [{ why: 'mix-after-arrival', open }] };
}

/** One window in three lapses at the price of a stage that takes an hour longer. */
function abraded(problem: Problem, random: Random): Pick<Problem, 'stages' | 'relations'> {
  const at = problem.relations.findIndex(({ type }) => type === 'at-most');
  if (at < 0 || random.below(3) > 1) return problem;
  const window = problem.relations[at]!;
  const id = window.from;
  const stages = problem.stages.map((stage): StageSpec => {
    const own = stage.modes[0]!;
    if (stage.id !== id || own.length.kind !== 'work') return stage;
    const minutes = own.length.minutes + 2 * SLOT_MINUTES;
    const again: Mode = { ...own, id: 'abrade', repair: true, length: { ...own.length, minutes } };
    return { ...stage, modes: [own, again] };
  });
  const lapses = stages.find((stage) => stage.id === id)!.modes.some((mode) => mode.repair);
  if (!lapses) return problem;
  const own = stages.find((stage) => stage.id === id)!.modes[0]!.id;
  const relations = problem.relations.map((one) =>
    one === window ? { ...one, onlyIf: { stage: id, mode: own } } : one,
  );
  return { stages, relations };
}
