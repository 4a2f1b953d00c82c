/** Fairing and priming: rounds in the library's order, each with its drying time. */
import { zonesFinished } from '../../document/finish.ts';
import { layupStageId } from '../../document/ids.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { finishingRounds, type FinishingRound } from '../../part/labour.ts';
import { milestoneMap, type NetworkBuilder } from './builder.ts';
import { closesLate } from './edge.ts';
import { waitMap } from './wait.ts';

/**
 * Lays out the rounds; each waits for those on its own zones to dry, so that a clear zone does not
 * stand still for the filler on a painted one. Drying is a stage of its own, so that it can be seen.
 * @returns the stages after which the part may leave; `start` where nothing is faired
 */
export function finishing(net: NetworkBuilder, start: string | null): readonly string[] {
  const { build, library, extraFairMinutes, extraWaitHoursAt20C } = net.input;
  const rounds = finishingRounds(build, library);
  const isLast = lastRounds(net, rounds);
  /** The end of the last round on a zone so far: the round itself, or its drying. */
  const endByZone = new Map<string, string>();
  const taken = new Set<string>();
  for (const [i, round] of rounds.entries()) {
    const { row, personMinutes, lift, lifts } = round;
    const { stage: what, step } = row;
    const number = `${what} ${step}`;
    const own = taken.has(number) ? `${step}-${row.id}` : String(step);
    const ref = { what, round: lift > 1 ? `${step}-lift-${lift}` : own };
    taken.add(number);
    const name = STAGE_NAMES.fillLift(row.name, lift, lifts);
    const worked = net.handsOn({
      ref,
      name,
      kind: row.stage,
      personMinutes: personMinutes + (i === 0 ? extraFairMinutes : 0),
      peopleMax: 2,
      // Filler hardens in its tub, and a coat is sprayed wet in wet.
      inOneGo: row.air !== 'dust',
      air: row.air,
    });
    const zones = zonesFinished(build, row.finishes).map((zone) => zone.id);
    for (const before of new Set(zones.map((zone) => endByZone.get(zone) ?? null))) {
      net.after(before ?? start, worked, before ? 'round-dried' : 'trimmed-and-checked');
      if (!before) sandable(net, worked);
    }
    const hours = round.waitHoursAt20C + (i === 0 ? extraWaitHoursAt20C : 0);
    const several = isLast.size > 1;
    const end = isLast.has(round)
      ? dried(net, worked, hours, {
          for: several ? `finish-${row.id}` : 'finish',
          name: several ? STAGE_NAMES.roundDries(name) : STAGE_NAMES.lastCoatDries(),
        })
      : dried(net, worked, hours, {
          for: `${what}-${ref.round}`,
          name: STAGE_NAMES.roundDries(name),
        });
    for (const zone of zones) endByZone.set(zone, end);
  }
  const ends = [...new Set(endByZone.values())];
  return ends.length === 0 && start !== null ? [start] : ends;
}

/** Rounds that nothing follows on some zone. */
function lastRounds(
  { input: { build } }: NetworkBuilder,
  rounds: readonly FinishingRound[],
): ReadonlySet<FinishingRound> {
  const byZone = new Map<string, FinishingRound>();
  for (const round of rounds) {
    for (const { id } of zonesFinished(build, round.row.finishes)) byZone.set(id, round);
  }
  return new Set(byZone.values());
}

/** The drying of a round as a stage; the round itself where nothing has to dry. */
function dried(
  net: NetworkBuilder,
  round: string,
  hoursAt20C: number,
  wait: { readonly for: string; readonly name: string },
): string {
  if (hoursAt20C <= 0) return round;
  const dries = waitMap(net.input.library, net.input.profile, hoursAt20C);
  const dry = net.running(
    { ref: { what: 'wait', for: wait.for }, name: wait.name, kind: 'wait' },
    { kind: 'function', endOf: dries.apply, latestStart: dries.latest },
  );
  net.after(round, dry, 'coat-dries');
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
