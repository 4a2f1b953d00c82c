/** The glossary: the trade's words as this program uses them, then its own. docs/glossary.md holds the same. */

export interface GlossaryEntry {
  readonly word: string;
  readonly meaning: string;
}

/** Common practice of the trade. */
export const TRADE_WORDS: readonly GlossaryEntry[] = [
  {
    word: '0 line',
    meaning:
      'the line marked on the mould that ply angles are measured from; plus is anticlockwise, seen from the open side',
  },
  {
    word: 'bag',
    meaning:
      'the film sealed over a layup so that a vacuum presses it together; also the whole stack under it',
  },
  {
    word: 'bag-off',
    meaning:
      'taking bag, film and breather away once the laminate holds its shape; peel ply may stay on',
  },
  {
    word: 'bond window',
    meaning:
      'the time in which the next layer bonds to a surface without more than the usual preparation',
  },
  { word: 'closeout', meaning: 'the laminate that closes the open edge of a sandwich' },
  { word: 'core', meaning: 'the light layer between the skins' },
  { word: 'core bond', meaning: 'the layup in which the core is bonded to the outer skin' },
  {
    word: 'cure',
    meaning: 'hardening of the resin; also one bag of one or more layups that harden together',
  },
  {
    word: 'debulk',
    meaning: 'vacuum on dry or wet plies to press them together before more are added',
  },
  { word: 'demould', meaning: 'taking the part off its mould' },
  { word: 'dew point', meaning: "the temperature at which the room's air wets a surface" },
  {
    word: 'drop test',
    meaning: 'the bag closed off from its pump and its gauge read again after so many minutes',
  },
  { word: 'dry fit', meaning: 'the trimmed part held to its frame before its edge is closed' },
  { word: 'exotherm', meaning: 'the heat that resin makes as it cures' },
  { word: 'fair', meaning: 'to fill and sand a surface until it is even' },
  {
    word: 'float',
    meaning:
      "how much later a stage may begin without moving the date, in the stage's own working hours; the screen says spare time where that reads better",
  },
  { word: 'front', meaning: 'the edge of the resin as it runs through dry cloth in an infusion' },
  {
    word: 'gel',
    meaning:
      'the moment at which resin stops flowing; the program tells the earliest and the latest',
  },
  { word: 'green', meaning: 'cured so far that it can be handled and not yet strong' },
  { word: 'hold point', meaning: 'a step that must be signed before the next one begins' },
  { word: 'infusion', meaning: 'dry cloth under a bag, filled with resin by vacuum' },
  { word: 'inner skin', meaning: 'the laminate on the side of the core away from the mould' },
  {
    word: 'insert',
    meaning: 'a piece of solid laminate let into the core, where a bolt goes through',
  },
  { word: 'kerf', meaning: 'a saw cut in core that lets it bend; open kerfs drink resin' },
  { word: 'layup', meaning: 'one lamination that could be cured on its own' },
  { word: 'lead time', meaning: 'working days between ordering a thing and having it' },
  {
    word: 'local plies',
    meaning: 'plies over part of the area, where a load or a fitting needs them',
  },
  {
    word: 'mix',
    meaning: 'one batch of resin and hardener; the clock starts when they first touch',
  },
  { word: 'open time', meaning: 'how long a film of resin can be worked' },
  { word: 'outer skin', meaning: 'the laminate on the mould; its face is the one that is shown' },
  {
    word: 'peel ply',
    meaning: 'cloth on the surface that is pulled off later and leaves it ready to bond',
  },
  { word: 'ply', meaning: 'one layer of cloth' },
  { word: 'post-cure', meaning: 'heat after the cure, for a higher Tg' },
  { word: 'pot life', meaning: 'how long a mixed batch of a given mass can be worked in its cup' },
  { word: 'prime', meaning: 'to spray primer; high-build primer also fills' },
  {
    word: 'print-through',
    meaning: 'weave, core joints or drill holes that show in the finished surface',
  },
  { word: 'release', meaning: 'what keeps the part from bonding to the mould' },
  {
    word: 'rim, potted',
    meaning:
      'an edge filled solid, level on a released flat and behind a dam, in lifts that each cool',
  },
  { word: 'scuff', meaning: 'a light abrasion before bonding' },
  {
    word: 'section',
    meaning:
      'a share of a skin that is laid, bagged and cured on its own, over the staggered edge of the one before',
  },
  {
    word: 'smear',
    meaning: "a thin film of the batch on the mould's flange that tells how far the laminate is",
  },
  {
    word: 'spring-back',
    meaning: 'what a core bent over a curve does when its bag comes off too early',
  },
  { word: 'strip', meaning: 'to pull the peel ply off' },
  { word: 'tack', meaning: 'the state between gel and dry in which a next layer sticks and bonds' },
  { word: 'tap test', meaning: 'tapping a sandwich to hear where skin and core are not bonded' },
  { word: 'Tg', meaning: 'glass transition temperature: above it the cured resin softens' },
  {
    word: 'wet on tack',
    meaning: 'laying the next layer on one that has gelled and is still tacky',
  },
  { word: 'wet-out', meaning: 'filling the cloth with resin' },
  { word: 'witness', meaning: 'a sample that cures beside the part and is tested in its place' },
];

