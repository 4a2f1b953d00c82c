/** Edits of one cure: the heat under its bag, and its hardener. Every one is one undoable gesture. */
import type { HeatProgramme } from '../schema.ts';
import { plain } from '../../units/words.ts';
import { formatBoth } from '../../units/convert.ts';
import { setField, type Change } from './change.ts';
import type { Draft } from './path.ts';

type Steps = HeatProgramme['steps'];
type Practice = (id: string) => number;

/** Place of a cure's programme in the document's list; -1: none. */
export const heatIndex = (document: Draft, layups: readonly string[]): number =>
  (document.heat ?? []).findIndex(({ layup }) => layups.includes(layup));

/** A first programme: a warm tent, as hot as mould and tent take it, by practice. */
export const usualSteps = (practice: Practice, mostC: number): Steps => [
  {
    temperatureC: Math.min(practice('tent-cure-c'), mostC),
    rampKPerHour: practice('tent-cure-ramp-k-per-h'),
    holdHours: practice('tent-cure-hold-hours'),
  },
];

/** Heat set over a cure, or taken off (null). Programmes of its other layups are removed: a bag has one. */
export function setHeat(
  document: Draft,
  cure: { readonly name: string; readonly layups: readonly string[] },
  steps: Steps | null,
): Change {
  const others = (document.heat ?? []).filter(({ layup }) => !cure.layups.includes(layup));
  const own = steps === null ? [] : [{ layup: cure.layups[0]!, steps }];
  const next = [...others, ...own];
  const name = `Heat under the bag, ${cure.name.toLowerCase()}`;
  return setField(document, 'heat', next.length > 0 ? next : undefined, name, stepsSaid(steps));
}

const stepsSaid = (steps: Steps | null): string =>
  steps === null
    ? 'none'
    : steps
        .map(
          ({ temperatureC, rampKPerHour, holdHours }) =>
            `${formatBoth(temperatureC, 'temperatureC')} at ${plain(rampKPerHour)} °C/h, ` +
            `${plain(holdHours)} h`,
        )
        .join('; ');

/** A tent for a shop that has none, hot enough for what is asked of it. */
export const giveTent = (document: Draft, maxC: number): Change =>
  setField(
    document,
    'room.tent',
    { maxC },
    'Heated tent',
    `to ${formatBoth(maxC, 'temperatureC')}`,
  );

/** Another hardener for one cure; null: the build's own. All layups of a bag are mixed alike. */
export function setCureHardener(
  document: Draft,
  cure: { readonly name: string; readonly layups: readonly string[] },
  hardener: { readonly id: string; readonly name: string } | null,
): Change {
  const kept = Object.entries(document.resin?.hardenerFor ?? {}).filter(
    ([layup]) => !cure.layups.includes(layup),
  );
  const named = hardener === null ? [] : [[cure.layups[0]!, hardener.id] as const];
  const next = Object.fromEntries([...kept, ...named]);
  return setField(
    document,
    'resin.hardenerFor',
    Object.keys(next).length > 0 ? next : undefined,
    `Hardener of ${cure.name.toLowerCase()}`,
    hardener?.name ?? 'that of the build',
  );
}
