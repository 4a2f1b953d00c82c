/** Names, formulas and sources of the part's figures, where a figure is opened. */

export const DERIVATION_WORDS = {
  handsOn: 'Hands-on time',
  rounds: 'sum over the rounds of (set-up + per m² × area × shape) × familiarity; person-minutes',
  layups: 'sum over the layups, first mix to sealed bag',
  work:
    'person-minutes = (set-up + shape × (per m² × area + per m² of ply × ply area) + ' +
    'per metre × edge + coats × per m² of coat × mould area) × familiarity',
  area: 'Area',
  edge: 'Edge',
  familiarity: 'Familiarity',
  setUp: 'Set-up',
  perM2: 'Per square metre',
  perPlyM2: 'Per square metre of ply',
  perEdgeM: 'Per metre of edge',
  coatsOf: (what: string): string => `Coats of ${what}`,
  perCoatM2: 'Per square metre of coat',
  sealer: 'sealer',
  release: 'release',
  panel:
    'a flat panel on four supports: double sine series of the load over the bending stiffness of ' +
    'the real laminate, and over the core shear stiffness d² G / c',
  longSide: 'Long side of the panel',
  shortSide: 'Short side of the panel',
  handBending: 'Under a hand, bending',
  handShear: 'Under a hand, core shear',
  block: 'Under a sanding block',
  theoryEnds: 'Plate theory ends at the thickness',
  coupling: 'Softer by bending that twists it, safe side',
  panelSource:
    'Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells (1959); Allen (1969) for the ' +
    'core; Jones (1999) for the laminate; Ashton and Whitney (1970) for skins laid askew; from memory.',
} as const;
