/**
 * Cautions by stage and hazard, for screen and paper alike.
 *
 * Sources of the facts behind them: skin sensitisation by uncured epoxy: EU-OSHA OSHwiki
 * "Occupational exposure to epoxy resins" and HSE RR079; amine hardeners corrosive, pots that melt
 * cups and fume: resin makers' published safety pages; leftover mix in small lots, watched, in metal
 * cans: IMCA safety flash; hardener and sawdust self-heating: a resin maker's safety page; peroxide:
 * NIOSH PEL project 1338-23 (severe eye damage), never mixed with promoter: from memory; styrene
 * vapour burns (lower limit 0.9 %, flash point 31 C): OSHA occupational chemical database;
 * diisocyanates: Regulation (EU) 2020/1149, training before use above 0.1 %; carbon dust conducts:
 * from memory. The rest is common practice, no source.
 */
import type { Hazard, StageKind } from '../document/schema.ts';

/** Stands wherever cautions stand. */
export const DEFERRAL =
  'Data sheets, local rules and licensed or trained people come before this sheet.';

const BY_HAZARD: Readonly<Record<Hazard, string>> = {
  'skin-sensitiser':
    'Uncured resin and hardener can make you allergic for life: nitrile gloves, sleeves, eye ' +
    'protection; change gloves when wet; soap and water on skin, never solvent.',
  corrosive: 'Hardener burns skin and eyes: goggles on to pour, eye wash within reach.',
  peroxide:
    'Peroxide catalyst blinds: goggles on. Never let it touch promoter directly; keep it cool, ' +
    'away from anything that burns.',
  styrene:
    'Styrene vapour burns and harms: extraction on, organic-vapour mask as the data sheet says, ' +
    'no flame, no sparks.',
  solvent: 'Solvent vapour burns: air the room, no flame or heater, rags into a closed metal bin.',
  dust:
    'Dust: extraction at the tool, fitted particle mask, eye protection. Carbon dust conducts: ' +
    'keep it out of sockets and motors. Never sand what is still soft.',
  exotherm:
    'A full cup can melt, smoke and burn: spread it at once. A hot cup goes outside on concrete, ' +
    'no lid, nothing on top. No sawdust on spills.',
  lifting: 'Lift with enough people or a hoist; clear the way and agree the count first.',
  isocyanate:
    'Isocyanate paint harms the lungs at once: trained people only, air-fed mask, nobody else in ' +
    'the spray area.',
};

interface StageHazards {
  /** Hazards of the materials that are met at the stage. */
  readonly ofMaterials: readonly Hazard[];
  /** Hazards that come with the work itself, whatever the materials say. */
  readonly always: readonly Hazard[];
  /** Cautions that belong to the stage alone. */
  readonly own: readonly string[];
  /** In place of `own` where one person is on it. */
  readonly ownAlone?: readonly string[];
  /** Cautions that come with a tent or oven over it. */
  readonly ofHeat?: readonly string[];
}

/** What the plan knows of a stage beside its kind. */
export interface StageCircumstances {
  /** Tent or oven is planned over it. */
  readonly heated?: boolean;
  /** One person is on it. */
  readonly alone?: boolean;
}
const NO_HAZARDS: StageHazards = { ofMaterials: [], always: [], own: [] };

