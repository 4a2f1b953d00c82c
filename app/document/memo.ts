/**
 * Answers about pieces of a document or a library, kept as long as the pieces are. An edit copies what
 * it changes and leaves the rest the same objects, so that the same object asks the same question.
 */

/** The same function, which works each object out once. */
export function memoByObject<A extends object, R>(work: (a: A) => R): (a: A) => R {
  const answers = new WeakMap<A, { readonly answer: R }>();
  return (a) => {
    const known = answers.get(a);
    if (known) return known.answer;
    const answer = work(a);
    answers.set(a, { answer });
    return answer;
  };
}

/** The same for two objects. */
export function memoByObjects<A extends object, B extends object, R>(
  work: (a: A, b: B) => R,
): (a: A, b: B) => R {
  const byFirst = memoByObject((a: A) => memoByObject((b: B) => work(a, b)));
  return (a, b) => byFirst(a)(b);
}

/** So many texts are kept for one list of objects. */
const MOST_TEXTS = 8;

interface Branch<R> {
  readonly next: WeakMap<object, Branch<R>>;
  readonly answers: Map<string, { readonly answer: R }>;
}

const branch = <R>(): Branch<R> => ({ next: new WeakMap(), answers: new Map() });

/**
 * Works answers out once for a list of objects, in their order, and a text; of the same objects the
 * last few texts are kept.
 */
export function memoByAll<R>(
  mostTexts = MOST_TEXTS,
): (objects: readonly object[], text: string, work: () => R) => R {
  const root = branch<R>();
  return (objects, text, work) => {
    let at = root;
    for (const one of objects) {
      let next = at.next.get(one);
      if (!next) at.next.set(one, (next = branch<R>()));
      at = next;
    }
    const known = at.answers.get(text);
    if (known) return known.answer;
    const answer = work();
    if (at.answers.size >= mostTexts) at.answers.delete(at.answers.keys().next().value!);
    at.answers.set(text, { answer });
    return answer;
  };
}
