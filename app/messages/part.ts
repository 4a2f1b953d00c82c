/** Messages about the shape of the part: its zones, panels and load; and the levers that change it. */
import { elapsed, listed, plain } from './words.ts';
import { joinWords, type Join } from './joints.ts';
import { offers, rounded, findingSpec } from './spec.ts';
import { decimals } from '../units/formats.ts';
import { exact } from '../units/words.ts';

const mm = (value: number): string => `${plain(value)} mm`;
const pliesOf = (count: number): string => `${count} local ${count === 1 ? 'ply' : 'plies'}`;

/** What a few local plies cost when they are added at this moment. */
export interface StiffenMoment {
  readonly place: 'between' | 'after';
  readonly hours: number;
  readonly costMinor: number;
  readonly massKg: number;
}
const MOMENTS = { between: 'between the skins', after: 'after demould' } as const;

/** A zone that gives, under a hand and under a sanding block. */
export interface SoftPanel {
  readonly zoneId: string;
  readonly zone: string;
  /** Null beyond plate theory. */
  readonly handMm: number | null;
  readonly blockMm: number | null;
  /** Deflection at which plate theory ends. */
  readonly theoryMm: number;
  readonly worse: 'hand' | 'block';
  /** How many times softer skins laid askew make it, on the safe side; 1: not at all. */
  readonly coupling: number;
  readonly limitMm: number;
  readonly sidesAssumed: boolean;
  /** Local plies that hold it; null: so few do not help. */
  readonly plies: number | null;
  readonly cloth: string | null;
  /** Cheapest first. */
  readonly moments: readonly StiffenMoment[];
}

function softWords(panel: SoftPanel): string {
  return `${givesWords(panel)} ${stiffenWords(panel)}`;
}

/** What gives and by how much; a deflection outside plate theory gets a bound and no figure. */
function givesWords({ zone, handMm, blockMm, theoryMm, worse, ...panel }: SoftPanel): string {
  const { limitMm, coupling, sidesAssumed } = panel;
  const load = worse === 'block' ? 'sanding block' : 'hand';
  const mostMm = worse === 'block' ? blockMm : handMm;
  const size = sidesAssumed ? ' (its size is taken from its area)' : '';
  const limit = `${plain(limitMm)} mm is the limit`;
  if (mostMm === null) {
    return (
      `${zone} cannot be calculated as a flat panel${size}: under a ${load} it would go beyond ` +
      `${plain(theoryMm)} mm, its own thickness, where plate theory ends. Try it on a test piece; ${limit}.`
    );
  }
  const askew =
    coupling > 1
      ? ` Its skins are not balanced and twist as they bend: ${plain(coupling, 2)} times softer is counted, on the safe side.`
      : '';
  const digits = mostMm - limitMm < 0.1 ? 2 : 1;
  return `${zone} gives ${plain(mostMm, digits)} mm under a ${load}${size}; ${limit}.${askew}`;
}

function stiffenWords({ plies, cloth, moments: [best, other] }: SoftPanel): string {
  if (plies === null || !best) return 'A thicker core would hold it, or a frame behind it.';
  const instead = other ? `, ${MOMENTS[other.place]} ${plain(other.hours)} h.` : '.';
  return (
    `${pliesOf(plies)} of ${cloth} ${MOMENTS[best.place]} would hold it: ` +
    `${plain(best.hours)} h and ${plain(best.massKg, 2)} kg more${instead}`
  );
}

/** Hours, cost and mass of adding the plies at a moment, by name: `betweenHours`. */
const momentNumbers = ({ place, hours, costMinor, massKg }: StiffenMoment): [string, number][] => [
  [`${place}Hours`, rounded(hours, 2)],
  [`${place}CostMinor`, Math.round(costMinor)],
  [`${place}Kg`, rounded(massKg, 3)],
];

const NO_LEVER = { dependsOn: 'document', waysOut: 'none', saidByChoice: false } as const;
const CLEARED_BY_LEVERS = {
  dependsOn: 'document',
  waysOut: 'levers',
  saidByChoice: false,
} as const;

