/** Runs one function later, unless it is stopped before. */
export class Timer {
  #timer: ReturnType<typeof setTimeout> | null = null;

  /** Replaces the function that was waiting. */
  start(ms: number, run: () => void): void {
    this.stop();
    this.#timer = setTimeout(() => {
      this.#timer = null;
      run();
    }, ms);
  }

  stop(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
  }

  get running(): boolean {
    return this.#timer !== null;
  }
}
