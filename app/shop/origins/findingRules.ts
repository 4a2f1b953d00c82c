/** By which rule each finding is made, the rows of practice behind it, and where the rule comes from. */
import type { FindingCode } from '../../messages/findings.ts';

export interface FindingRule {
  /** When the finding is made, as a comparison. */
  readonly rule: string;
  /** Ids of the rows of practice that it reads. */
  readonly practice?: readonly string[];
  readonly source: string;
}

const PRACTICE = 'Common practice, no source; the figures are rows of the library.';
const SHEET = 'Data sheet of the resin, over the curve that is fitted to it.';
const ROWS = 'Rows of the library that this build uses, each with its own source.';
const DOCUMENT = 'What is written in this build.';
const PLAN = 'The dates of this plan, held against the fixed dates of the build.';
const HOURS = 'The hours, days off and holidays of this build.';
const MIXTURES = 'Rule of mixtures by volume, as in ASTM D3171 method II (from memory).';
const PLATE =
  'Classical laminate theory: Jones, Mechanics of Composite Materials (1999), from memory; core shear ' +
  'after Allen, Analysis and Design of Structural Sandwich Panels (1969).';
const GLASS =
  'DiBenedetto’s equation (from memory) over the fitted curve; the margin is common practice.';

const FRACTION = ['fibre-fraction-hand-min', 'fibre-fraction-hand-max'];
const FRACTION_RULE =
  'Fibre fraction of the cloth < least, or > most, that hand work gives under a bag.';
const GEL = ['watch-minutes', 'look-every-minutes', 'gel-look-minutes'];
const TG = ['tg-margin-c', 'tg-over-cure-c', 'room-cure-days'];
const LATE = 'End of the work before it > the fixed date.';

