/** One thing to be done later, or not at all. */
export class Timer {
  #timer: ReturnType<typeof setTimeout> | null = null;

  /** In place of whatever was to be done before. */
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
