/** The crew as one line of names, and people taken off the build. */
import type { Build } from '../schema.ts';
import { change, freeId, type Change } from './change.ts';
import type { Draft } from './path.ts';

type Person = Build['crew'][number];

/** `Odile, Bram and Cy` -> three names. */
export const readNames = (text: string): readonly string[] =>
  text
    .split(/[,;&+\n]|\s+and\s+/iu)
    .map((name) => name.trim())
    .filter((name) => name !== '');

/** The first name that stands twice, or null. */
export const nameTwice = (names: readonly string[]): string | null =>
  names.find((name, i) => names.findIndex((other) => same(other, name)) < i) ?? null;

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/** Everybody with an id, so that an id does not go over to another person when one is taken off. */
const withIds = (crew: readonly Person[]): readonly Person[] =>
  crew.map((person, i) => ({ ...person, id: person.id ?? `person-${i + 1}` }));

/**
 * The crew that the names call for, in their order. Whoever is named stays as entered; a name that is new
 * goes to somebody who is not named any more, as one that was misspelt; whoever is left is taken off.
 * @param names at least one, none twice
 */
export function nameCrew(document: Draft, names: readonly string[], field: string): Change {
  const crew = withIds(document.crew ?? []);
  const named = names.map((name) => crew.find((person) => same(person.name, name)) ?? null);
  const unnamed = crew.filter((person) => !named.includes(person));
  let next: Draft = { ...document, crew: [...crew] };
  const line = names.map((name, i): Person => {
    const person = named[i] ?? unnamed.shift();
    if (person) return { ...person, name };
    const added = { id: freeId(next, 'crew', 'person'), name };
    next = { ...next, crew: [...(next.crew ?? []), added] };
    return added;
  });
  for (const person of unnamed) next = withoutPerson(next, person.id!);
  return { ...change(`${field}: ${names.join(', ')}`, { ...next, crew: line }), field: 'crew' };
}

/** A person off the build, and the other jobs of that person with them. */
export function removePerson(document: Draft, index: number): Change {
  const crew = withIds(document.crew ?? []);
  const person = crew[index]!;
  return change(
    `Remove ${person.name}`,
    withoutPerson({ ...document, crew: [...crew] }, person.id!),
  );
}

function withoutPerson(document: Draft, id: string): Draft {
  const { busy, crew } = document;
  const left = busy?.filter(({ who }) => who.kind !== 'person' || who.id !== id);
  const next = { ...document, crew: (crew ?? []).filter((person) => person.id !== id) };
  return left ? { ...next, busy: left } : next;
}
