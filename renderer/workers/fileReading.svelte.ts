/** A file that a worker reads for a component: how far it is, and what came of it. */
import type { FileMessage } from './file.ts';
import { FILE_FAULTS } from '../words/news.ts';

export class FileReading<T> {
  /** Share read of the file on its way; null: none is. */
  share = $state<number | null>(null);
  fault = $state('');
  readonly #start: () => Worker;
  #worker: Worker | null = null;

  /** Made by a component, which takes its worker along when it goes away. */
  constructor(start: () => Worker) {
    this.#start = start;
    $effect(() => () => this.stop());
  }

  /**
   * Reads in place of whatever was being read.
   * @param request what the worker is sent, the file in it
   */
  read(request: unknown, done: (value: T) => void): void {
    this.stop();
    this.fault = '';
    this.share = 0;
    const worker = this.#start();
    this.#worker = worker;
    worker.onmessage = ({ data }: MessageEvent<FileMessage<T>>) => {
      if (data.kind === 'read') {
        this.share = data.share;
        return;
      }
      this.stop();
      if (data.kind === 'fault') this.fault = data.why;
      else done(data.value);
    };
    worker.onerror = () => {
      this.stop();
      this.fault = FILE_FAULTS.tooLarge;
    };
    worker.postMessage(request);
  }

  stop(): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.share = null;
  }
}