/** What is dangerous at each kind of stage; a kind where nothing is says so. */
const STAGE_HAZARDS: Readonly<Record<StageKind, StageHazards>> = {
  'sign-off': NO_HAZARDS,
  order: NO_HAZARDS,
  arrival: {
    ...NO_HAZARDS,
    own: ['Two people, or a trolley, for boards, drums and rolls; drums upright, lids shut.'],
  },
  machining: {
    ...NO_HAZARDS,
    ofMaterials: ['dust'],
    always: ['dust'],
    own: ['Blank clamped and guarded; nobody reaches in while the spindle turns; extraction on.'],
  },
  mould: {
    ...NO_HAZARDS,
    ofMaterials: ['skin-sensitiser', 'dust'],
    always: ['dust'],
  },
  seal: {
    ...NO_HAZARDS,
    ofMaterials: ['skin-sensitiser', 'styrene', 'solvent'],
  },
  'bag-test': NO_HAZARDS,
  'test-panel': {
    ...NO_HAZARDS,
    ofMaterials: ['skin-sensitiser', 'corrosive', 'peroxide', 'styrene', 'solvent'],
    always: ['skin-sensitiser'],
  },
  release: {
    ...NO_HAZARDS,
    ofMaterials: ['solvent'],
    always: ['solvent'],
  },
  'resin-warm': {
    ...NO_HAZARDS,
    ofMaterials: ['skin-sensitiser'],
    own: ['Warm closed drums gently; no naked flame.'],
  },
  'mould-heat': {
    ...NO_HAZARDS,
    own: [
      'Heater clear of film, foam and solvent; cut-out tried, extinguisher within reach.',
      'Somebody switches it on and stays as long as the plan says; it is off before anybody wipes with solvent.',
    ],
  },
  cutting: {
    ...NO_HAZARDS,
    own: ['Fresh blades, cut away from the hand; blades into the sharps tin.'],
  },
  'core-fit': {
    ...NO_HAZARDS,
    ofMaterials: ['dust'],
    always: ['dust'],
  },
  inserts: {
    ...NO_HAZARDS,
    ofMaterials: ['skin-sensitiser', 'corrosive', 'peroxide', 'styrene', 'exotherm'],
    always: ['skin-sensitiser', 'exotherm'],
    own: ['Cut edges of cured laminate are knives: cut-proof gloves, extraction at the saw.'],
  },
  rehearsal: NO_HAZARDS,
  prepare: {
    ...NO_HAZARDS,
    ofMaterials: ['dust', 'solvent', 'skin-sensitiser'],
    always: ['dust'],
  },
  layup: {
    ...NO_HAZARDS,
    ofMaterials: ['skin-sensitiser', 'corrosive', 'peroxide', 'styrene', 'exotherm'],
    always: ['skin-sensitiser', 'exotherm'],
    own: ['Never wet out alone. Over 4 h of wet work people tire: change places.'],
    ownAlone: [
      'One person is planned here, and nobody should wet out alone: a second one within call, who looks ' +
        'in every half hour and can call for help. Over 4 h of wet work people tire: rest before.',
    ],
  },
  'watched-vacuum': {
    ...NO_HAZARDS,
    ofMaterials: ['exotherm'],
    own: ['Feel the cups and the bag: one that gets hot is smoke within minutes.'],
  },
  cure: {
    ...NO_HAZARDS,
    ofHeat: [
      'Heaters and tent stay watched or behind a thermostat with a cut-out; nothing loose near.',
    ],
  },
  'bag-off': {
    ...NO_HAZARDS,
    ofMaterials: ['skin-sensitiser'],
    own: ['Pointed edges and splinters: cut-proof gloves, eye protection.'],
  },
  'tap-test': {
    ...NO_HAZARDS,
    ofMaterials: ['dust', 'skin-sensitiser'],
    own: ['Drilled holes are filled with mixed resin: gloves; dust is taken off where it is made.'],
  },
  'heat-setup': {
    ...NO_HAZARDS,
    own: [
      'Heater clear of film, foam and solvent; cut-out tried, extinguisher within reach.',
      'Somebody switches it on and stays as long as the plan says; it is off before anybody wipes with solvent.',
    ],
  },
  'post-cure': {
    ...NO_HAZARDS,
    own: ['Hot part and mould: gloves, and cool under support before anyone lifts.'],
  },
  'heat-takedown': {
    ...NO_HAZARDS,
    own: ['Heater off and unplugged first; the part below 40 °C before anyone lifts.'],
  },
  demould: {
    ...NO_HAZARDS,
    own: [
      'Lift with enough people or a hoist; wedges by hand, no steel. The part may let go suddenly.',
    ],
  },
  repair: {
    ...NO_HAZARDS,
    ofMaterials: ['dust', 'skin-sensitiser', 'corrosive', 'peroxide', 'styrene', 'exotherm'],
    always: ['dust'],
    own: [
      'Pointed edges and splinters: cut-proof gloves. Thick filler in one spot heats up: thin lifts.',
    ],
  },
  trim: {
    ...NO_HAZARDS,
    ofMaterials: ['dust'],
    always: ['dust'],
    own: ['Cut edges are knives: cut-proof gloves.'],
  },
  'dry-fit': {
    ...NO_HAZARDS,
    always: ['lifting'],
    own: ['Nobody under the part until it is clamped or tied to the frame.'],
  },
  closeout: {
    ...NO_HAZARDS,
    ofMaterials: ['skin-sensitiser', 'corrosive', 'peroxide', 'styrene', 'exotherm'],
    always: ['skin-sensitiser', 'exotherm'],
  },
  'edge-fill': {
    ...NO_HAZARDS,
    ofMaterials: ['skin-sensitiser', 'corrosive', 'peroxide', 'styrene', 'exotherm'],
    always: ['skin-sensitiser', 'exotherm'],
    own: [],
  },
  rim: {
    ...NO_HAZARDS,
    ofMaterials: ['skin-sensitiser', 'corrosive', 'peroxide', 'styrene', 'exotherm'],
    always: ['skin-sensitiser', 'exotherm'],
    own: [
      'Potting in thick lifts heats up: no lift over its depth, the next one only below 40 °C; watch it till it has cooled.',
    ],
  },
  'fit-check': NO_HAZARDS,
  fair: {
    ...NO_HAZARDS,
    ofMaterials: ['dust', 'skin-sensitiser', 'styrene', 'peroxide'],
    always: ['dust'],
  },
  prime: {
    ...NO_HAZARDS,
    ofMaterials: ['solvent', 'isocyanate', 'dust'],
  },
  wait: NO_HAZARDS,
  wrap: {
    ...NO_HAZARDS,
    always: ['lifting'],
    own: ['Soft side in, straps on the cradle, not on the part.'],
  },
  drive: {
    ...NO_HAZARDS,
    always: ['lifting'],
    own: [
      'Tied down on its cradle and tried by hand before the wheels turn; tools and drums apart from it.',
    ],
  },
  outside: {
    ...NO_HAZARDS,
    own: ['Wrapped, cradled and lifted by enough people; straps on the cradle, not on the part.'],
  },
  hardware: {
    ...NO_HAZARDS,
    ofMaterials: ['dust', 'skin-sensitiser'],
  },
  'hand-over': {
    ...NO_HAZARDS,
    own: ['Wrapped, cradled and lifted by enough people; straps on the cradle, not the part.'],
  },
  own: NO_HAZARDS,
};

/**
 * The cautions of a stage, most general first, none twice.
 * @param hazards hazards of the materials in use (resin, hardener, release, finishing rows).
 */
export function cautionsFor(
  kind: StageKind,
  hazards: readonly Hazard[],
  { heated = false, alone = false }: StageCircumstances = {},
): string[] {
  const { ofMaterials, always, own, ownAlone, ofHeat } = STAGE_HAZARDS[kind];
  const met = new Set<Hazard>(always);
  for (const hazard of ofMaterials) if (hazards.includes(hazard)) met.add(hazard);
  const ordered = (Object.keys(BY_HAZARD) as Hazard[]).filter((hazard) => met.has(hazard));
  return [
    ...ordered.map((hazard) => BY_HAZARD[hazard]),
    ...(alone ? (ownAlone ?? own) : own),
    ...(heated ? (ofHeat ?? []) : []),
  ];
}
