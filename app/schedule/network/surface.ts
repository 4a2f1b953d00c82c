/** A cured surface made ready for what is bonded to it. */
import { practiceOf } from '../../document/library.ts';
import type { RelationReason } from '../../messages/relations.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { MINUTES_PER_HOUR } from '../../time/instant.ts';
import type { Layup } from '../../part/types.ts';
import type { Mode, Relation } from '../problem.ts';
import type { NetworkBuilder } from './builder.ts';
import { crewModes } from './crew.ts';
import { waitMap } from './wait.ts';

/** What goes on the prepared surface. */
export interface NextLayup {
  readonly layup: string;
  readonly key: string;
  readonly name: string;
  /** Layups that the surface is made ready for. */
  readonly under: readonly Layup[];
  /** It goes on bare core: there is no peel ply to strip. */
  readonly onBareCore?: boolean;
}

/**
 * Prepares a cured surface for the next layup: peel ply stripped, scuffed where the part carries load,
 * bonded within the hours that a fresh surface keeps, or, where that cannot hold, abraded and cleaned
 * again.
 */
export function prepareSurface(net: NetworkBuilder, next: NextLayup): string | null {
  const { build, library, part } = net.input;
  const work = part.workUnder('prepare', next.under);
  if (work.personMinutes <= 0) return null;
  const practice = practiceOf(library);
  const { structural } = build.part;
  const scuffMinutes = structural ? practice('structural-scuff-minutes-per-m2') * part.areaM2 : 0;
  const fresh = { ...work, personMinutes: work.personMinutes + scuffMinutes };
  // Peel ply comes off without dust; the pad and the sander do not.
  const strip: Mode[] = crewModes(net.crew, fresh, 'scuff').map((mode) => ({
    ...mode,
    keepsAirClean: !structural,
  }));
  const abradeMinutes = work.personMinutes * practice('abrade-factor');
  const abrade = crewModes(net.crew, { ...work, personMinutes: abradeMinutes }, 'abrade').map(
    (mode) => ({ ...mode, repair: true }),
  );
  const id = net.stage(
    {
      ref: { what: 'prepare', layup: next.key },
      name: next.onBareCore
        ? STAGE_NAMES.vacuumCore(next.name)
        : STAGE_NAMES.strip(next.name, structural),
      kind: 'prepare',
      air: 'dust',
      perishable: true,
    },
    [...strip, ...abrade],
  );
  net.personMinutes[id] = fresh.personMinutes;
  net.after(id, next.layup, 'clean-surface');
  const windows: [readonly Mode[], number, RelationReason][] = [
    [strip, practice('strip-to-bond-hours'), 'fresh-surface'],
    [abrade, practice('abraded-keeps-hours'), 'abraded-keeps'],
  ];
  for (const [modes, hours, why] of windows) {
    for (const mode of modes) {
      const onlyIf: Relation['onlyIf'] = { stage: id, mode: mode.id };
      net.relate('at-most', 'end', id, next.layup, hours * MINUTES_PER_HOUR, why, onlyIf);
    }
  }
  waitAfterAbrading(net, id, next.layup, abrade);
  return id;
}

/** Hours that the table puts between a surface abraded again and the bond, as for a wash to dry. */
function waitAfterAbrading(
  net: NetworkBuilder,
  prepared: string,
  layup: string,
  abrade: readonly { readonly id: string }[],
): void {
  const { library, profile } = net.input;
  const row = library.consequences.find((one) => one.event === 'bond-window-missed');
  if (!row || row.waitHoursAt20C === 0) return;
  const dries = waitMap(library, profile, row.waitHoursAt20C);
  for (const mode of abrade) {
    const onlyIf: Relation['onlyIf'] = { stage: prepared, mode: mode.id };
    net.relate('at-least', 'end', prepared, layup, dries, 'abraded-dries', onlyIf);
  }
}
