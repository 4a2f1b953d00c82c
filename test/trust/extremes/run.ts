/**
 * Every range of the document at both of its ends, alone and in drawn pairs: how long the first and the full
 * answer take, how much memory, and whether each output is one.
 */
import { fork, type ChildProcess } from 'node:child_process';
import { join } from 'node:path';
import { seededRandom } from '../../../app/schedule/random.ts';
import { ENDS } from './ends.ts';
import type { Trial } from './trial.ts';

export const LIMITS = { firstMs: 1000, fullMs: 15_000, peakMB: 1000 } as const;
/** A document that takes longer by the clock, beside whatever else runs, is ended and counts as too slow. */
const PATIENCE_MS = 300_000;
/** Heap that a child is given: it lets what it no longer needs lie until the heap is nearly full. */
const HEAP_MB = 700;
/** A child begins anew, so that its memory is that of few documents. */
const A_CHILD_TRIES = 40;

type Told = Trial & { readonly peakMB: number };

export interface ExtremesCount {
  readonly tried: number;
  /** How many there are; more than were tried where the time ran out. */
  readonly of: number;
  readonly refused: number;
  readonly slowestFirstMs: number;
  readonly slowestFullMs: number;
  readonly peakMB: number;
  /** One line for each document that broke a limit or gave no answer. */
  readonly broken: readonly string[];
}

export interface ExtremesAsked {
  /** How many pairs are drawn after all single ends. */
  readonly pairs: number;
  readonly seed: number;
  readonly scope?: 'first' | 'full';
  /** No document is begun after so many minutes; they come in drawn order, so that any part is of the whole. */
  readonly minutes?: number;
  /** Told of each document that breaks a limit as soon as it does. */
  readonly say?: (line: string) => void;
}

export async function extremes(asked: ExtremesAsked): Promise<ExtremesCount> {
  const { pairs, seed, scope = 'full', minutes = Infinity, say = () => undefined } = asked;
  const random = seededRandom(seed);
  const drawn = (): string => ENDS[random.below(ENDS.length)]!.name;
  const documents = [
    ...ENDS.map(({ name }) => [name]),
    ...Array.from({ length: pairs }, () => [drawn(), drawn()]),
  ]
    .map((names) => ({ names, turn: random.next() }))
    .sort((a, b) => a.turn - b.turn);
  const endsAt = Date.now() + minutes * 60_000;
  let tried = 0;
  const broken: string[] = [];
  let [refused, slowestFirstMs, slowestFullMs, peakMB] = [0, 0, 0, 0];
  let child: ChildProcess | null = null;
  let tries = 0;
  for (const { names } of documents) {
    if (Date.now() > endsAt) break;
    tried += 1;
    if (child === null || tries >= A_CHILD_TRIES) {
      child?.kill();
      child = await started(scope);
      tries = 0;
    }
    tries += 1;
    const what = names.join('; ');
    const told = await answered(child, names);
    if (told === null) {
      broken.push(`${what}: no answer in ${PATIENCE_MS / 1000} s, or out of memory`);
      say(broken.at(-1)!);
      child.kill('SIGKILL');
      child = null;
      continue;
    }
    if (told.refused) {
      refused += 1;
      continue;
    }
    const firstMs = told.readMs + told.firstMs;
    slowestFirstMs = Math.max(slowestFirstMs, firstMs);
    slowestFullMs = Math.max(slowestFullMs, told.fullMs);
    peakMB = Math.max(peakMB, told.peakMB);
    const over = [
      ...(firstMs > LIMITS.firstMs ? [`first answer ${firstMs.toFixed(0)} ms`] : []),
      ...(told.fullMs > LIMITS.fullMs ? [`full answer ${told.fullMs.toFixed(0)} ms`] : []),
      ...(told.peakMB > LIMITS.peakMB ? [`${told.peakMB.toFixed(0)} MB`] : []),
      ...told.faults,
    ];
    if (over.length > 0) {
      broken.push(`${what}: ${over.slice(0, 3).join(', ')}`);
      say(broken.at(-1)!);
    }
  }
  child?.kill();
  return {
    tried,
    of: documents.length,
    refused,
    slowestFirstMs,
    slowestFullMs,
    peakMB,
    broken,
  };
}

async function started(scope: string): Promise<ChildProcess> {
  const child = fork(join(import.meta.dirname, 'child.ts'), [scope], {
    execArgv: [`--max-old-space-size=${HEAP_MB}`],
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
  });
  await heard(child);
  return child;
}

/** Null when it ended or fell silent. */
async function answered(child: ChildProcess, names: readonly string[]): Promise<Told | null> {
  child.send(names);
  return (await heard(child)) as Told | null;
}

const heard = (child: ChildProcess): Promise<unknown> =>
  new Promise((resolve) => {
    const done = (answer: unknown): void => {
      clearTimeout(patience);
      child.removeAllListeners('message');
      child.removeAllListeners('exit');
      resolve(answer);
    };
    const patience = setTimeout(() => done(null), PATIENCE_MS);
    child.once('message', done);
    child.once('exit', () => done(null));
  });
