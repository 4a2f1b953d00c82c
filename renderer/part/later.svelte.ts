/** Work that may miss the edit's own frame: done a moment after its input has come to rest. */

const REST_MS = 120;

export class Later<I, T> {
  /** The last answer, while the next one is still to come; null before the first. */
  value = $state.raw<T | null>(null);

  constructor(input: () => I, work: (input: I) => T) {
    $effect(() => {
      const given = input();
      const timer = setTimeout(() => (this.value = work(given)), REST_MS);
      return () => clearTimeout(timer);
    });
  }
}
