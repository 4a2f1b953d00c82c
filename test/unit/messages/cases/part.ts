/** Findings read from the part and its materials. */
import { LIBRARY, ROOMY, withPart, withRow, withZone } from '../../judge/builds.ts';
import { DAY, room, type FindingCase } from './case.ts';

const MARL = { ...ROOMY, resin: { system: 'marl-7', hardener: 'medium' } };
const CARBON = withZone(ROOMY, {
  outer: [{ cloth: 'carbon-twill-200' }],
  inner: [{ cloth: 'carbon-twill-200' }],
});
const foam = (material: string, thicknessMm = 20) => ({ core: { material, thicknessMm } });
const fraction = (fibreFraction: number) =>
  withRow(LIBRARY, 'cloths', 'glass-twill-300', { fibreFraction });
const WIDE = {
  name: 'Wide panel',
  areaM2: 0.6,
  sizeM: [1, 0.6] as [number, number],
  shape: 'flat' as const,
};
/** Loads the part, on its own cures. */
const CARRIES = withPart(withZone({ ...ROOMY, route: { joints: {} } }, { areaM2: 0.6 }), {
  structural: true,
});

export const PART_CASES: readonly FindingCase[] = [
  {
    code: 'part-empty',
    has: withPart(ROOMY, { zones: [] }),
    hasNot: ROOMY,
    severity: 'stop',
    message: 'Give at least one zone an area and a ply.',
    numbers: {},
  },
  {
    code: 'zone-empty',
    has: withPart(ROOMY, {
      zones: [...ROOMY.part.zones, { areaM2: 1, name: 'Lip', outer: [], inner: [] }],
    }),
    hasNot: ROOMY,
    severity: 'stop',
    message: 'Lip has neither plies nor core.',
    numbers: {},
  },
  {
    code: 'laminate-dry',
    has: ROOMY,
    hasNot: CARBON,
    library: fraction(1),
    severity: 'stop',
    message:
      'Glass 2/2 twill 300 g/m2 in Zone 1 at 100 % fibre by volume holds no resin. Hand work under a bag gives 30 % to 50 %.',
    numbers: { cloth: 'glass-twill-300', fibreFraction: 1, low: 0.3, high: 0.5 },
  },
  {
    code: 'fibre-fraction-high',
    has: ROOMY,
    hasNot: CARBON,
    library: fraction(0.6),
    severity: 'warn',
    message:
      'Glass 2/2 twill 300 g/m2 in Zone 1 at 60 % fibre by volume is more than hand work reaches. Hand work under a bag gives 30 % to 50 %.',
    numbers: { cloth: 'glass-twill-300', fibreFraction: 0.6, low: 0.3, high: 0.5 },
  },
  {
    code: 'fibre-fraction-low',
    has: ROOMY,
    hasNot: CARBON,
    library: fraction(0.2),
    severity: 'warn',
    message:
      'Glass 2/2 twill 300 g/m2 in Zone 1 at 20 % fibre by volume is more resin than cloth needs. Hand work under a bag gives 30 % to 50 %.',
    numbers: { cloth: 'glass-twill-300', fibreFraction: 0.2, low: 0.3, high: 0.5 },
  },
  {
    code: 'process-not-planned',
    has: withPart(ROOMY, { process: 'hand' }),
    hasNot: withPart(ROOMY, { process: 'bagged' }),
    severity: 'stop',
    message:
      'Laid by hand with no bag is not planned. Fibre, thickness, weight, resin and kit count as by hand; stages, mixes, clocks and dates are those of a wet layup under a bag, so that no card of wet work is printed.',
    numbers: { process: 'hand' },
  },
  {
    code: 'infusion-fill',
    has: withPart(ROOMY, { process: 'infused' }),
    hasNot: withPart(ROOMY, { process: 'hand' }),
    severity: 'note',
    message:
      'Outer skin: an infusion over 1 m from feed to vacuum line at 21 °C is full 1 h after first contact; gel comes 4.2 h after first contact. How well mesh and laminate let resin through is assumed: a strip infused on glass tells.',
    numbers: { lengthM: 1, temperatureC: 21, fillMinutes: 60, gelMinutes: 249 },
  },
  {
    code: 'infusion-fill',
    has: withPart(ROOMY, { process: 'infused' }),
    hasNot: withPart(ROOMY, { process: 'hand' }),
    library: withRow(LIBRARY, 'practice', 'infusion-length-m', { value: 3 }),
    severity: 'stop',
    message:
      'Outer skin: an infusion over 3 m from feed to vacuum line at 21 °C does not fill: gel comes 4.2 h after first contact. Lay feed lines nearer to each other, or take a slower hardener.',
    numbers: { lengthM: 3, temperatureC: 21, gelMinutes: 249 },
  },
  {
    code: 'core-over-gap',
    has: withZone(ROOMY, { gapMm: 5 }),
    hasNot: withZone(ROOMY, { gapMm: 40 }),
    severity: 'stop',
    message: 'Zone 1 builds up to 10.8 mm; there is room for 5 mm.',
    numbers: { stackMm: 10.805297065139586, gapMm: 5 },
  },
  {
    code: 'skins-uneven',
    has: withZone(ROOMY, { shape: 'flat', core: null, outer: [{ cloth: 'carbon-twill-200' }] }),
    hasNot: withZone(ROOMY, { shape: 'flat', core: null, outer: [{ cloth: 'glass-twill-300' }] }),
    severity: 'note',
    message: 'Zone 1 is flat, without core, and its two halves differ: it may bow on cure.',
    numbers: { outerPlies: 1, innerPlies: 1 },
  },
  {
    code: 'core-bend-tight',
    has: withZone(ROOMY, { radiusMm: 300 }),
    hasNot: withZone(ROOMY, { radiusMm: 600 }),
    severity: 'warn',
    message:
      '10 mm PVC foam 80 kg/m3 bends cold to a radius of about 600 mm; Zone 1 asks 300 mm. Score it, warm it or take thinner layers.',
    numbers: { radiusMm: 300, leastRadiusMm: 600 },
  },
  {
    code: 'core-thickness-odd',
    has: withZone(ROOMY, foam('pvc-80', 7)),
    hasNot: ROOMY,
    severity: 'note',
    message: 'PVC foam 80 kg/m3 is stocked in 3, 5, 8, 10, 12, 15, 20, 25 mm, not in 7 mm.',
    numbers: { thicknessMm: 7 },
  },
  {
    code: 'core-kerfs-open',
    has: withZone(ROOMY, { core: { material: 'pvc-80', thicknessMm: 10, treatment: 'grooved' } }),
    hasNot: ROOMY,
    severity: 'note',
    message: 'Open kerfs in Zone 1 drink about 0.8 kg more resin than drilled core.',
    numbers: { extraKg: 0.792 },
  },
  {
    code: 'styrene-dissolves',
    has: withZone(MARL, foam('xps-33')),
    hasNot: withZone(ROOMY, foam('xps-33')),
    severity: 'stop',
    message:
      'Styrene in the resin dissolves XPS foam 33 kg/m3 in Zone 1. Take epoxy or another core.',
    numbers: { core: 'xps-33' },
  },
  {
    code: 'styrene-dissolves',
    has: { ...MARL, mould: { material: 'eps-coated', sealed: true } },
    hasNot: { ...ROOMY, mould: { material: 'eps-coated', sealed: true } },
    severity: 'warn',
    message:
      'Styrene in the resin dissolves the mould, EPS block with epoxy coat, through any pinhole in its coat.',
    numbers: { mould: 'eps-coated' },
  },
  {
    code: 'styrene-vacuum',
    has: MARL,
    hasNot: ROOMY,
    severity: 'warn',
    message: 'Styrene boils under full vacuum: hold 65 kPa below atmosphere at most.',
    numbers: { maxVacuumKPa: 65 },
  },
  {
    code: 'solvent-core',
    has: withZone(ROOMY, foam('xps-33')),
    hasNot: ROOMY,
    severity: 'note',
    message:
      'Release and wiping solvents attack XPS foam 33 kg/m3: let them flash off, wipe the skin and never the core.',
    numbers: { core: 'xps-33' },
  },
  {
    code: 'vacuum-crushes-core',
    has: withZone(ROOMY, foam('eps-20')),
    hasNot: ROOMY,
    severity: 'warn',
    message:
      'EPS foam 20 kg/m3 in Zone 1 creeps when it is pulled to more than 25 kPa below atmosphere, sooner when warm: throttle the pump.',
    numbers: { maxVacuumKPa: 25 },
  },
  {
    code: 'heat-over-limit',
    has: withPart(ROOMY, { serviceMaxC: 80 }),
    hasNot: ROOMY,
    severity: 'stop',
    message: 'PVC foam 80 kg/m3 in Zone 1 takes 75 °C; bake or service reaches 80 °C.',
    numbers: { maxC: 75, hottestC: 80 },
  },
  {
    code: 'heat-over-limit',
    has: room({ ...DAY, tent: { maxC: 90 } }),
    hasNot: room({ ...DAY, tent: { maxC: 60 } }),
    severity: 'note',
    message: 'The tent reaches 90 °C; the mould, Tooling board, medium density, takes 70 °C.',
    numbers: { tentC: 90, limitC: 70 },
  },
  {
    code: 'release-not-for-shape',
    has: withZone({ ...ROOMY, mould: { release: 'film-slick' } }, { shape: 'double' }),
    hasNot: withZone({ ...ROOMY, mould: { release: 'film-slick' } }, { shape: 'flat' }),
    severity: 'stop',
    message:
      'Slick release film, self-adhesive lies on flat or singly curved surfaces only; Zone 1 is curved both ways.',
    numbers: { release: 'film-slick', shape: 'double' },
  },
  {
    code: 'weight-over',
    has: withPart(ROOMY, { targetMassKg: 1 }),
    hasNot: withPart(ROOMY, { targetMassKg: 30 }),
    severity: 'warn',
    message: 'The bare shell comes out at about 3.12 kg; the target is 1.00 kg.',
    numbers: { massKg: 3.12, targetMassKg: 1 },
  },
  {
    code: 'panel-soft',
    has: withZone(ROOMY, { ...WIDE, ...foam('pvc-80', 8) }),
    hasNot: withZone(ROOMY, { ...WIDE, ...foam('pvc-80', 25) }),
    scope: 'full',
    severity: 'warn',
    message:
      'Wide panel gives 3.3 mm under a sanding block; 3 mm is the limit. 1 local ply of Glass 2/2 twill 300 g/m2 between the skins would hold it: 0.6 h and 0.29 kg more, after demould 6.2 h.',
    numbers: {
      zone: 'zone-1',
      handMm: 2.75,
      blockMm: 3.3,
      theoryMm: 8.81,
      coupling: 1,
      limitMm: 3,
      plies: 1,
      betweenHours: 0.63,
      betweenCostMinor: 1550,
      betweenKg: 0.292,
      afterHours: 6.15,
      afterCostMinor: 3479,
      afterKg: 0.364,
    },
  },
  {
    code: 'panel-soft',
    has: withZone(ROOMY, { name: 'Thin wall', areaM2: 4, shape: 'flat', ...foam('pvc-80', 3) }),
    hasNot: withZone(ROOMY, { ...WIDE, ...foam('pvc-80', 25) }),
    scope: 'full',
    severity: 'warn',
    message:
      'Thin wall cannot be calculated as a flat panel (its size is taken from its area): under a sanding block it would go beyond 3.8 mm, its own thickness, where plate theory ends. Try it on a test piece; 3 mm is the limit. A thicker core would hold it, or a frame behind it.',
    numbers: {
      zone: 'zone-1',
      handMm: null,
      blockMm: null,
      theoryMm: 3.81,
      coupling: 1,
      limitMm: 3,
      plies: null,
    },
  },
  {
    code: 'structural-merge',
    has: { ...CARRIES, route: { joints: { 'core-inner': 'one-bag' } } },
    hasNot: CARRIES,
    severity: 'warn',
    message:
      'The part carries load, and fibre may move in the inner skin in one bag with the core bond: it stays straightest in layups cured apart. The plan counts 2.3 h of work to cut out and repair.',
    numbers: { joints: 1, hours: 2.3 },
  },
  {
    code: 'structural-local-after',
    has: withZone(CARRIES, { local: [{ cloth: 'glass-twill-300', place: 'after', areaM2: 0.2 }] }),
    hasNot: withZone(CARRIES, {
      local: [{ cloth: 'glass-twill-300', place: 'between', areaM2: 0.2 }],
    }),
    severity: 'warn',
    message:
      'The part carries load, and its local plies are laid on the demoulded part: a bond on a cured, abraded skin. Between the skins they cure with the laminate.',
    numbers: { areaM2: 0.2 },
  },
  {
    code: 'structural-no-peel-ply',
    has: withZone(CARRIES, {
      name: 'Shell',
      closeout: { plies: [{ cloth: 'glass-twill-300' }], peelPly: false },
    }),
    hasNot: withZone(CARRIES, {
      closeout: { plies: [{ cloth: 'glass-twill-300' }], peelPly: true },
    }),
    severity: 'warn',
    message:
      'The part carries load, and the edge of Shell is closed without peel ply: what is bonded to it later wants washing, drying and abrading P80 to P120.',
    numbers: {},
  },
  {
    code: 'structural-scuff',
    has: CARRIES,
    hasNot: ROOMY,
    severity: 'note',
    message:
      'The part carries load: its bond on a cured skin gets a light scuff after the peel ply is stripped, 2 min, and is made within 2 h.',
    numbers: { bonds: 1, minutesEach: 2 },
  },
];
