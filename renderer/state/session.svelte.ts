/** This run of the program: who serves the page, its library, its builds and its clock. */
import type { BuildSummary, ChannelInput, ChannelOutput } from '../../app/contract/channels.ts';
import type { Library } from '../../app/document/schema.ts';
import type { Minute } from '../../app/time/instant.ts';
import type { Call } from './bridge.ts';

export const EMPTY_LIBRARY: Library = {
  resins: [],
  cloths: [],
  cores: [],
  consumables: [],
  releases: [],
  moulds: [],
  labour: [],
  finishing: [],
  consequences: [],
  practice: [],
};
const MS_PER_MINUTE = 60_000;

export class SessionState {
  readonly call: Call;
  readonly #elapsedMs: () => number;
  #clockAtStart: Minute = 0;
  #clockStartMs = 0;
  #elapsedAtStart = 0;

  status = $state<'starting' | 'ready' | 'failed'>('starting');
  failure = $state('');
  runtime = $state<'electron' | 'browser'>('browser');
  shipped = $state.raw<Library>(EMPTY_LIBRARY);
  builds = $state.raw<readonly BuildSummary[]>([]);
  now = $state<Minute>(0);
  nowFixed = $state(false);
  /** What lay open when the program died, until something is opened. */
  notOpened = $state.raw<ChannelOutput<'session-start'>['notOpened'] | null>(null);

  /** @param elapsedMs milliseconds of a clock that goes on while the machine sleeps */
  constructor(call: Call, elapsedMs: () => number) {
    this.call = call;
    this.#elapsedMs = elapsedMs;
  }

  /**
   * Whoever shows what it gave sets `status` to ready then.
   * @returns what the program gave, or null when it did not: `failure` says why
   */
  async start(): Promise<ChannelOutput<'session-start'> | null> {
    const answer = await this.call('session-start', {});
    if (!answer.ok) {
      this.status = 'failed';
      this.failure = answer.detail;
      return null;
    }
    const { runtime, library, builds, now, nowFixed } = answer.value;
    this.runtime = runtime;
    this.shipped = library;
    this.builds = builds;
    this.notOpened = answer.value.notOpened ?? null;
    this.nowFixed = nowFixed;
    this.#clockStartMs = Date.parse(now);
    this.#clockAtStart = Math.floor(this.#clockStartMs / MS_PER_MINUTE);
    this.#elapsedAtStart = this.#elapsedMs();
    this.now = this.#clockAtStart;
    return answer.value;
  }

  /** Puts a row into the shop's own library. @returns why that failed; empty when it did not */
  async keepRow(kept: ChannelInput<'row-keep'>): Promise<string> {
    const answer = await this.call('row-keep', kept);
    if (!answer.ok) return answer.detail;
    this.shipped = answer.value.library;
    return '';
  }

  /** Milliseconds of Unix UTC, to the moment; a fixed clock stands still. */
  nowMs(): number {
    const start = this.#clockAtStart * MS_PER_MINUTE;
    return this.nowFixed ? start : this.#clockStartMs + this.#elapsedMs() - this.#elapsedAtStart;
  }

  /** Moves the clock on; a fixed clock stands still. @returns true when it is another minute */
  tick(): boolean {
    if (this.nowFixed || this.status !== 'ready') return false;
    const now = Math.floor(this.nowMs() / MS_PER_MINUTE);
    if (now === this.now) return false;
    this.now = now;
    return true;
  }

  async listBuilds(): Promise<void> {
    const answer = await this.call('build-list', {});
    if (answer.ok) this.builds = answer.value;
  }
}
