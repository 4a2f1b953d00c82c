import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import type { PlanOutcome } from '../../../app/plan/outcome.ts';
import { planFor, ROOMY } from './builds.ts';

const week = (span: [string, string]) =>
  Object.fromEntries(['mon', 'tue', 'wed', 'thu', 'fri'].map((day) => [day, [span]]));
/** A morning's mix gels in the afternoon, an afternoon's in the evening. */
const SHOP: Build = {
  ...ROOMY,
  crew: ['Ida Moss', 'Per Lunde'].map((name) => ({ name, hours: week(['07:00', '19:00']) })),
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
};
const mixedAt = (start: string, document = SHOP): Build => ({
  ...document,
  pins: [{ stage: 'layup:skin', start }],
});
const told = (outcome: PlanOutcome): string | undefined =>
  outcome.result.findings.find(
    ({ code, stage }) => code === 'gel-unattended' && stage === 'layup:skin',
  )?.message;

describe('a gel with nobody there', () => {
  const message = told(planFor(mixedAt('2027-05-05T16:00')))!;

  it('says when not to mix, when it would gel, and the nearest start whose bag comes off no later', () => {
    expect(message).toMatch(
      /^Outer skin: do not mix Wednesday 5 May, 16:00: gel falls Wednesday 5 May, (19|20|21):\d\d \(by Wednesday 5 May, \d\d:\d\d at the latest\) with nobody there\. Mix it Wednesday 5 May, \d\d:\d\d instead: somebody sees the gel, and its bag comes off no later\.$/,
    );
  });

  it('is seen from that start, whose bag comes off no later than that of a later mix', () => {
    const [, time] = /May, (\d\d:\d\d) instead/.exec(message)!;
    const better = planFor(mixedAt(`2027-05-05T${time}`));
    expect(told(better)).toBeUndefined();
    const { gel, firstMix, debagFrom } = better.result.cures[0]!;
    expect(firstMix!.slice(0, 16)).toBe(`2027-05-05T${time}`);
    expect(gel!.slice(0, 10)).toBe('2027-05-05');
    expect(gel!.slice(11, 16) < '19:00').toBe(true);
    const always = SHOP.crew.map((person) => ({
      ...person,
      hours: Object.fromEntries(
        ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((day) => [day, [['00:00', '24:00']]]),
      ) as never,
    }));
    const late = planFor(mixedAt('2027-05-05T16:00', { ...SHOP, crew: always }));
    expect(late.result.cures[0]!.firstMix!.slice(0, 16)).toBe('2027-05-05T16:00');
    expect(debagFrom! <= late.result.cures[0]!.debagFrom!).toBe(true);
  });

  it('says how much later the bag comes off where every seen start costs something', () => {
    // At 07:00 of the first day nothing lies before it; the long gel is seen from the next morning.
    const slow: Build = {
      ...SHOP,
      crew: SHOP.crew.map((person) => ({ ...person, hours: week(['07:00', '16:30']) })),
      earliestStart: '2027-05-05T14:00',
    };
    expect(told(planFor(mixedAt('2027-05-05T14:00', slow)))).toMatch(
      /\d May, \d\d:\d\d instead: somebody sees the gel, and its bag comes off [\d.]+ (h|days?.*) later\.$/,
    );
  });

  it('asks for a watch where no start in the hours would be seen, and where it has happened', () => {
    const short: Build = {
      ...SHOP,
      crew: SHOP.crew.map((person) => ({ ...person, hours: week(['08:00', '12:30']) })),
      resin: { system: 'orrin-40', hardener: 'slow' },
    };
    expect(told(planFor(short))).toMatch(
      /: mixed .* with nobody there\. .*Do not mix before it is agreed who is there from the earliest gel to the latest, with an alarm set/,
    );
    const begun = { stage: 'layup:skin', start: '2027-04-16T16:30', end: '2027-04-16T18:00' };
    expect(told(planFor({ ...SHOP, records: [begun] }))).toMatch(
      /^Outer skin: mixed Friday 16 April, 16:30, gel falls .* or set an alarm\.$/,
    );
  });
});
