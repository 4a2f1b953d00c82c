/** Which hardener a cure takes, its fitted curve, and the heat over it. */
import { benchOf, hardenerIdOf } from '../document/hardener.ts';
import { hardenerOf, mouldOf } from '../document/library.ts';
import { memoByAll } from '../document/memo.ts';
import type { HardenerRow, HeatProgramme } from '../document/schema.ts';
import { fitSheet, delayMilestones } from '../cure/fit.ts';
import { programmeProfile } from '../cure/programme.ts';
import type { CureModel, TemperatureProfile } from '../cure/types.ts';
import { coreLimitC } from '../part/checks.ts';
import type { RouteCure } from '../route/types.ts';
import type { PlanContext } from './context.ts';

/** A hardener of the build's resin with the curve of the two. */
export interface Chemistry {
  readonly hardener: HardenerRow;
  readonly model: CureModel;
}

const known = new WeakMap<PlanContext, Map<string, Chemistry>>();

/** The resin with the hardener of some layups and what the bench said of them. @throws MissingRow */
export function chemistryOf(context: PlanContext, layups: readonly string[]): Chemistry {
  const { build, library, practice, resin, hardener, model } = context;
  const hardenerId = hardenerIdOf(build, layups);
  const row =
    hardenerId === hardener.id
      ? hardener
      : hardenerOf(library, { system: build.resin.system, hardener: hardenerId });
  const bench = benchOf(build, layups, row);
  if (row === hardener && bench === hardener.bench) return { hardener, model };
  const fitted = known.get(context) ?? new Map<string, Chemistry>();
  known.set(context, fitted);
  const key = chemistryKey(build, layups);
  let own = fitted.get(key);
  if (!own) {
    const { bench: _sheet, ...rest } = row;
    const corrected = bench ? { ...rest, bench } : rest;
    own = { hardener: row, model: fitSheet(corrected, practice, resin.chemistry) };
    fitted.set(key, own);
  }
  return own;
}

/** Layups with the same key are mixed alike and cure by the same clock. */
export const chemistryKey = (build: PlanContext['build'], layups: readonly string[]): string =>
  JSON.stringify([hardenerIdOf(build, layups), benchOf(build, layups, {}) ?? null]);

/** Tent or oven over a cure; null: the room alone. */
export interface CureHeat {
  readonly steps: HeatProgramme['steps'];
  /** What part and mould go through, from the sealed bag as minute 0. */
  readonly programme: TemperatureProfile;
  readonly hottestC: number;
  /** Fastest ramp, K/h. */
  readonly steepestKPerHour: number;
}

/**
 * Heat of a cure: that of the first programme that names one of its layups. None where the
 * shop has neither tent nor oven: a cure is not shortened by heat that cannot be given.
 */
export function heatOf(
  { build, library, tents }: Pick<PlanContext, 'build' | 'library' | 'tents'>,
  cure: Pick<RouteCure, 'layups' | 'place'>,
): CureHeat | null {
  const own = build.heat.find(({ layup }) => cure.layups.some(({ id }) => id === layup));
  if (!own || tents === 0) return null;
  const { steps } = own;
  const lagHours = cure.place === 'chain' ? mouldOf(library, build.mould.material).lagHours : 0;
  const programme = programmeProfile(steps, build.room.temperatureC.day, lagHours);
  if (programme.length === 0) return null;
  return {
    steps,
    programme,
    hottestC: Math.max(...steps.map(({ temperatureC }) => temperatureC)),
    steepestKPerHour: Math.max(...steps.map(({ rampKPerHour }) => rampKPerHour)),
  };
}

/** Greatest heat that tent, mould and the cores in a bag stand, C; null: there is none of them. */
export interface HeatLimits {
  readonly tentMaxC: number | null;
  readonly mould: { readonly name: string; readonly maxC: number } | null;
  readonly coreMaxC: number | null;
}

/**
 * Greatest heat that tent, mould and the cores in the bag of one cure stand.
 * @param at index of the cure in `cures`: cores of the cures up to it lie in its bag
 * @throws MissingRow when the library lacks the mould or a core
 */
export function heatLimitsOf(
  { build, library }: Pick<PlanContext, 'build' | 'library'>,
  cures: readonly RouteCure[],
  at: number,
): HeatLimits {
  const mould = mouldOf(library, build.mould.material);
  const cored = cures.slice(0, at + 1).some((cure) => cure.layups.some((l) => l.hasCore));
  return {
    tentMaxC: build.room.tent?.maxC ?? null,
    mould:
      cures[at]!.place === 'chain'
        ? { name: mould.name, maxC: build.mould.maxC ?? mould.maxC }
        : null,
    coreMaxC: cored ? coreLimitC(build, library) : null,
  };
}

/**
 * Core that is bent over a curve springs back when its bag comes off too early: bag-off comes `factor`
 * times later on a film at 20 C, and no later than demould.
 */
export const withSpringBack = (model: CureModel, factor: number): CureModel =>
  delayed([model], `${factor}`, () => springBack(model, factor));

const delayed = memoByAll<CureModel>();

function springBack(model: CureModel, factor: number): CureModel {
  const later = delayMilestones(model, { debag: factor });
  const { debag, demould } = later.doseHours;
  if (debag === null || demould === null || debag <= demould) return later;
  return { ...later, doseHours: { ...later.doseHours, debag: demould } };
}
