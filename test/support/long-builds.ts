/** Builds that the samples do not have: one of hundreds of stages, one that cannot make its date. */
import { shippedSamples } from '../../main/samples.ts';

interface Shown {
  readonly outside: readonly { readonly id: string; readonly name: string }[];
  readonly part: object;
}

const sample = (): Shown & Record<string, unknown> =>
  JSON.parse(
    shippedSamples()
      .find(({ name }) => name === 'low-water-canopy')!
      .text(),
  ) as Shown & Record<string, unknown>;

const BEFORE = ['mould', 'layup', 'trim', 'prime', 'hand-over', 'closeout'] as const;

/** Questions are a stage each, an outside party is three or four. */
export function longBuild(questions: number, parties = 2): Record<string, unknown> {
  const small = sample();
  return {
    ...small,
    name: `Canopy with ${questions} open points`,
    unveiling: '2027-11-26T18:00',
    outside: Array.from({ length: parties }, (_, i) => {
      const one = small.outside[i % small.outside.length]!;
      return i < small.outside.length
        ? one
        : { ...one, id: `${one.id}-${i}`, name: `${one.name} ${i}` };
    }),
    part: {
      ...small.part,
      questions: Array.from({ length: questions }, (_, i) => ({
        ...{ id: `open-${i}`, text: `Open point ${i + 1}`, answer: null },
        before: BEFORE[i % BEFORE.length],
      })),
    },
  };
}

/** Shown long before it could be ready. */
export const lateBuild = (): Record<string, unknown> => ({
  ...sample(),
  name: 'Canopy shown too early',
  unveiling: '2027-05-07T18:00',
});
