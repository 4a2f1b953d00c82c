/** Why one stage waits for another, or has to follow it soon: the reasons of the network's relations. */

const REASONS = {
  'abraded-keeps': 'abraded surface: bond before it ages',
  'abraded-dries': 'the abraded surface dries',
  'bag-off': 'the bag is off',
  'bag-watched': 'the bag is watched from the moment it is sealed',
  'blank-arrived': 'the blank has arrived',
  'clean-surface': 'bonded on a clean surface',
  'cloth-arrived': 'cloth has arrived',
  'coat-dries': 'the last coat dries',
  'coat-keeps': 'release coats keep only so long',
  'coat-settles': 'release coats settle',
  'cooled-under-support': 'the part has cooled under support',
  'core-arrived': 'core has arrived',
  'core-on-mould': 'the core is fitted on the finished mould',
  'core-fitted': 'the core is fitted',
  'cure-done': 'bag-off waits for the cure',
  'cure-from-sealed-bag': 'the cure runs from the sealed bag',
  'core-vacuumed': 'the bare core is vacuumed on the day of its bond',
  'covered-surface': 'what was stripped last is bonded while it is fresh',
  'cut-and-rehearsed': 'plies and bag are cut and the layup rehearsed',
  'delivery-arrived': 'what it takes has arrived',
  'edge-closed': 'the edge is closed',
  'edge-filler-dries': 'filler on the edge dries',
  'edge-filled': 'the edge is filled and round',
  'edges-closed': 'edges are closed',
  'fit-for-cutting': 'hard enough to cut and sand',
  'fit-for-sanding': 'hard enough to sand',
  'fresh-surface': 'peel ply stripped: bond that same day, while the surface is fresh',
  'gel-seen': 'the gel is looked at',
  'gel-seen-in-time': 'the gel is looked at by somebody',
  'hands-free': 'hands are free again',
  'heat-after-gel': 'heat comes well after gel',
  'heat-off': 'the heat is off',
  'mould-finished': 'the mould is finished',
  'mould-sealed': 'the mould is sealed',
  'mould-tested': 'the mould is tested and the work rehearsed',
  'mould-warm': 'the mould is warm',
  'mould-there': 'the mould is there',
  'on-the-part': 'everything is on the part',
  'out-of-mould': 'the part is out of the mould',
  'marks-repaired': 'what demould marked is repaired',
  'repair-cured': 'the repair has cured',
  'own-order': 'the shop’s own order',
  'paint-hard': 'paint is hard',
  'wrapped-first': 'the part is wrapped and on its cradle',
  'paint-handled': 'the paint may be handled',
  'paint-takes-tape': 'the paint takes tape and fittings',
  'paint-wrapped': 'the paint may be wrapped',
  'part-ready': 'the part is ready for them',
  'panel-tested': 'the test panel has come off its release and takes primer',
  'released-first': 'the mould is released before it is warmed',
  rehearsed: 'rehearsed with cut plies, fitted core and a tested mould',
  'resin-arrived': 'resin has arrived',
  'resin-warm': 'the resin is warm',
  'round-dried': 'the round before has dried',
  'sealer-cures': 'sealer cures harder than the part',
  'strong-enough': 'strong enough to leave the mould',
  'tack-begins': 'laid on tack: not before the gel',
  'tack-ends': 'laid on tack: before it is tack-free',
  'taken-in-that-day': 'work is taken in on that weekday',
  'tent-in-time': 'the tent goes up no sooner than the working day before',
  'tent-stands': 'tent, heater and probes stand',
  trimmed: 'the part is trimmed',
  'trimmed-and-checked': 'the part is trimmed and checked',
} as const;

/**
 * The reason of a relation: a code, with what it is about where the code alone does not say it. The
 * network gives it; engine, checker and messages hand it on until `relationWords` words it.
 */
export type RelationReason =
  keyof typeof REASONS | { readonly code: 'answer-awaited'; readonly question: string };

/** The reason in the words of the shop, without a capital: 'the bag is off'. */
export const relationWords = (reason: RelationReason): string =>
  typeof reason === 'string' ? REASONS[reason] : `waits for the answer to '${reason.question}'`;
