/**
 * `npm run bench -- exact [COUNT]`: the engine against optima that share no code with it. Builds of up to 13
 * stages proven by a general solver (test/exact/proven.json), drawn builds with every price by trying all
 * placements, and the samples with the bound that lengths, lags and calendars give.
 */
import { readFileSync } from 'node:fs';
import { violations } from '../../app/schedule/check.ts';
import type { Problem } from '../../app/schedule/problem.ts';
import { solve } from '../../app/schedule/solve.ts';
import { makeBuild, problemOfBuild, SLOT_MINUTES } from '../exact/builds.ts';
import { enumerateBest, scoreParts } from '../exact/enumerate.ts';
import { pricedProblem } from '../exact/priced.ts';
import { manyParts } from './shop-of-parts.ts';

const SCHEDULES = 20_000;

interface Row {
  readonly seed: number;
  readonly best: Readonly<Record<'late' | 'repairs' | 'overtime' | 'end' | 'sum', number>> | null;
}

export function main(argv: readonly string[]): void {
  const count = Number(argv.find((argument) => /^\d+$/.test(argument)) ?? 200);
  const path = new URL('../exact/proven.json', import.meta.url);
  const rows = JSON.parse(readFileSync(path, 'utf8')) as Row[];
  report(
    'proven by a general solver',
    rows.map(({ seed, best }) => {
      const problem = problemOfBuild(makeBuild(seed));
      return compared(seed, problem, best && inMinutes(problem, best));
    }),
  );
  report(
    'every placement tried, all prices',
    Array.from({ length: count }, (_, seed) => {
      const problem = pricedProblem(seed);
      return compared(seed, problem, enumerateBest(problem));
    }),
  );
  for (const [parts, each] of [
    [1, 20],
    [2, 20],
    [3, 20],
  ] as const) {
    const {
      end,
      gapMinutes = 0,
      provenBest,
    } = solve(manyParts(parts, each), { schedules: 5000, seed: 1 });
    const gap = provenBest ? 'proven' : `at most ${(gapMinutes / 60).toFixed(1)} h over the bound`;
    console.log(`${parts * each} stages: ${end === null ? 'no plan' : gap}`);
  }
}

type Scores = readonly number[] | null;

const inMinutes = ({ from }: Problem, best: NonNullable<Row['best']>): Scores => [
  best.late * SLOT_MINUTES,
  best.repairs,
  best.overtime * SLOT_MINUTES,
  from + best.end * SLOT_MINUTES,
  best.sum * SLOT_MINUTES,
];

interface Compared {
  readonly seed: number;
  readonly best: Scores;
  readonly got: Scores;
  readonly broken: number;
  readonly proven: boolean;
}

function compared(seed: number, problem: Problem, best: Scores): Compared {
  const { placed, provenBest } = solve(problem, { schedules: SCHEDULES, seed: 1 });
  const got = placed.length > 0 ? scoreParts(problem, placed) : null;
  const broken = got ? violations(problem, placed).length : 0;
  return { seed, best, got, broken, proven: provenBest };
}

/** One line of counts, and one for each build that is not at its best. */
function report(what: string, all: readonly Compared[]): void {
  const paid = (part: number) => all.filter(({ best }) => best !== null && best[part]! > 0).length;
  const isEqual = ({ best, got, broken }: Compared): boolean =>
    broken === 0 && JSON.stringify(best) === JSON.stringify(got);
  for (const one of all.filter((each) => !isEqual(each))) {
    console.log(`  ${one.seed}: best ${JSON.stringify(one.best)}, got ${JSON.stringify(one.got)}`);
  }
  const [equal, none, proven] = [
    all.filter(isEqual).length,
    all.filter(({ best }) => best === null).length,
    all.filter((one) => one.proven).length,
  ];
  console.log(
    `${what}: ${equal} of ${all.length} equal; ${none} without a plan, ${paid(0)} late, ` +
      `${paid(1)} with warnings, ${paid(2)} with overtime; ${proven} proven by the engine itself`,
  );
}
