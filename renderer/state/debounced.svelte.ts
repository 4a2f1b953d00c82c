/** Work too slow for the frame of an edit: done a moment after its input has stopped changing. */

const REST_MS = 120;

export class Debounced<I, T> {
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
