/** Cautions by stage and hazard, for screen and paper alike. Their sources stand in `hazardWords.ts`. */
import type { Hazard, StageKind } from '../document/schema.ts';
import { CARBON_DUST, HAZARD_CAUTIONS } from './hazardWords.ts';

/** Shown or printed with every list of cautions. */
export const DEFERRAL =
  'Data sheets, local rules and licensed or trained people come before this sheet.';

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
  /** No carbon is laid; left out: it may be. */
  readonly carbonFree?: boolean;
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
  'lay-dry': {
    ...NO_HAZARDS,
    ofMaterials: ['dust', 'solvent'],
    own: [
      'Loose fibre itches and cuts: sleeves and gloves; tack spray only with the extraction on.',
    ],
  },
  'drop-test': {
    ...NO_HAZARDS,
    own: ['Ear protection beside the pump; a rigid catch pot, never a glass jar, under vacuum.'],
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
    own: ['Drilled holes are filled with mixed resin: gloves; dust is extracted where it is made.'],
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
  { heated = false, alone = false, carbonFree = false }: StageCircumstances = {},
): string[] {
  const { ofMaterials, always, own, ownAlone, ofHeat } = STAGE_HAZARDS[kind];
  const met = new Set<Hazard>(always);
  for (const hazard of ofMaterials) if (hazards.includes(hazard)) met.add(hazard);
  const ordered = (Object.keys(HAZARD_CAUTIONS) as Hazard[]).filter((hazard) => met.has(hazard));
  return [
    ...ordered.map((hazard) => HAZARD_CAUTIONS[hazard]),
    ...(met.has('dust') && !carbonFree ? [CARBON_DUST] : []),
    ...(alone ? (ownAlone ?? own) : own),
    ...(heated ? (ofHeat ?? []) : []),
  ];
}
