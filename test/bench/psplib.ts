/**
 * `npm run bench -- psplib DIR --schedules N --json [--only SET] [--starts FILE] [--seed S]
 * [--dressed]`: the planner's own engine on every set of open instances in DIR, a set being a table `<set>.csv`
 * and a folder `<set>/`. No optimum is read before the last instance of a set is done, and every
 * schedule is verified by the independent checker.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { violations } from '../../app/schedule/check.ts';
import type { Problem, Schedule } from '../../app/schedule/problem.ts';
import { solve } from '../../app/schedule/solve.ts';
import { dress } from './dressing.ts';
import { horizonOf, readSch, readSm, type Instance } from './psplib-read.ts';

interface Arguments {
  readonly dir: string;
  readonly schedules: number;
  readonly seed: number;
  readonly only: string | null;
  readonly starts: string | null;
  readonly dressed: boolean;
  readonly json: boolean;
}

export interface Answer {
  readonly instance: string;
  readonly starts: readonly number[];
  readonly makespan: number | null;
  readonly infeasible: boolean;
  readonly broken: boolean;
}

export interface SetFigures {
  readonly set: string;
  readonly instances: number;
  readonly solved: number;
  readonly atBest: number;
  readonly overBestPct: number | null;
  readonly overCriticalPathPct: number | null;
  readonly bestOverCriticalPathPct: number | null;
  readonly infeasibleReported: number;
  readonly wrong: number;
  readonly seconds: number;
}

function readArguments(argv: readonly string[]): Arguments {
  const value = (name: string): string | null => {
    const at = argv.indexOf(name);
    return at < 0 ? null : (argv[at + 1] ?? null);
  };
  const valued = new Set(['--schedules', '--seed', '--only', '--starts']);
  const dir = argv.find(
    (argument, i) => !argument.startsWith('--') && !valued.has(argv[i - 1] ?? ''),
  );
  const schedules = Number(value('--schedules') ?? 1000);
  const seed = Number(value('--seed') ?? 1);
  if (!dir || !existsSync(dir)) throw new Error('psplib needs a folder of instances');
  if (!Number.isInteger(schedules) || schedules < 1) throw new Error('--schedules needs a count');
  if (!Number.isInteger(seed)) throw new Error('--seed needs a whole number');
  return {
    dir,
    schedules,
    seed,
    only: value('--only'),
    starts: value('--starts'),
    dressed: argv.includes('--dressed'),
    json: argv.includes('--json'),
  };
}

/** An instance as the planner's problem: one unit of time is one minute, nothing has a calendar. */
export function problemOf(model: Instance): Problem {
  const horizon = horizonOf(model);
  return {
    from: 0,
    due: horizon,
    horizon,
    resources: model.capacity.map((capacity, k) => ({ id: `r${k}`, name: `R${k + 1}`, capacity })),
    stages: model.duration.map((minutes, i) => ({
      id: `a${i}`,
      name: `Activity ${i}`,
      kind: 'own',
      cure: null,
      modes: [
        {
          id: 'only',
          uses: model.demand[i]!.map((amount, k) => ({ resource: `r${k}`, amount })),
          calendar: null,
          length: { kind: 'elapsed', minutes },
        },
      ],
      release: null,
      due: null,
      fixedStart: null,
      fixedEnd: null,
      air: null,
      perishable: false,
    })),
    relations: model.arcs.map((arc) => ({
      type: 'at-least',
      from: `a${arc.from}`,
      anchor: 'start',
      to: `a${arc.to}`,
      lag: arc.lag,
      why: 'own-order',
    })),
    airSettleMinutes: 0,
  };
}

/** The problem that is solved, and how its minutes are read back as units of time. */
interface Posed {
  readonly problem: Problem;
  readonly unitOf: (minute: number) => number;
}

/** A number that a name stands for: each instance is dressed in its own way, always the same. */
const numberOf = (name: string): number =>
  [...name].reduce((sum, letter) => (Math.imul(sum, 31) + letter.charCodeAt(0)) >>> 0, 17);

function pose(instance: Instance, name: string, { dressed }: RunOptions): Posed {
  if (dressed) return dress(instance, numberOf(name));
  return { problem: problemOf(instance), unitOf: (minute) => minute };
}

export interface RunOptions {
  readonly schedules: number;
  readonly seed: number;
  readonly dressed?: boolean;
}

function solveInstance(path: string, options: RunOptions): Answer {
  const text = readFileSync(path, 'utf8');
  const read = extname(path) === '.sm' ? readSm(text) : readSch(text);
  const instance = basename(path);
  const { problem, unitOf } = pose(read, instance, options);
  const { schedules, seed } = options;
  const schedule: Schedule = solve(problem, { schedules, seed });
  if (schedule.generated > schedules) throw new Error(`${path}: ${schedule.generated} generated`);
  if (schedule.placed.length === 0) {
    return { instance, starts: [], makespan: null, infeasible: schedule.provenBest, broken: false };
  }
  const startOf = new Map(schedule.placed.map((spot) => [spot.stage, unitOf(spot.start)]));
  const starts = problem.stages.map((stage) => startOf.get(stage.id)!);
  return {
    instance,
    starts,
    makespan: starts[starts.length - 1]!,
    infeasible: false,
    broken:
      starts[0] !== 0 ||
      violations(problem, schedule.placed).length > 0 ||
      breaksInstance(read, starts),
  };
}

