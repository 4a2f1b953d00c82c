/** Fairing and priming: rounds in the library's order, each with its drying time. */
import { zonesFinished } from '../../document/finish.ts';
import { layupStageId } from '../../document/ids.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { finishingRounds, type FinishingRound } from '../../part/labour.ts';
import type { MonotoneMap } from '../problem.ts';
import { milestoneMap, type NetworkBuilder } from './builder.ts';
import { closesLate } from './edge.ts';
import { waitMap } from './wait.ts';

/** The last round on some zones. */
interface LastRound {
  readonly stage: string;
  readonly row: FinishingRound['row'];
  readonly dries: MonotoneMap | null;
}

/**
 * Lays out the rounds; each waits for those on its own zones to dry, so that a clear zone does not
 * stand still for the filler on a painted one.
 * @returns the stages after which the part may leave; `start` where nothing is faired
 */
export function finishing(net: NetworkBuilder, start: string | null): readonly string[] {
  const { build, library, extraFairMinutes, extraWaitHoursAt20C, profile } = net.input;
  const lastByZone = new Map<string, LastRound>();
  const taken = new Set<string>();
  for (const [i, { row, personMinutes }] of finishingRounds(build, library).entries()) {
    const { stage: what, step } = row;
    const number = `${what} ${step}`;
    const ref = { what, round: taken.has(number) ? `${step}-${row.id}` : String(step) };
    taken.add(number);
    const round = net.handsOn({
      ref,
      name: row.name,
      kind: row.stage,
      personMinutes: personMinutes + (i === 0 ? extraFairMinutes : 0),
      peopleMax: 2,
      air: row.air,
    });
    const zones = zonesFinished(build, row.finishes).map((zone) => zone.id);
    const before = new Set(zones.map((zone) => lastByZone.get(zone) ?? null));
    for (const earlier of before) {
      if (earlier) {
        net.after(earlier.stage, round, 'round-dried', earlier.dries ?? 0);
      } else {
        net.after(start, round, 'trimmed-and-checked');
        sandable(net, round);
      }
    }
    const hours = row.waitHoursAt20C + (i === 0 ? extraWaitHoursAt20C : 0);
    const dries = hours > 0 ? waitMap(library, profile, hours) : null;
    // One for all zones of the round: what follows waits for it once.
    const last: LastRound = { stage: round, row, dries };
    for (const zone of zones) lastByZone.set(zone, last);
  }
  const ends = [...new Set(lastByZone.values())];
  if (ends.length === 0) return start === null ? [] : [start];
  return ends.map((last) => dried(net, last, ends.length > 1));
}

/** The last coat's drying as a stage of its own, so that it can be seen; the round itself without one. */
function dried(net: NetworkBuilder, { stage, row, dries }: LastRound, several: boolean): string {
  if (!dries) return stage;
  const ref = { what: 'wait', for: several ? `finish-${row.id}` : 'finish' } as const;
  const name = several ? STAGE_NAMES.roundDries(row.name) : STAGE_NAMES.lastCoatDries();
  const dry = net.running(
    { ref, name, kind: 'wait' },
    { kind: 'function', endOf: dries.apply, latestStart: dries.latest },
  );
  net.after(stage, dry, 'coat-dries');
  return dry;
}

/** Nothing is faired before every cure under it can be sanded. */
function sandable(net: NetworkBuilder, round: string): void {
  for (const setup of net.input.cures) {
    if (closesLate(net, setup)) continue;
    const { cure, clock } = setup;
    const stage = layupStageId('cure', cure.layups[0]!.id);
    const sand = milestoneMap(clock, 'sand');
    net.relate('at-least', 'start', stage, round, sand, 'fit-for-sanding');
  }
}
