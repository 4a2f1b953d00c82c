/** Levers of the crew: more hours, more hands. */
import { leverId } from '../document/ids.ts';
import { practiceOf, workDayMinutes } from '../document/library.ts';
import type { Build, FullBuild, Hours } from '../document/schema.ts';
import { leverWords } from '../messages/levers.ts';
import type { LeverEdit, LeverTable, OfferInput } from './lever.ts';

const withHours = (document: Build, build: FullBuild, edit: (hours: Hours) => Hours): Build => ({
  ...document,
  crew: build.crew.map((person) => ({ ...person, hours: edit(person.hours) })),
});

/** Wages of so many hours a week of everybody, with the overtime share on top. */
const overtimeMinor = ({ build, library, days }: OfferInput, hoursPerWeek: number): number => {
  const practice = practiceOf(library);
  const rate = practice('labour-minor-per-h') * practice('overtime-share');
  return Math.round((rate * hoursPerWeek * build.crew.length * days) / 7);
};

type Day = 'sat' | 'sun';
const HALF_DAY: [string, string] = ['08:00', '13:00'];
const HALF_DAY_HOURS = 5;

const saturday = (input: OfferInput): LeverEdit[] => weekend(input, 'saturday', ['sat']);

const bothWeekendDays = (input: OfferInput): LeverEdit[] =>
  weekend(input, 'weekend', ['sat', 'sun']);

function weekend(
  input: OfferInput,
  lever: 'saturday' | 'weekend',
  days: readonly Day[],
): LeverEdit[] {
  const { document, build } = input;
  const works = (day: Day) => build.crew.every((person) => person.hours[day]?.length);
  if (build.crew.length === 0 || days.some(works)) return [];
  const document_ = withHours(document, build, (hours) =>
    days.reduce<Hours>(
      (all, day) => (all[day]?.length ? all : { ...all, [day]: [HALF_DAY] }),
      hours,
    ),
  );
  return [
    {
      id: leverId({ lever }),
      ...leverWords(lever, {}),
      document: document_,
      addedMinor: overtimeMinor(input, days.length * HALF_DAY_HOURS),
    },
  ];
}

const LATEST_END = '20:00';

function longDay(input: OfferInput): LeverEdit[] {
  const { document, build } = input;
  const ends = build.crew.flatMap((person) =>
    Object.values(person.hours).flatMap((spans) => spans.at(-1)?.[1] ?? []),
  );
  if (ends.every((end) => end >= LATEST_END)) return [];
  const later = (hours: Hours): Hours =>
    Object.fromEntries(
      Object.entries(hours).map(([day, spans]) => {
        const last = spans.at(-1);
        return [day, last ? [...spans.slice(0, -1), [last[0], twoHoursLater(last[1])]] : spans];
      }),
    ) as Hours;
  return [
    {
      id: leverId({ lever: 'longer-day' }),
      ...leverWords('longer-day', {}),
      document: withHours(document, build, later),
      addedMinor: overtimeMinor(input, 10),
    },
  ];
}

function twoHoursLater(wall: string): string {
  if (wall >= LATEST_END) return wall;
  const hour = Number(wall.slice(0, 2)) + 2;
  const later = `${String(hour).padStart(2, '0')}${wall.slice(2)}`;
  return later > LATEST_END ? LATEST_END : later;
}

const LARGEST_CREW = 4;

function hand({ document, build, library, days }: OfferInput): LeverEdit[] {
  const first = build.crew[0];
  if (build.crew.length >= LARGEST_CREW) return [];
  const extra = {
    id: `extra-${build.crew.length + 1}`,
    name: 'Another pair of hands',
    ...(first ? { hours: first.hours } : {}),
  };
  const practice = practiceOf(library);
  const share = practice('hired-hand-day-share');
  const wage = practice('labour-minor-per-h') * (workDayMinutes(library) / 60) * share;
  return [
    {
      id: leverId({ lever: 'another-hand' }),
      ...leverWords('another-hand', {}),
      document: { ...document, crew: [...build.crew, extra] },
      addedMinor: Math.round((wage * days * 5) / 7),
    },
  ];
}

export const CREW_LEVERS: LeverTable<'saturday' | 'weekend' | 'longer-day' | 'another-hand'> = {
  saturday: { subject: 'hours', offer: saturday },
  weekend: { subject: 'hours', offer: bothWeekendDays },
  'longer-day': { subject: 'hours', offer: longDay },
  'another-hand': { subject: 'crew', offer: hand },
};