export const PART_FINDINGS = {
  'part-empty': findingSpec({
    meaning: 'The part has no plies yet.',
    severity: 'stop',
    unsafe: null,
    ...NO_LEVER,
    words: () => 'Give at least one zone an area and a ply.',
  }),
  'zone-empty': findingSpec({
    meaning: 'A zone has neither plies nor core.',
    severity: 'stop',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { zone: string }) => `${a.zone} has neither plies nor core.`,
  }),
  'core-over-gap': findingSpec({
    meaning: 'The stack is thicker than the room it has.',
    severity: 'stop',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { zone: string; stackMm: number; gapMm: number }) =>
      `${a.zone} builds up to ${mm(a.stackMm)}; there is room for ${mm(a.gapMm)}.`,
    numbers: ({ stackMm, gapMm }) => ({ stackMm, gapMm }),
  }),
  'skins-uneven': findingSpec({
    meaning: 'The two skins differ and may pull the panel out of shape.',
    severity: 'note',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { zone: string; outerPlies: number; innerPlies: number }) =>
      `${a.zone} is flat, without core, and its two halves differ: it may bow on cure.`,
    numbers: ({ outerPlies, innerPlies }) => ({ outerPlies, innerPlies }),
  }),
  'weight-over': findingSpec({
    meaning: 'The part comes out heavier than its target.',
    severity: 'warn',
    unsafe: null,
    ...NO_LEVER,
    words: (a: {
      counts: 'shell' | 'faired' | 'painted';
      fillerKg: number;
      massKg: number;
      targetMassKg: number;
    }) => {
      const what = { shell: 'bare shell', faired: 'faired part', painted: 'painted part' };
      const filler =
        a.fillerKg >= 0.05 ? ` with ${plain(a.fillerKg)} kg of filler for this route` : '';
      return (
        `The ${what[a.counts]}${filler} comes out at about ${decimals(a.massKg, 2)} kg; ` +
        `the target is ${decimals(a.targetMassKg, 2)} kg.`
      );
    },
    numbers: (a) => ({ massKg: rounded(a.massKg, 2), targetMassKg: a.targetMassKg }),
  }),
  'panel-soft': findingSpec({
    meaning: 'A zone gives under a hand or a sanding block.',
    severity: 'warn',
    unsafe: null,
    dependsOn: 'document',
    waysOut: 'own',
    saidByChoice: false,
    words: softWords,
    numbers: (panel) => ({
      zone: panel.zoneId,
      handMm: panel.handMm === null ? null : rounded(panel.handMm, 2),
      blockMm: panel.blockMm === null ? null : rounded(panel.blockMm, 2),
      theoryMm: rounded(panel.theoryMm, 2),
      coupling: rounded(panel.coupling, 2),
      limitMm: panel.limitMm,
      plies: panel.plies,
      ...Object.fromEntries(panel.moments.flatMap(momentNumbers)),
    }),
  }),
  'structural-merge': findingSpec({
    meaning: 'Fibre that carries load may move where layups are cured together.',
    severity: 'warn',
    unsafe: null,
    ...CLEARED_BY_LEVERS,
    words: (a: { joints: readonly Join[]; minutes: number }) =>
      `The part carries load, and fibre may move in ${listed(a.joints.map((join) => `the ${joinWords(join)}`))}: ` +
      `it stays straightest in layups cured apart. The plan counts ${elapsed(a.minutes)} of work to cut out and repair.`,
    numbers: (a) => ({ joints: a.joints.length, hours: rounded(a.minutes / 60) }),
  }),
  'structural-local-after': findingSpec({
    meaning: 'Plies that carry load are laid on the demoulded part.',
    severity: 'warn',
    unsafe: null,
    ...CLEARED_BY_LEVERS,
    words: (_: { areaM2: number }) =>
      'The part carries load, and its local plies are laid on the demoulded part: a bond on a cured, ' +
      'abraded skin. Between the skins they cure with the laminate.',
    numbers: (a) => ({ areaM2: rounded(a.areaM2, 2) }),
  }),
  'structural-no-peel-ply': findingSpec({
    meaning: 'A bond that carries load is planned without peel ply.',
    severity: 'warn',
    unsafe: null,
    ...NO_LEVER,
    words: (a: { zones: readonly string[] }) =>
      `The part carries load, and the edge of ${listed(a.zones)} is closed without ` +
      'peel ply: what is bonded to it later wants washing, drying and abrading P80 to P120.',
  }),
  'structural-scuff': findingSpec({
    meaning: 'Bonds that carry load are scuffed after the peel ply is stripped.',
    severity: 'note',
    unsafe: null,
    ...NO_LEVER,
    dependsOn: 'plan',
    words: (a: { bonds: number; minutesEach: number; withinHours: number }) =>
      `The part carries load: ${a.bonds === 1 ? 'its bond' : `each of its ${a.bonds} bonds`} ` +
      `on a cured skin gets a light scuff after the peel ply is stripped, ${elapsed(a.minutesEach)}${a.bonds === 1 ? ',' : ''} ` +
      `${a.bonds === 1 ? '' : 'each, '}and is made within ${plain(a.withinHours, 0)} h.`,
    numbers: (a) => ({ bonds: a.bonds, minutesEach: Math.round(a.minutesEach) }),
  }),
} as const;

export const PART_LEVERS = {
  'local-between': offers({
    label: () => 'Lay the local plies between the skins, not after demould',
    sideEffects: () => ['They must be settled and cut before the core goes down.'],
  }),
  stiffen: offers({
    label: (a: { plies: number; place: StiffenMoment['place']; zone: string }) =>
      `Add ${pliesOf(a.plies)} ${MOMENTS[a.place]} on ${a.zone}`,
    sideEffects: () => ['More weight; the plies must be cut and at hand when that layup begins.'],
  }),
  closeout: offers({
    /** `after`: the outside party after whose visit the edge is closed; null: before the first. */
    label: (a: { after: string | null; minutesPerM: number }) =>
      a.after === null
        ? 'Close the edge before the part leaves the shop'
        : `Close the edge after ${a.after}, not before`,
    sideEffects: (a) =>
      a.after === null
        ? ['Its cure and its fairing lie before the first visit.']
        : [
            'The core lies open at the edge while they have it; the tape is faired on its own, ' +
              `${exact(a.minutesPerM)} min a metre.`,
          ],
  }),
} as const;
