/** Ids of what a stage takes: people and gear. */
import { oneOf } from './oneOf.ts';

export const GEAR = ['mould', 'pump', 'tent', 'bench'] as const;
export type Gear = (typeof GEAR)[number];

/** What a stage takes: a person of the crew, or gear of the shop. */
export type ResourceRef =
  { readonly kind: 'person'; readonly person: string } | { readonly kind: Gear };

const PERSON = 'person:';

/** The id of a resource inside a scheduling problem; a person called `mould` is no mould. */
export const resourceId = (ref: ResourceRef): string =>
  ref.kind === 'person' ? PERSON + ref.person : ref.kind;

/** The resource that an id names; null for what is neither a person nor gear, as `air` and `time`. */
export function readResourceId(text: string): ResourceRef | null {
  if (text.startsWith(PERSON)) return { kind: 'person', person: text.slice(PERSON.length) };
  const kind = oneOf(GEAR, text);
  return kind && { kind };
}

/** What the published result calls a resource: the person's own id, or the name of the gear. */
export function publishedResource(text: string): string {
  const ref = readResourceId(text);
  return ref?.kind === 'person' ? ref.person : text;
}
