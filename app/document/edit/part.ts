/** Entries of the part that bring their surroundings with them. */
import { getIn, setIn, type Draft } from './path.ts';

/** A zone with empty stacks where there was none, so that the first figure typed can be stored. */
export function withZone(document: Draft, index: number): Draft {
  const path = `part.zones[${index}]`;
  let next = document;
  for (const stack of ['outer', 'inner']) {
    if (getIn(next, `${path}.${stack}`) === undefined) next = setIn(next, `${path}.${stack}`, []);
  }
  return next;
}

/** The place of the first paint shop, or the free place after the outside jobs there are. */
export function painterIndex(document: Draft): number {
  const parties = document.outside ?? [];
  const found = parties.findIndex((party) => (party.kind ?? 'paint') === 'paint');
  return found < 0 ? parties.length : found;
}

export function withPainter(document: Draft): Draft {
  const index = painterIndex(document);
  if (getIn(document, `outside[${index}]`) !== undefined) return document;
  return setIn(document, `outside[${index}]`, { name: 'Painter', kind: 'paint' });
}

/** A core whose thickness is about to be typed. */
export function withCore(document: Draft, zone: number, material: string): Draft {
  const path = `part.zones[${zone}].core`;
  return getIn(document, path) ? document : setIn(withZone(document, zone), path, { material });
}