export const PROGRAM_WORDS: readonly GlossaryEntry[] = [
  {
    word: 'build',
    meaning: 'the document: part, room, crew, dates, chosen route, answers, what really happened',
  },
  {
    word: 'busy block',
    meaning:
      'hours of a person or outside party, or gear of the shop, that another job or an absence has',
  },
  { word: 'closing time', meaning: 'the last moment at which a route can still be done in time' },
  {
    word: 'conflict',
    meaning: 'a smallest set of conditions that cannot all hold; drop any one and the rest fit',
  },
  {
    word: 'dose',
    meaning:
      'equivalent hours at the reference temperature: the whole temperature history as one number',
  },
  {
    word: 'draft',
    meaning: 'a build that lacks something without which there is no plan; it has no history yet',
  },
  {
    word: 'early clock',
    meaning:
      'counts dose for what hurts when it comes early: open time, earliest gel, pot life, end of tack',
  },
  { word: 'effort', meaning: 'how many schedules a search may generate; never a time' },
  {
    word: 'finding',
    meaning:
      'one flagged fact with its severity (stop, warn, note), its numbers and the ways out of it',
  },
  {
    word: 'full answer',
    meaning:
      'every route, closing times, ways out and odds; it comes from the worker a moment after the first',
  },
  {
    word: 'first answer',
    meaning: 'the part and one plan of the taken route, made at once after an edit',
  },
  {
    word: 'joint',
    meaning: 'the boundary of two layups and its state: apart, wet on tack or one bag',
  },
  {
    word: 'late clock',
    meaning:
      'counts dose for what hurts when it comes late: latest gel, bag-off, demould, sanding, Tg',
  },
  {
    word: 'lever, way out',
    meaning:
      'a change that gains time or clears a finding, with what it costs; the screen says way out, the code lever',
  },
  {
    word: 'library',
    meaning: 'rows of material, labour and practice; a build holds frozen copies of those it uses',
  },
  {
    word: 'milestone',
    meaning: 'a threshold on the curve of cure: open, gel, tack-free, bag-off, demould, sand, full',
  },
  { word: 'mode', meaning: 'one way to do a stage: how many hands, on which calendar, how long' },
  { word: 'odds', meaning: 'the chance of meeting the date when durations vary' },
  {
    word: 'origin',
    meaning:
      'where a figure comes from: formula, inputs with units, source; the slip that opens from it',
  },
  { word: 'pin', meaning: 'a start that somebody fixed' },
  { word: 'practice', meaning: 'a row of the library that holds a number of common practice' },
  { word: 'record', meaning: 'what really happened on the floor, with its time' },
  {
    word: 'relation',
    meaning: 'a rule between the starts of two stages: at least or at most so much later',
  },
  { word: 'replay', meaning: 'one run of a finished plan with other lengths, for the odds' },
  { word: 'route', meaning: 'the division of the layups into cures' },
  {
    word: 'stage',
    meaning: 'a piece of the build with a start and an end: work, a cure, a wait, an outside job',
  },
  {
    word: 'start window',
    meaning:
      'the starts of a wet stretch that hold: bag down in time, watched, gel seen, bag-off manned',
  },
  { word: 'stretch', meaning: 'wet work done in one go, from its first mix to its sealed bag' },
  { word: 'zone', meaning: 'an area of the part with one laminate' },
];
