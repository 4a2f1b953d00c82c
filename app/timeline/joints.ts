/** What each state of a joint would cost, before anybody chooses it. */
import { decimals } from '../units/formats.ts';
import { massWords, workHoursWords } from '../units/summed.ts';
import {
  JOINT_STATES,
  type JointState,
  type PlanResult,
  type RouteResult,
} from '../document/schema.ts';
import { dayClock } from '../shop/words.ts';
import type { Joint } from './rows.ts';

export interface JointOption {
  readonly state: JointState;
  readonly chosen: boolean;
  readonly possible: boolean;
  /** The whole route that it means; null while the routes are not worked out. */
  readonly joints: Readonly<Record<string, JointState>> | null;
  /** Hours, weight, finish and closing time, each against what is taken now; or why it cannot be. */
  readonly lines: readonly string[];
}

const FINISH = {
  clear: 'good for a clear finish',
  painted: 'good for paint',
  hidden: 'only where it is hidden',
} as const;

/** The three states of a joint, the rest of the route as it is. */
export function jointOptions(result: PlanResult, joint: Joint): JointOption[] {
  const taken = result.routes.find(({ id }) => id === result.route.id);
  return JOINT_STATES.map((state): JointOption => {
    const chosen = state === joint.state;
    const route = taken && routeWith(result.routes, taken, joint.boundary, state);
    if (!taken || !route) {
      const isDry = taken !== undefined && state === 'tack' && isInfused(result);
      return {
        ...{ state, chosen, possible: false },
        joints: isDry ? taken.joints : null,
        lines: isDry ? [NO_TACK] : [],
      };
    }
    const possible = route.possible && (route.open || chosen);
    const reason = route.findings[0]?.message ?? route.closingWords?.closes ?? '';
    return {
      ...{ state, chosen, possible, joints: route.joints },
      lines: possible ? costLines(taken, route) : [reason].filter((text) => text !== ''),
    };
  });
}

function routeWith(
  routes: readonly RouteResult[],
  taken: RouteResult,
  boundary: string,
  state: JointState,
): RouteResult | undefined {
  const wanted = { ...taken.joints, [boundary]: state };
  return routes.find(({ joints }) =>
    Object.entries(wanted).every(([id, own]) => (joints[id] ?? 'apart') === own),
  );
}

function costLines(taken: RouteResult, route: RouteResult): string[] {
  const isSame = route.id === taken.id;
  const hours = workHoursWords(route.labourHours);
  const mass = massWords(route.massKg);
  const closes = route.closes === null ? null : `Open until ${dayClock(route.closes)}`;
  return [
    isSame ? hours : `${hours} (${signed(route.labourHours - taken.labourHours, 1)} h)`,
    isSame ? mass : `${mass} (${signed(route.massKg - taken.massKg, 2)} kg)`,
    FINISH[route.finish],
    route.fits ? 'Makes the date' : 'Misses the date or has a stop',
    ...(closes === null ? [] : [closes]),
  ];
}

const signed = (value: number, digits: number): string => {
  const text = decimals(Math.abs(value), digits);
  return !/[1-9]/.test(text) ? '±0' : `${value > 0 ? '+' : '−'}${text}`;
};

const NO_TACK = 'Laid dry and infused, there is no tacky layup to follow on.';

/** Cloth of the plan is laid dry and filled under its bag. */
export const isInfused = ({ cures }: Pick<PlanResult, 'cures'>): boolean =>
  cures.some(({ infused }) => infused);
