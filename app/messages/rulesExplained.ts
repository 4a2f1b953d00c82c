/** The rules about when that the plan obeys, each with its reason and where that comes from. */

export interface ExplainedRule {
  readonly rule: string;
  readonly why: string;
  /** 'common practice' has no published source; figures stand in the library and can be changed. */
  readonly source: string;
}

const PRACTICE = 'common practice, no source; the figures are rows of the library';
const SHEET =
  'data sheet of the resin; where it has one row only, a published range is reckoned with';

export const RULES_EXPLAINED: readonly ExplainedRule[] = [
  {
    rule: 'The bag is down and drawn, as far as resin and core allow, well before the first resin is due to gel.',
    why: 'Resin that thickens no longer lets air and surplus out: pinholes, dry spots and weight stay.',
    source: SHEET,
  },
  {
    rule: 'A batch is no larger than can be spread within its share of pot life.',
    why: 'In a cup the heat of the reaction stays in; what is left too long heats itself and can smoke.',
    source: SHEET,
  },
  {
    rule: 'The bag is watched after it is sealed, and somebody looks at the gel.',
    why: 'A leak found before the gel can be closed; after it, it stays in the part.',
    source: PRACTICE,
  },
  {
    rule: 'Nobody mixes for an infusion before its bag has passed a drop test at full vacuum, a short while ago.',
    why: 'A leak draws air into the front: dry spots that no pump takes out again.',
    source: PRACTICE,
  },
  {
    rule: 'An infusion is full before its resin gels or is too thick to run.',
    why: 'The front stops where it is, and what is dry beyond it stays dry.',
    source:
      'Darcy’s law with the cure of the resin; permeability is assumed until a strip on glass tells',
  },
  {
    rule: 'The bag comes off when the laminate is strong enough, in working hours.',
    why: 'Too early, the core springs back and the laminate creeps; an empty shop takes no bag off.',
    source: PRACTICE,
  },
  {
    rule: 'Peel ply is stripped on the day of the bond, and the bond follows within hours.',
    why: 'A stripped surface takes up dust and damp. Left longer it is abraded, washed and wiped again.',
    source: PRACTICE,
  },
  {
    rule: 'What is laid wet on tack is laid after the gel and before the surface is tack-free.',
    why: 'Before the gel the layer below moves; after it the layers bond by glue alone.',
    source: SHEET,
  },
  {
    rule: 'Resin, mould and cloth are warm before the first mix.',
    why: 'Cold resin does not wet out and cures late; below the hardener’s minimum it may not cure at all.',
    source: SHEET,
  },
  {
    rule: 'Release and sealer settle before the first ply, and keep only so long.',
    why: 'A coat that has not settled mixes with the resin; an old one holds the part.',
    source: PRACTICE,
  },
  {
    rule: 'Dust and open resin never share the air; release and spray only where the shop allows it, and then with a warning.',
    why: 'Dust and release in wet resin or paint cannot be taken out again.',
    source: PRACTICE,
  },
  {
    rule: 'Wet work, the watch and the look at the gel have no break in them.',
    why: 'Resin does not wait for lunch; breaks are planned before the first mix and after the bag.',
    source: PRACTICE,
  },
  {
    rule: 'Heat starts well after the gel and rises slowly, with somebody there until it holds.',
    why: 'Above its Tg of the moment the part sags, and thick resin can heat itself.',
    source: SHEET,
  },
  {
    rule: 'The post-cure comes after the last resin on the part and before fairing.',
    why: 'What is added later keeps a low Tg, and filler that was not heated moves in the oven.',
    source: PRACTICE,
  },
  {
    rule: 'Each round of filler and each coat dries before it is sanded.',
    why: 'A soft coat clogs the paper and shrinks later, so that scratches and edges show.',
    source: PRACTICE,
  },
  {
    rule: 'Nothing is ordered later than its working days before it is needed.',
    why: 'A supplier delivers on working days and in its hours; holidays do not count.',
    source: 'the lead times of the library, which can be changed',
  },
  {
    rule: 'A booked slot is a date like the unveiling.',
    why: 'A painter who is missed by an hour may be free again weeks later.',
    source: PRACTICE,
  },
  {
    rule: 'Nothing that a question can spoil is released before its answer.',
    why: 'A mould that is machined to an unsigned size is made twice.',
    source: PRACTICE,
  },
];
