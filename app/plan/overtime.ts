/** Hours beyond the week that are worked by permission, and what a plan uses of them. */
import { personCalendar } from '../document/calendars.ts';
import { readResourceId } from '../document/ids.ts';
import { memoByAll } from '../document/memo.ts';
import { intersect, subtract, workBetween } from '../time/calendar.ts';
import type { Calendar } from '../time/instant.ts';
import type { PlanContext } from './context.ts';
import type { RoutePlan } from './routePlan.ts';
import { resourcesTaken } from '../schedule/taken.ts';

type Asked = Pick<PlanContext, 'build' | 'first' | 'horizon' | 'personHours'>;

/** Hours that each may stay, by person; those who may not are left out. */
export const overtimeHours = (context: Asked): Readonly<Record<string, Calendar>> =>
  known(
    [context.personHours, context.build.crew, context.build.holidays, context.build.busy],
    `${context.build.zone} ${context.first} ${context.horizon}`,
    () => workOut(context),
  );

const known = memoByAll<Record<string, Calendar>>();

function workOut({ build, first, horizon, personHours }: Asked): Record<string, Calendar> {
  return Object.fromEntries(
    build.crew.flatMap((person) => {
      const { id, overtime } = person;
      if (Object.values(overtime).every((spans) => spans.length === 0)) return [];
      const hours = personCalendar(build, person, overtime, first, horizon);
      return [[id, subtract(hours, personHours[id] ?? [])]];
    }),
  );
}

/** Person-minutes of overtime of one stage. */
export interface OvertimeUse {
  readonly stage: string;
  readonly name: string;
  readonly people: readonly string[];
  readonly minutes: number;
}

/** Stages that use overtime, in the order of the plan; recorded ones need no permission. */
export function overtimeUses(context: PlanContext, plan: RoutePlan): OvertimeUse[] {
  const overtime = overtimeHours(context);
  if (Object.keys(overtime).length === 0) return [];
  const specs = new Map(plan.network.problem.stages.map((stage) => [stage.id, stage]));
  return plan.schedule.placed.flatMap((spot): OvertimeUse[] => {
    const { stage, mode, start, end } = spot;
    const spec = specs.get(stage)!;
    const own = spec.modes.find((one) => one.id === mode);
    if (!own?.calendar || !own.overtimeMinutes || spec.fixedEnd !== null) return [];
    const calendar = own.calendar;
    const stays = resourcesTaken(own, spot).flatMap((id) => {
      const ref = readResourceId(id);
      if (ref?.kind !== 'person') return [];
      const hours = overtime[ref.person];
      const minutes = hours ? workBetween(intersect(calendar, hours), start, end) : 0;
      return minutes > 0 ? [{ person: ref.person, minutes }] : [];
    });
    const minutes = stays.reduce((sum, one) => sum + one.minutes, 0);
    const people = stays.map((one) => one.person);
    return minutes > 0 ? [{ stage, name: spec.name, people, minutes }] : [];
  });
}
