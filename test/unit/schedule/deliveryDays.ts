/**
 * Orders drawn at random and the arrival of each, found by walking the days of a plain calendar: written
 * from the rule and not from the engine.
 */

const DAY_MS = 86_400_000;
const OFF = ['2027-05-03', '2027-05-13', '2027-05-14', '2027-06-10'];

interface Drawn {
  readonly ordered: string;
  readonly leadDays: number;
  readonly off: string[];
  readonly walked: string;
  readonly kind: 'weekend' | 'holiday' | 'late';
}

const dayName = (time: number): string => new Date(time).toISOString().slice(0, 10);
const isOpen = (time: number, off: readonly string[]): boolean =>
  ![0, 6].includes(new Date(time).getUTCDay()) && !off.includes(dayName(time));

function walk(ordered: string, leadDays: number, off: readonly string[]): string {
  let time = Date.parse(`${ordered.slice(0, 10)}T00:00Z`);
  if (!isOpen(time, off) || ordered.slice(11) >= '17:00') {
    do time += DAY_MS;
    while (!isOpen(time, off));
  }
  for (let left = leadDays; left > 0;) {
    time += DAY_MS;
    if (isOpen(time, off)) left -= 1;
  }
  return `${dayName(time)}T17:00`;
}

/** Orders from 19 April to 12 June 2027 at any minute, with leads of 1 to 9 days. */
export function draws(count: number): Drawn[] {
  let state = 20_270_419;
  const next = (below: number): number => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return Math.floor((state / 2_147_483_648) * below);
  };
  const two = (value: number): string => String(value).padStart(2, '0');
  return Array.from({ length: count }, () => {
    const time = Date.parse('2027-04-19T00:00Z') + next(55) * DAY_MS;
    const ordered = `${dayName(time)}T${two(next(24))}:${two(next(60))}`;
    const leadDays = 1 + next(9);
    const off = next(2) === 0 ? [] : OFF;
    const weekend = !isOpen(time, []);
    const kind = weekend ? 'weekend' : off.length > 0 ? 'holiday' : 'late';
    return { ordered, leadDays, off, walked: walk(ordered, leadDays, off), kind };
  });
}
