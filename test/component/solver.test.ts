import { beforeEach, describe, expect, it } from 'vitest';
import type { Build, Library } from '../../app/build/schema.ts';
import type { PlanReply, PlanRequest } from '../../app/worker.ts';
import { Solver, type WorkerPort } from '../../renderer/state/solver.ts';

let posted: PlanRequest[];
let worker: WorkerPort;
let answers: number[];
let solver: Solver;

const question = (name: string) => ({
  document: { name } as Build,
  library: {} as Library,
  now: 0,
});
const reply = (revision: number) =>
  worker.onmessage!({ data: { revision, outcome: {} } } as MessageEvent<PlanReply>);

beforeEach(() => {
  [posted, answers] = [[], []];
  worker = {
    postMessage: (message) => posted.push(message as PlanRequest),
    onmessage: null,
    onerror: null,
  };
  solver = new Solver(worker, ({ revision }) => answers.push(revision));
});

describe('asking the worker', () => {
  it('keeps one question on its way and only the newest waiting', () => {
    for (const name of ['a', 'b', 'c']) solver.ask(question(name));
    expect(posted.map((one) => one.document.name)).toEqual(['a']);
    reply(posted[0]!.revision);
    expect(answers).toEqual([]);
    expect(posted.map((one) => one.document.name)).toEqual(['a', 'c']);
    reply(posted[1]!.revision);
    expect(answers).toEqual([3]);
  });

  it('drops an answer about what is no longer on screen', () => {
    solver.ask(question('a'));
    solver.drop();
    reply(posted[0]!.revision);
    expect(answers).toEqual([]);
  });

  it('goes on after an answer that failed', () => {
    solver.ask(question('a'));
    solver.ask(question('b'));
    worker.onerror!({} as ErrorEvent);
    expect(posted.map((one) => one.document.name)).toEqual(['a', 'b']);
    reply(posted[1]!.revision);
    expect(answers).toEqual([2]);
  });
});
