/** Closing a finished build: what it cost and how it came off the mould, as edits of the document. */
import type { Build, ConsequenceRow, FullBuild } from '../schema.ts';
import { change, type Change } from './change.ts';
import type { Draft } from './path.ts';

type Lessons = NonNullable<Build['lessons']>;
export type LearnedEvent = FullBuild['lessons']['events'][number];

const lessonsOf = (document: Draft): Lessons => (document.lessons ?? {}) as Lessons;

const put = (document: Draft, changed: Partial<Lessons>, label: string): Change =>
  change(label, { ...document, lessons: { ...lessonsOf(document), ...changed } });

export const eventsOf = (document: Draft): readonly LearnedEvent[] =>
  (lessonsOf(document).events ?? []) as readonly LearnedEvent[];

export const closeBuild = (document: Draft, finished: boolean): Change =>
  put(document, { finished }, finished ? 'Build closed' : 'Build opened again');

export const setDemould = (document: Draft, hardDemould: boolean | null): Change =>
  put(
    document,
    { hardDemould },
    hardDemould === null ? 'Demould: not said' : hardDemould ? 'Demould: hard' : 'Demould: easy',
  );

export const addEvent = (
  document: Draft,
  row: Pick<ConsequenceRow, 'event' | 'name'>,
  areaM2: number,
): Change =>
  put(
    document,
    {
      events: [
        ...eventsOf(document),
        { event: row.event, areaM2, fairMinutes: 0, extraHours: 0, fillerKg: 0 },
      ],
    },
    `Taught: ${row.name}`,
  );

export const setEvent = (
  document: Draft,
  index: number,
  changed: Partial<LearnedEvent>,
  said: string,
): Change =>
  put(
    document,
    { events: eventsOf(document).map((one, i) => (i === index ? { ...one, ...changed } : one)) },
    said,
  );

export const removeEvent = (document: Draft, index: number, name: string): Change =>
  put(
    document,
    { events: eventsOf(document).filter((_, i) => i !== index) },
    `Not taught: ${name}`,
  );
