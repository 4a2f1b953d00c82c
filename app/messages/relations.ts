/** Why one stage waits for another, has to follow it soon, or may begin only then: reasons of the network. */

/**
 * How a rule about when is laid:
 * - relation: the later stage waits; an at-least alone;
 * - window: an at-most as well, after which the later stage may not begin any more;
 * - start: intervals of starts of a mode.
 * All of them are hard. What a plan may break at a price, and what is fixed, stands in docs/rules.md.
 */
export const RULE_KINDS = ['relation', 'window', 'start'] as const;
export type RuleKind = (typeof RULE_KINDS)[number];

const REASONS = {
  'abraded-keeps': ['window', 'abraded surface: bond before it ages'],
  'abraded-dries': ['relation', 'the abraded surface dries'],
  'bag-down': ['start', 'the bag is down before it is due'],
  'bag-off': ['relation', 'the bag is off'],
  'bag-watched': ['window', 'the bag is watched from the moment it is sealed'],
  'bagged-dry': ['relation', 'cloth is laid dry and bagged'],
  'blank-arrived': ['relation', 'the blank has arrived'],
  'clean-surface': ['relation', 'bonded on a clean surface'],
  'cloth-arrived': ['relation', 'cloth has arrived'],
  'coat-dries': ['relation', 'the last coat dries'],
  'coat-keeps': ['window', 'release coats keep only so long'],
  'coat-settles': ['relation', 'release coats settle'],
  'cooled-under-support': ['relation', 'the part has cooled under support'],
  'core-arrived': ['relation', 'core has arrived'],
  'core-on-mould': ['relation', 'the core is fitted on the finished mould'],
  'core-fitted': ['relation', 'the core is fitted'],
  'cure-done': ['relation', 'bag-off waits for the cure'],
  'cure-from-sealed-bag': ['window', 'the cure runs from the sealed bag'],
  'core-vacuumed': ['window', 'the bare core is vacuumed on the day of its bond'],
  'covered-surface': ['window', 'what was stripped last is bonded while it is fresh'],
  'cut-and-rehearsed': ['relation', 'plies and bag are cut and the layup rehearsed'],
  'delivery-arrived': ['relation', 'what it takes has arrived'],
  'drop-tested': ['relation', 'the bag has passed its drop test'],
  'drop-test-keeps': ['window', 'infused before the drop test is out of date'],
  'edge-closed': ['relation', 'the edge is closed'],
  'edge-filler-dries': ['relation', 'filler on the edge dries'],
  'edge-filled': ['relation', 'the edge is filled and round'],
  'edges-closed': ['relation', 'edges are closed'],
  'fit-for-cutting': ['relation', 'hard enough to cut and sand'],
  'fit-for-sanding': ['relation', 'hard enough to sand'],
  'fresh-surface': ['window', 'peel ply stripped: bond that same day, while the surface is fresh'],
  'gel-in-hours': ['start', 'somebody is there for the watched hour and the gel'],
  'gel-seen': ['relation', 'the gel is looked at'],
  'gel-seen-in-time': ['window', 'the gel is looked at by somebody'],
  'hands-free': ['relation', 'hands are free again'],
  'heat-after-gel': ['relation', 'heat comes well after gel'],
  'heat-off': ['relation', 'the heat is off'],
  'mix-after-arrival': ['start', 'no first mix before people have settled in'],
  'mould-finished': ['relation', 'the mould is finished'],
  'mould-sealed': ['relation', 'the mould is sealed'],
  'mould-tested': ['relation', 'the mould is tested and the work rehearsed'],
  'mould-warm': ['window', 'the mould is warm'],
  'mould-there': ['relation', 'the mould is there'],
  'on-the-part': ['relation', 'everything is on the part'],
  'out-of-mould': ['relation', 'the part is out of the mould'],
  'inserts-cured': ['relation', 'the inserts have cured'],
  'inserts-let-in': ['relation', 'the inserts are let into the core'],
  'edge-taped-wet': ['window', 'tape goes on while the filler is wet or tacky'],
  'edge-rebated': ['relation', 'the core is cut back at the edge'],
  'rim-cooled': ['relation', 'the lift before has cooled'],
  'rim-hard': ['relation', 'the rim is hard'],
  'own-order': ['window', 'the shop’s own order'],
  'paint-hard': ['relation', 'paint is hard'],
  'part-ready': ['relation', 'the part is ready for them'],
  'panel-tested': ['relation', 'the test panel has come off its release and takes primer'],
  'released-first': ['relation', 'the mould is released before it is warmed'],
  rehearsed: ['relation', 'rehearsed with cut plies, fitted core and a tested mould'],
  'resin-arrived': ['relation', 'resin has arrived'],
  'resin-warm': ['relation', 'the resin is warm'],
  'round-dried': ['relation', 'the round before has dried'],
  'sealer-cures': ['relation', 'sealer cures harder than the part'],
  'strong-enough': ['relation', 'strong enough to leave the mould'],
  'tack-begins': ['relation', 'laid on tack: not before the gel'],
  'tack-in-hours': ['start', 'the next layup can follow on tack, in the shop’s hours'],
  'tack-ends': ['window', 'laid on tack: before it is tack-free'],
  'taken-in-that-day': ['window', 'work is taken in on that weekday'],
  'tent-in-time': ['window', 'the tent goes up no sooner than the working day before'],
  'marks-repaired': ['relation', 'what demould marked is repaired'],
  'marks-ground': ['relation', 'the marks are ground and scarfed'],
  'plies-cut': ['relation', 'the plies are cut'],
  'wrapped-first': ['relation', 'the part is wrapped and on its cradle'],
  'paint-handled': ['relation', 'the paint may be handled'],
  'paint-takes-tape': ['relation', 'the paint takes tape and fittings'],
  'paint-wrapped': ['relation', 'the paint may be wrapped'],
  'tent-stands': ['relation', 'tent, heater and probes stand'],
  trimmed: ['relation', 'the part is trimmed'],
  'trimmed-and-checked': ['relation', 'the part is trimmed and checked'],
} as const satisfies Readonly<Record<string, readonly [RuleKind, string]>>;

type RuleCode = keyof typeof REASONS;
type CodeOf<K extends RuleKind> = {
  [C in RuleCode]: (typeof REASONS)[C][0] extends K ? C : never;
}[RuleCode];

/** Reasons that an at-most may have, and those of a start window: others do not compile there. */
export type WindowReason = CodeOf<'window'>;
export type StartReason = CodeOf<'start'>;

/**
 * The reason of a relation: a code, with what it is about where the code alone does not say it. The
 * network gives it; engine, checker and messages hand it on until `relationWords` words it.
 */
export type RelationReason =
  CodeOf<'relation' | 'window'> | { readonly code: 'answer-awaited'; readonly question: string };

/** The reason of a relation or of a start window. */
export type RuleReason = RelationReason | StartReason;

/** The reason in the words of the shop, without a capital: 'the bag is off'. */
export const relationWords = (reason: RuleReason): string =>
  typeof reason === 'string' ? REASONS[reason][1] : `waits for the answer to '${reason.question}'`;

/** Every rule that is laid as a relation, a window or a start, with its kind. */
export const RULES: readonly (readonly [code: string, kind: RuleKind])[] = [
  ...Object.entries(REASONS).map(([code, [kind]]) => [code, kind] as const),
  ['answer-awaited', 'relation'],
];
