/** The long jobs of the decision: all levers together, and the odds. Run on request, stopped at will. */
import type { Build, Library } from '../../app/document/schema.ts';
import type { Odds } from '../../app/judge/odds.ts';
import type { Choice, SearchResult } from '../../app/judge/search.ts';
import type { Minute } from '../../app/time/instant.ts';
import type { ShownPlan } from '../../app/answer/oddsJob.ts';
import type { JobReply, JobRequest } from '../../app/answer/worker.ts';
import { JOB_WORDS } from '../words/news.ts';

/** The part of a Worker that is used here. */
export interface JobPort {
  postMessage(message: unknown): void;
  onmessage: ((event: MessageEvent<JobReply>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

interface Subject {
  readonly document: Build;
  readonly library: Library;
  readonly now: Minute;
  /** Finished builds of the shop's own behind its records. */
  readonly ownBuilds: number;
  /** The plan on the screen. */
  readonly shown: ShownPlan | null;
}

interface Progress {
  readonly job: JobRequest['job'];
  readonly done: number;
  readonly total: number;
  readonly words: string;
}

export class DecideState {
  readonly #open: () => JobPort;
  #port: JobPort | null = null;
  #revision = 0;
  progress = $state.raw<Progress | null>(null);
  /** The choices that no other dominates in everything, as far as they are known. */
  front = $state.raw<readonly Choice[]>([]);
  found = $state.raw<SearchResult | null>(null);
  odds = $state.raw<Odds | null>(null);
  trouble = $state('');
  /** Documents that the answers on screen are about. */
  searched = $state.raw<Build | null>(null);
  played = $state.raw<Build | null>(null);

  constructor(open: () => JobPort) {
    this.#open = open;
  }

  run(job: JobRequest['job'], subject: Subject): void {
    this.#revision += 1;
    this.trouble = '';
    if (job === 'search') {
      this.front = [];
      this.found = null;
      this.searched = subject.document;
    } else {
      this.odds = null;
      this.played = subject.document;
    }
    this.progress = { job, done: 0, total: 1, words: JOB_WORDS.starting };
    const request: JobRequest = { job, revision: this.#revision, ...subject };
    this.#ready().postMessage(request);
  }

  stop(): void {
    this.#revision += 1;
    this.#port?.postMessage({ stop: true });
    this.progress = null;
  }

  /** The worker is made when it is first wanted: most sessions never ask. */
  #ready(): JobPort {
    if (this.#port) return this.#port;
    const port = this.#open();
    port.onmessage = ({ data }) => this.#take(data);
    port.onerror = (event) => {
      this.trouble = event.message || JOB_WORDS.failed;
      this.progress = null;
    };
    this.#port = port;
    return port;
  }

  #take(reply: JobReply): void {
    if (reply.revision !== this.#revision) return;
    if ('result' in reply) {
      if (reply.job === 'search') {
        this.found = reply.result;
        this.front = reply.result.front;
      } else {
        this.odds = reply.result;
      }
      this.progress = null;
    } else if (reply.job === 'search') {
      const { phase, done, total, front, screened } = reply.progress;
      if (front.length > 0) this.front = front;
      const said = {
        screen: JOB_WORDS.screened(screened),
        plan: JOB_WORDS.planned(done, total),
        odds: JOB_WORDS.weighed(done, total),
      };
      this.progress = { job: 'search', done, total, words: said[phase] };
    } else {
      const { done, total } = reply.progress;
      this.progress = { job: 'odds', done, total, words: JOB_WORDS.replayed(done, total) };
    }
  }
}
