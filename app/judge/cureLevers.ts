/** Levers of single cures: another hardener for one layup, a tent over its bag. */
import { leverId } from '../document/ids.ts';
import { coreOf, mouldOf, practiceOf, resinOf } from '../document/library.ts';
import type { Build, FullBuild } from '../document/schema.ts';
import { leverWords } from '../messages/levers.ts';
import type { LeverEdit, LeverTable, OfferInput } from './lever.ts';

/** 'For the inner skin: Orrin 40 hardener, fast': the others of the same resin, layup by layup. */
function cureHardeners({ document, build, library, lookups }: OfferInput): LeverEdit[] {
  const { resin } = build;
  const rows = resinOf(library, resin.system).hardeners;
  return lookups.layupsOf(build, library).flatMap((layup) => {
    const used = resin.hardenerFor[layup.id] ?? resin.hardener;
    const nowMinutes = lookups.openMinutes(build, library, used);
    return rows
      .filter((row) => row.id !== used)
      .map((row) => {
        const openMinutes = lookups.openMinutes(build, library, row.id);
        const args = { layup: layup.name, hardener: row.name, openMinutes, nowMinutes };
        return {
          id: leverId({ lever: 'layup-hardener', layup: layup.id, hardener: row.id }),
          ...leverWords('layup-hardener', args),
          document: withHardener(document, layup.id, row.id),
          addedMinor: 0,
        };
      });
  });
}

function withHardener(document: Build, layup: string, hardener: string): Build {
  const hardenerFor = { ...document.resin.hardenerFor };
  if (hardener === document.resin.hardener) delete hardenerFor[layup];
  else hardenerFor[layup] = hardener;
  return { ...document, resin: { ...document.resin, hardenerFor } };
}

/** 'Tent at 40 °C over the core bond': heat from the sealed bag on, within what everything stands. */
function cureTents(input: OfferInput): LeverEdit[] {
  const { document, build, library, lookups } = input;
  const practice = practiceOf(library);
  const limitC = standsC(input);
  const wanted = [practice('tent-cure-c'), practice('tent-cure-hot-c')];
  const temperatures = [...new Set(wanted.map((each) => Math.min(each, limitC)))].filter(
    (each) => each - build.room.temperatureC.day >= practice('tent-cure-least-k'),
  );
  const [ramp, hold] = [practice('tent-cure-ramp-k-per-h'), practice('tent-cure-hold-hours')];
  return lookups.layupsOf(build, library).flatMap((layup) => {
    const now = build.heat.find((programme) => programme.layup === layup.id);
    return temperatures
      .filter((temperatureC) => now?.steps.at(-1)?.temperatureC !== temperatureC)
      .map((temperatureC) => {
        const hours = (temperatureC - build.room.temperatureC.day) / ramp + hold;
        const hired = !build.room.tent;
        return {
          id: leverId({ lever: 'layup-tent', layup: layup.id, temperatureC }),
          ...leverWords('layup-tent', { layup: layup.name, temperatureC, hours, hired }),
          document: withTent(document, build, practice('hired-tent-c'), {
            layup: layup.id,
            steps: [{ temperatureC, rampKPerHour: ramp, holdHours: hold }],
          }),
          addedMinor: Math.round(
            hours * practice('tent-heat-minor-per-h') + (hired ? practice('tent-hire-minor') : 0),
          ),
        };
      });
  });
}

/** Hottest that tent, mould and cores all take, C. */
function standsC({ build, library }: OfferInput): number {
  const tentC = build.room.tent?.maxC ?? practiceOf(library)('hired-tent-c');
  const mouldC = build.mould.maxC ?? mouldOf(library, build.mould.material).maxC;
  const coresC = build.part.zones.flatMap(({ core }) =>
    core ? [coreOf(library, core.material).maxC] : [],
  );
  return Math.min(tentC, mouldC, ...coresC);
}

function withTent(
  document: Build,
  build: FullBuild,
  maxC: number,
  programme: NonNullable<Build['heat']>[number],
): Build {
  const others = (document.heat ?? []).filter((one) => one.layup !== programme.layup);
  const heated = { ...document, heat: [...others, programme] };
  if (build.room.tent) return heated;
  return {
    ...heated,
    room: { ...(document.room ?? {}), tent: { maxC } },
    gear: { ...(document.gear ?? {}), tents: Math.max(1, build.gear.tents) },
  };
}

export const CURE_LEVERS: LeverTable<'layup-hardener' | 'layup-tent'> = {
  'layup-hardener': {
    subject: ({ lever, layup }) => `${lever} ${layup}`,
    offer: cureHardeners,
  },
  'layup-tent': { subject: ({ lever, layup }) => `${lever} ${layup}`, offer: cureTents },
};
