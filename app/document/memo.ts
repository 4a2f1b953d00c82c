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