/** True when starts in units of time break the instance as it was read, whatever it was dressed in. */
function breaksInstance(instance: Instance, starts: readonly number[]): boolean {
  const bare = problemOf(instance);
  const placed = bare.stages.map((stage, i) => ({
    stage: stage.id,
    mode: 'only',
    start: starts[i]!,
    end: starts[i]! + instance.duration[i]!,
  }));
  return violations(bare, placed).length > 0;
}

interface Known {
  readonly best: number | null;
  readonly infeasible: boolean;
  readonly lowerBound: number | null;
  readonly criticalPath: number | null;
}

const numberOrNull = (text: string | undefined): number | null =>
  text !== undefined && /^\d+$/.test(text.trim()) ? Number(text) : null;

/** The table of a set, by instance; columns are found by their names. */
function readTable(path: string): Map<string, Known> {
  const [head, ...rows] = readFileSync(path, 'utf8').trim().split(/\r?\n/);
  const columns = head!.split(',').map((name) => name.trim());
  const cell = (cells: readonly string[], name: string) => cells[columns.indexOf(name)];
  return new Map(
    rows.map((row) => {
      const cells = row.split(',');
      return [
        cell(cells, 'instance')!.trim(),
        {
          best: numberOrNull(cell(cells, 'best_known')),
          infeasible: cell(cells, 'best_known')?.trim() === 'infeasible',
          lowerBound: numberOrNull(cell(cells, 'lower_bound')),
          criticalPath: numberOrNull(cell(cells, 'critical_path')),
        },
      ];
    }),
  );
}

function isWrong(answer: Answer, known: Known | undefined): boolean {
  if (answer.broken) return true;
  if (answer.infeasible) return known?.best !== null && known?.best !== undefined;
  if (answer.makespan === null) return false;
  return known?.infeasible === true || answer.makespan < (known?.lowerBound ?? 0);
}

const mean = (numbers: readonly number[]): number | null =>
  numbers.length === 0
    ? null
    : Math.round((numbers.reduce((sum, n) => sum + n, 0) / numbers.length) * 1000) / 1000;

const over = (value: number, base: number): number => (100 * (value - base)) / base;

function figuresOf(
  set: string,
  answers: readonly Answer[],
  table: ReadonlyMap<string, Known>,
  seconds: number,
): SetFigures {
  const pairs = answers.map((answer) => ({ ...answer, known: table.get(answer.instance) }));
  const solved = pairs.filter((pair) => pair.makespan !== null && !pair.broken);
  const best = (known: Known | undefined) => known?.best ?? null;
  const path = (known: Known | undefined) => known?.criticalPath || null;
  return {
    set,
    instances: answers.length,
    solved: solved.length,
    atBest: solved.filter(
      ({ known, makespan }) => best(known) !== null && makespan! <= best(known)!,
    ).length,
    overBestPct: mean(
      solved.flatMap(({ known, makespan }) =>
        best(known) === null ? [] : [over(makespan!, best(known)!)],
      ),
    ),
    overCriticalPathPct: mean(
      solved.flatMap(({ known, makespan }) =>
        path(known) === null ? [] : [over(makespan!, path(known)!)],
      ),
    ),
    bestOverCriticalPathPct: mean(
      pairs.flatMap(({ known }) =>
        best(known) === null || path(known) === null ? [] : [over(best(known)!, path(known)!)],
      ),
    ),
    infeasibleReported: pairs.filter((pair) => pair.infeasible).length,
    wrong: pairs.filter((pair) => isWrong(pair, pair.known)).length,
    seconds: Math.round(seconds * 10) / 10,
  };
}

const byNumber = new Intl.Collator('en', { numeric: true });

function setsIn(dir: string, only: string | null): string[] {
  return readdirSync(dir)
    .filter((name) => name.endsWith('.csv') && existsSync(join(dir, name.slice(0, -4))))
    .map((name) => name.slice(0, -4))
    .filter((set) => only === null || set === only)
    .sort(byNumber.compare);
}

export interface SetRun {
  readonly figures: SetFigures;
  readonly answers: readonly Answer[];
}

/** Solves every instance of one set and only then reads its table. */
export function runSet(dir: string, set: string, options: RunOptions): SetRun {
  const began = performance.now();
  const answers = readdirSync(join(dir, set))
    .filter((name) => name.endsWith('.sm') || name.endsWith('.sch'))
    .sort(byNumber.compare)
    .map((name) => solveInstance(join(dir, set, name), options));
  const seconds = (performance.now() - began) / 1000;
  return {
    figures: figuresOf(set, answers, readTable(join(dir, `${set}.csv`)), seconds),
    answers,
  };
}

/** Runs the sets asked for and prints their figures. */
export function main(argv: readonly string[]): void {
  const { dir, schedules, seed, only, starts, dressed, json } = readArguments(argv);
  const runs = setsIn(dir, only).map((set) => {
    const run = runSet(dir, set, { schedules, seed, dressed });
    if (!json) console.log(JSON.stringify(run.figures));
    return run;
  });
  if (starts !== null) {
    const found = runs.flatMap(({ figures: { set }, answers }) =>
      answers.map(({ instance, starts: at }) => ({ set, instance, starts: at })),
    );
    writeFileSync(starts, JSON.stringify(found));
  }
  if (json)
    console.log(JSON.stringify({ schedules, seed, dressed, sets: runs.map((run) => run.figures) }));
}

if (import.meta.main) main(process.argv.slice(2));