export const FINDING_RULES: Readonly<Record<FindingCode, FindingRule>> = {
  'part-empty': { rule: 'No zone has both an area and a ply.', source: DOCUMENT },
  'zone-empty': { rule: 'A zone has no ply and no core.', source: DOCUMENT },
  'core-over-gap': {
    rule: 'Thickness of the stack, plies and core added up > the room that it has.',
    source: MIXTURES,
  },
  'skins-uneven': {
    rule: 'Outer and inner skin have other plies or other angles.',
    source: 'A laminate that is not symmetric bends as it shrinks: classical laminate theory.',
  },
  'weight-over': { rule: 'Weight of what the target counts > the target.', source: MIXTURES },
  'panel-soft': {
    rule: 'Deflection under a hand, or under a sanding block, > the limit.',
    practice: [
      'hand-load-n',
      'hand-side-mm',
      'block-pressure-kpa',
      'block-length-mm',
      'block-width-mm',
      'deflection-limit-mm',
    ],
    source: PLATE,
  },
  'structural-merge': {
    rule: 'The part carries load, and the route cures two of its layups together.',
    source: PRACTICE,
  },
  'structural-local-after': {
    rule: 'The part carries load, and local plies are laid after demould.',
    source: PRACTICE,
  },
  'structural-no-peel-ply': {
    rule: 'The part carries load, and a bond has no peel ply under it.',
    source: PRACTICE,
  },
  'structural-scuff': {
    rule: 'The part carries load: every bond after a peel ply is scuffed.',
    practice: ['structural-scuff-minutes-per-m2', 'strip-to-bond-hours'],
    source: PRACTICE,
  },
  'process-not-planned': {
    rule: 'The way of laying up has no stages of its own yet.',
    source: DOCUMENT,
  },
  'infusion-fill': {
    rule: 'Time to fill, by Darcy’s law with the cure of the resin, against its gel.',
    practice: [
      'infusion-wait-minutes',
      'cure-flow-energy-kj',
      'cure-viscosity-a',
      'cure-viscosity-b',
    ],
    source:
      'Darcy’s law for a fibre bed; thickening after Castro & Macosko 1980, from memory. Permeability is ' +
      'assumed until a strip on glass tells.',
  },
  'laminate-dry': {
    rule: 'Fibre fraction of the cloth leaves no room for resin.',
    source: MIXTURES,
  },
  'fibre-fraction-high': { rule: FRACTION_RULE, practice: FRACTION, source: MIXTURES },
  'fibre-fraction-low': { rule: FRACTION_RULE, practice: FRACTION, source: MIXTURES },
  'core-bend-tight': {
    rule: 'Radius of the zone < so many thicknesses of the core.',
    practice: ['bend-radius-thicknesses'],
    source: PRACTICE,
  },
  'core-thickness-odd': { rule: 'Thickness of the core is none that its row lists.', source: ROWS },
  'core-kerfs-open': {
    rule: 'Kerfs stay open on a curve: what they drink, over what the two bonded faces drink.',
    source: PRACTICE,
  },
  'styrene-dissolves': {
    rule: 'The resin has styrene, and core or mould does not stand it.',
    source: ROWS,
  },
  'styrene-vacuum': {
    rule: 'The resin has styrene, and full vacuum is more than it stands without boiling.',
    practice: ['styrene-vacuum-kpa'],
    source: PRACTICE,
  },
  'solvent-core': { rule: 'The row of the core says that solvent attacks it.', source: ROWS },
  'vacuum-crushes-core': { rule: 'Full vacuum > most that the core takes.', source: ROWS },
  'release-not-for-shape': { rule: 'The release is not for a shape of this part.', source: ROWS },
  'cold-room': {
    rule: 'Coldest that the room stands at < least that the hardener is for.',
    source: 'Data sheet row of the hardener.',
  },
  'blush-likely': {
    rule: 'Coldest surface < the limit, or humidity > the limit.',
    practice: ['blush-below-c', 'blush-above-rh-pct'],
    source: PRACTICE,
  },
  'dew-point-near': {
    rule: 'Coldest surface − dew point of the day’s air < the margin.',
    practice: ['dew-margin-c'],
    source: 'Dew point by the Magnus formula (from memory); the margin is common practice.',
  },
  'log-ends': {
    rule: 'Last reading of the log < demould of a cure that it began with.',
    source: DOCUMENT,
  },
  'cure-stalls': {
    rule: 'A milestone is not reached at the temperature that the cure goes through.',
    practice: ['cure-slows-over-c', 'cure-halves-over-c', 'cure-slow-width-c'],
    source: SHEET,
  },
  'gel-unattended': {
    rule: 'Earliest gel lies outside the hours of everybody, or too long after the last look.',
    practice: GEL,
    source: SHEET,
  },
  'bond-window-missed': {
    rule: 'From the first pull of the peel ply to the bond > the time that a bare surface keeps.',
    practice: ['strip-to-bond-hours', 'abraded-keeps-hours'],
    source: PRACTICE,
  },
  'strip-covered': {
    rule: 'Stripping takes longer than a bare surface keeps.',
    practice: ['strip-to-bond-hours'],
    source: PRACTICE,
  },
  'open-time-short': {
    rule: 'First mix to sealed bag > the time by which the bag must be down and drawn.',
    practice: ['full-vacuum-fraction', 'before-gel-minutes', 'mix-minutes-per-batch'],
    source: SHEET,
  },
  'bag-late': {
    rule: 'Bag sealed, as planned > bag due.',
    practice: ['full-vacuum-fraction', 'before-gel-minutes'],
    source: SHEET,
  },
  'mix-on-arrival': {
    rule: 'First mix < people arrive + the time that they want to dress, check and weigh.',
    practice: ['mix-after-arrival-minutes'],
    source: PRACTICE,
  },
  'tack-out-of-hours': {
    rule: 'No start of the first layup brings its tack into the hours of the shop.',
    practice: GEL,
    source: SHEET,
  },
  'heat-over-limit': {
    rule: 'Heat of bake, service, tent or cure > what core or mould takes.',
    source: ROWS,
  },
  'heat-not-counted': {
    rule: 'Heat is set, and there is no tent or no cure that it is for.',
    source: DOCUMENT,
  },
  'heat-ramp-fast': {
    rule: 'Steepest rise of the programme > the fastest that is usual.',
    practice: ['postcure-ramp-c-per-h'],
    source: PRACTICE,
  },
  'pot-runaway': {
    rule: 'Time to spread the batch > its share of the batch’s pot life.',
    practice: ['spread-share-of-pot-life', 'batch-min-g', 'batch-max-g', 'cure-cup-hottest-c'],
    source: 'Heat balance of one lump (Semenov); own arithmetic over the resin’s curve.',
  },
  'stack-too-hot': {
    rule: 'Hottest of a layer under the bag > what it takes.',
    practice: ['stack-heat-from-mm', 'cure-core-conductivity', 'cure-surface-loss-w-m2k'],
    source: 'Conduction in one dimension (Fourier), own arithmetic over the resin’s curve.',
  },
  'paint-over-tg': {
    rule: 'Tg of the weakest on the part < bake + margin.',
    practice: TG,
    source: GLASS,
  },
  'service-over-tg': {
    rule: 'Tg of the weakest on the part < service + margin.',
    practice: TG,
    source: GLASS,
  },
  'post-cure-planned': {
    rule: 'Tg without heat < Tg needed, and a post-cure within all limits brings it.',
    practice: [...TG, 'postcure-after-gel-hours', 'postcure-hold-hours', 'postcure-ramp-c-per-h'],
    source: GLASS,
  },
  'filler-softens': {
    rule: 'What filler or primer stands < hottest of bake and service.',
    source: ROWS,
  },
  'tg-unknown': {
    rule: 'Heat comes, and no row says what a resin, filler or coat stands.',
    practice: ['tg-over-cure-c'],
    source: ROWS,
  },
  'heat-alone': {
    rule: 'No start of the heat keeps it inside the hours in which somebody is there.',
    practice: ['heat-attended-hours'],
    source: 'The shop’s own rule for heat, under Mould & gear.',
  },
  'mould-growth': {
    rule: 'Expansion of the mould × its span × rise of temperature > what a stiff skin lets pass.',
    practice: ['growth-limit-mm'],
    source: 'Definition of thermal expansion; the limit is common practice.',
  },
  'merge-forced': {
    rule: 'The best route with separate cures ends after a fixed date, or has closed.',
    source: PLAN,
  },
  'route-closed': {
    rule: 'Now > last moment at which this route could still be done in time.',
    source: PLAN,
  },
  'route-closing': {
    rule: 'Last moment of this route − now < so many days.',
    practice: ['closing-soon-days'],
    source: PLAN,
  },
  'route-begun-otherwise': {
    rule: 'A stage is recorded that this route does not have.',
    source: DOCUMENT,
  },
  'finish-not-reachable': {
    rule: 'Best finish that the joints of the route leave < the finish that is wanted.',
    source: 'Table of consequences in the library; common practice, no source.',
  },
  'frame-gone': {
    rule: 'Dry fit on the frame > the day on which the frame is gone.',
    source: PLAN,
  },
  'date-missed': { rule: 'End of the plan, or now, > the unveiling.', source: PLAN },
  'slot-missed': { rule: LATE, source: PLAN },
  'pin-missed': {
    rule: 'Earliest start of the stage > the moment at which it is fixed.',
    source: PLAN,
  },
  'pin-left-out': { rule: 'A fixed start cannot hold beside an older one.', source: PLAN },
  'order-left-out': {
    rule: 'An order of the shop’s own cannot hold beside the work.',
    source: PLAN,
  },
  'facts-conflict': {
    rule: 'No plan keeps all of these, and every plan without one of them was found.',
    source: PLAN,
  },
  'stage-impossible': {
    rule: 'The stage has no moment at which all that it needs is there.',
    source: PLAN,
  },
  'no-spare-day': {
    rule: 'Working time from the end of the plan to the unveiling < a spare day.',
    practice: ['spare-days'],
    source: PRACTICE,
  },
  'searched-in-part': {
    rule: 'Work of one look at this build × the usual number of looks > what an answer may take.',
    source: 'Size of this build.',
  },
  'window-passed': {
    rule: 'A recorded time lies after the last moment that its rule allows.',
    source: DOCUMENT,
  },
  'printed-moved': {
    rule: 'A stage starts at another moment than on the printed plan.',
    source: DOCUMENT,
  },
  'crew-empty': { rule: 'Nobody is in the crew, or nobody has hours.', source: DOCUMENT },
  'works-alone': {
    rule: 'People that wet work takes > people in the crew, or the crew is one.',
    source: ROWS,
  },
  'lift-alone': {
    rule: 'People that the part takes to lift, by weight and area > people in the crew.',
    source: ROWS,
  },
  'wet-past-hours': {
    rule: 'First mix to the end of the watch > longest stretch of anybody’s hours.',
    practice: ['watch-minutes'],
    source: HOURS,
  },
  'hands-short': { rule: 'People on the work in this plan < people that it takes.', source: ROWS },
  'air-shared': {
    rule:
      'Release and spray want the room’s air to themselves, and the time in which it settles before and after. Where ' +
      'the shop allows it they go on beside other work, if no plan was found that keeps them apart.',
    source: PRACTICE,
  },
  'left-over-break': {
    rule: 'Mixed or sprayed work ends after the break that it was begun before.',
    source: HOURS,
  },
  'laid-alone': {
    rule: 'People on the wet work in this plan < people that it takes.',
    source: ROWS,
  },
  'carrier-unknown': {
    rule: 'Nobody is named who carries the part to an outside party.',
    source: DOCUMENT,
  },
  'party-closed': {
    rule: 'The party has no open hour in the time that is planned.',
    source: HOURS,
  },
  'repair-over-spare': {
    rule: 'Repair at its worst, shared by the hands on it > working time to the latest start of what follows.',
    source: ROWS,
  },
  'helper-called': {
    rule: 'A helper by the hour is agreed for a layup.',
    practice: ['helper-takes-share'],
    source: DOCUMENT,
  },
  'long-wet-work': {
    rule: 'First mix to sealed bag > the time after which hands tire.',
    practice: ['long-wet-work-hours'],
    source: PRACTICE,
  },
  'supplier-closed': {
    rule: 'The supplier has no open hour in the time that is planned.',
    source: HOURS,
  },
  'lead-time-unknown': { rule: 'A line is to order, and its row has no lead time.', source: ROWS },
  'question-open': { rule: 'The question has no answer yet.', source: DOCUMENT },
  'fill-in-one-go': {
    rule: 'Filler of the route > so much per square metre, and one heavy fill costs less than thin ones.',
    practice: ['much-filler-kg-m2'],
    source: ROWS,
  },
  'fill-lifts': {
    rule: 'Deepest hollow ÷ the lift that each filler stands, rounded up.',
    source: ROWS,
  },
  'overtime-used': {
    rule: 'Work outside the hours of somebody who may stay, because a date needs it.',
    practice: ['overtime-share'],
    source: HOURS,
  },
};
