import { beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import type { Build, Library } from '../../../app/document/schema.ts';
import type { PlanReply, PlanRequest } from '../../../app/answer/worker.ts';
import { SILENT_MS, Solver, type WorkerPort } from '../../../renderer/state/solver.ts';

type Posted = PlanRequest | { readonly stop: true };
let posted: Posted[];
let worker: WorkerPort;
let answers: string[];
let solver: Solver;

const question = (name: string) => ({
  document: { name } as Build,
  library: {} as Library,
  now: 0,
});
const reply = (revision: number, done = true) =>
  worker.onmessage!({ data: { revision, outcome: {}, done } } as MessageEvent<PlanReply>);
const revisionOf = (index: number) => (posted[index] as PlanRequest).revision;

beforeEach(() => {
  [posted, answers] = [[], []];
  worker = {
    postMessage: (message) => posted.push(message as Posted),
    onmessage: null,
    onerror: null,
  };
  solver = new Solver(worker, {
    answered: ({ revision, done }) => answers.push(`${revision}${done ? '' : '…'}`),
    failed: () => answers.push('failed'),
  });
});

describe('asking the worker', () => {
  it('takes better answers as they come, until the last', () => {
    solver.ask(question('a'));
    reply(revisionOf(0), false);
    reply(revisionOf(0), false);
    reply(revisionOf(0));
    expect(answers).toEqual(['1…', '1…', '1']);
  });

  it('drops whatever is about an older question', () => {
    solver.ask(question('a'));
    solver.ask(question('b'));
    reply(revisionOf(0), false);
    reply(revisionOf(0));
    expect(answers).toEqual([]);
    reply(revisionOf(1));
    expect(answers).toEqual(['2']);
  });

  it('drops an answer about what is no longer on screen, and tells the worker to leave it', () => {
    solver.ask(question('a'));
    solver.drop();
    reply(revisionOf(0));
    expect(answers).toEqual([]);
    expect(posted[1]).toEqual({ stop: true });
  });

  it('is stopped at will: what has come stands, and nothing more comes', () => {
    solver.ask(question('a'));
    reply(revisionOf(0), false);
    solver.stop();
    reply(revisionOf(0));
    expect(answers).toEqual(['1…']);
    expect(posted[1]).toEqual({ stop: true });
  });

  it('goes on after an answer that failed', () => {
    solver.ask(question('a'));
    worker.onerror!({} as ErrorEvent);
    solver.ask(question('b'));
    reply(revisionOf(1));
    expect(answers).toEqual(['failed', '2']);
  });
});

describe('a worker that says nothing any more', () => {
  it('is let go after a minute, and another one is asked from then on', () => {
    vi.useFakeTimers();
    onTestFinished(() => void vi.useRealTimers());
    const hired: WorkerPort[] = [];
    const dismissed: number[] = [];
    const asked: number[] = [];
    const hire = (): WorkerPort => {
      const n = hired.length;
      const port: WorkerPort = {
        postMessage: () => asked.push(n),
        terminate: () => void dismissed.push(n),
        onmessage: null,
        onerror: null,
      };
      hired.push(port);
      return port;
    };
    const told: string[] = [];
    const watched = new Solver(
      hire(),
      { answered: () => told.push('answer'), failed: () => told.push('failed') },
      hire,
    );
    const better = () =>
      hired[0]!.onmessage!({ data: { revision: 1, done: false } } as MessageEvent<PlanReply>);
    watched.ask(question('a'));
    vi.advanceTimersByTime(SILENT_MS - 1);
    better();
    vi.advanceTimersByTime(SILENT_MS - 1);
    expect(told).toEqual(['answer']);
    vi.advanceTimersByTime(1);
    expect([told, dismissed]).toEqual([['answer', 'failed'], [0]]);
    watched.ask(question('b'));
    expect(asked).toEqual([0, 1]);
    hired[1]!.onmessage!({ data: { revision: 2, done: true } } as MessageEvent<PlanReply>);
    vi.advanceTimersByTime(10 * SILENT_MS);
    expect(told).toEqual(['answer', 'failed', 'answer']);
  });
});
