/** A cured surface made ready for what is bonded to it. */
import { surfaceWait } from '../../document/ids.ts';
import { practiceOf } from '../../document/library.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { jointMinutes } from '../../part/sectionWork.ts';
import type { Layup, StageWork } from '../../part/types.ts';
import { MINUTES_PER_DAY, MINUTES_PER_HOUR } from '../../time/instant.ts';
import { localDayNumber } from '../../time/zone.ts';
import type { Mode, Relation } from '../problem.ts';
import type { NetworkBuilder } from './builder.ts';
import { crewModes } from './crew.ts';
import { sameDayWithin } from './sameDay.ts';
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
 * and bonded that same day, within the hours that a fresh surface keeps from the first pull. What takes
 * longer to strip is covered as it is stripped and keeps for the shift. Where no day holds that, the
 * surface is abraded and cleaned again. Peel ply stays on overnight.
 */
export function prepareSurface(net: NetworkBuilder, next: NextLayup): string | null {
  const { build, library } = net.input;
  const { work, areaM2, atJoint } = surfaceOf(net, next);
  if (work.personMinutes <= 0) return null;
  const practice = practiceOf(library);
  const { structural } = build.part;
  const scuffMinutes = structural ? practice('structural-scuff-minutes-per-m2') * areaM2 : 0;
  const fresh = { ...work, personMinutes: work.personMinutes + scuffMinutes };
  const keepsMinutes = practice('strip-to-bond-hours') * MINUTES_PER_HOUR;
  const strips = crewModes(net.crew, fresh, 'scuff').map((mode): Mode => ({
    ...mode,
    // Peel ply comes off without dust; the pad and the sander do not.
    keepsAirClean: !structural && !atJoint,
    covered: !next.onBareCore && minutesOf(mode) > keepsMinutes,
  }));
  const strip = strips.filter((mode) => minutesOf(mode) <= longestDay(mode, build.zone));
  const abraded = next.onBareCore
    ? STAGE_NAMES.abradeOverlaps(next.name)
    : atJoint
      ? STAGE_NAMES.abradeJoint(next.name)
      : STAGE_NAMES.stripAndAbrade(next.name);
  const abradeMinutes = work.personMinutes * practice('abrade-factor');
  const abrade = crewModes(net.crew, { ...work, personMinutes: abradeMinutes }, 'abrade').map(
    (mode) => ({ ...mode, repair: true, name: abraded }),
  );
  const id = net.stage(
    {
      ref: { what: 'prepare', layup: next.key },
      name: next.onBareCore
        ? STAGE_NAMES.vacuumCore(next.name)
        : atJoint
          ? STAGE_NAMES.stripJoint(next.name)
          : STAGE_NAMES.strip(next.name, structural),
      kind: 'prepare',
      air: 'dust',
      perishable: true,
    },
    [...strip, ...abrade],
  );
  net.personMinutes[id] = fresh.personMinutes;
  if (!next.onBareCore && strip.length === 0 && strips.length > 0) {
    net.tooLongToStrip[id] = Math.min(...strips.map(minutesOf));
  }
  net.after(id, next.layup, 'clean-surface');
  for (const mode of strip) {
    const onlyIf: Relation['onlyIf'] = { stage: id, mode: mode.id };
    // What is pulled first is the first to go stale; a vacuumed core and what is covered keep for the day.
    const fromLast = next.onBareCore || mode.covered;
    const kept = sameDayWithin(fromLast ? MINUTES_PER_DAY : keepsMinutes, build.zone);
    const why = next.onBareCore ? 'core-vacuumed' : 'fresh-surface';
    net.relate('at-most', 'start', id, next.layup, kept, why, onlyIf);
    if (!fromLast) continue;
    const last = next.onBareCore ? 'core-vacuumed' : 'covered-surface';
    net.relate('at-most', 'end', id, next.layup, keepsMinutes, last, onlyIf);
  }
  const abradedKeeps = practice('abraded-keeps-hours') * MINUTES_PER_HOUR;
  for (const mode of abrade) {
    const onlyIf: Relation['onlyIf'] = { stage: id, mode: mode.id };
    net.relate('at-most', 'end', id, next.layup, abradedKeeps, 'abraded-keeps', onlyIf);
  }
  waitAfterAbrading(net, id, next, abrade);
  return id;
}

/** What is made ready, and how much of it is scuffed where the part carries load. */
interface Surface {
  readonly work: StageWork;
  readonly areaM2: number;
  /** The joint to the section before is stripped and scuffed in any case. */
  readonly atJoint: boolean;
}

/** Of a later section on the mould the joint alone is bonded to; one on a surface has the joint beside its own. */
function surfaceOf({ input }: NetworkBuilder, { under }: NextLayup): Surface {
  const { build, library, part } = input;
  const work = part.workUnder('prepare', under);
  const [{ section, areaM2 }] = under as [Layup];
  if (!section) return { work, areaM2: part.areaM2, atJoint: false };
  if (section.number === 1) return { work, areaM2, atJoint: false };
  const onMould = section.of === 'skin';
  const personMinutes = jointMinutes(section, build, library) + (onMould ? 0 : work.personMinutes);
  const bonded = section.bandM2 + (onMould ? 0 : areaM2);
  return { work: { ...work, personMinutes }, areaM2: bonded, atJoint: true };
}

const minutesOf = ({ length }: Mode): number => (length.kind === 'work' ? length.minutes : 0);

/** Most minutes of work that the mode's hours hold in one day. */
function longestDay({ calendar }: Mode, zone: string): number {
  const byDay = new Map<number, number>();
  for (const { start, end } of calendar ?? []) {
    const day = localDayNumber(start, zone);
    byDay.set(day, (byDay.get(day) ?? 0) + end - start);
  }
  return Math.max(0, ...byDay.values());
}

/**
 * Hours that the table puts between a surface abraded again and the bond, as for a wash to dry. The wait
 * stands in the network in any case, since modes are chosen later; only an abraded surface waits for it.
 */
function waitAfterAbrading(
  net: NetworkBuilder,
  prepared: string,
  { layup, key, name }: NextLayup,
  abrade: readonly { readonly id: string }[],
): void {
  const { library, profile } = net.input;
  const row = library.consequences.find((one) => one.event === 'bond-window-missed');
  if (!row || row.waitHoursAt20C === 0) return;
  const hours = waitMap(library, profile, row.waitHoursAt20C);
  const dries = net.running(
    {
      ref: { what: 'wait', for: surfaceWait(key) },
      name: STAGE_NAMES.abradedDries(name),
      kind: 'wait',
      neededIf: { stage: prepared, modes: abrade.map(({ id }) => id) },
    },
    { kind: 'function', endOf: hours.apply, latestStart: hours.latest },
  );
  net.after(prepared, dries, 'abraded-dries');
  for (const mode of abrade) {
    const onlyIf: Relation['onlyIf'] = { stage: prepared, mode: mode.id };
    net.relate('at-least', 'end', dries, layup, 0, 'abraded-dries', onlyIf);
  }
}
