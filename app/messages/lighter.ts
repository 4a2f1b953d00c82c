/** What would make the part lighter: what each way is called and what it brings with it. */
import { exact } from '../units/words.ts';

export interface LighterWords {
  readonly label: string;
  readonly sideEffects: readonly string[];
}

const FEWER_PLIES = ['Softer to the hand and to the sanding block.', 'Shows the core sooner.'];

export const LIGHTER_WORDS = {
  filmWetOut: {
    label: 'Wet the cloth out between films',
    sideEffects: ['A table as long as the largest ply, and film for it.', 'Thinner skins.'],
  },
  bleed: {
    label: 'Bleed more: more holes in the film, more breather',
    sideEffects: [
      'Thin skins may get too little resin, and weave or core may show through.',
      'The resin is paid for and thrown away.',
    ],
  },
  drilledCore: {
    label: 'Drilled core in place of scored',
    sideEffects: ['Bends cold only over wide curves; warm or strip-plank it elsewhere.'],
  },
  thinnerCore: {
    label: 'The next thinner core',
    sideEffects: ['Much less stiffness for little mass.'],
  },
  fewerOuterPlies: { label: 'One ply less in the outer skin', sideEffects: FEWER_PLIES },
  fewerInnerPlies: { label: 'One ply less in the inner skin', sideEffects: FEWER_PLIES },
} as const satisfies Readonly<Record<string, LighterWords>>;

interface CoreNamed {
  readonly name: string;
  /** null: not known. */
  readonly shearModulusMPa: number | null;
}

/** A lighter core of the same use. */
export const otherCoreWords = (core: CoreNamed, own: CoreNamed): LighterWords => ({
  label: `${core.name} in place of ${own.name}`,
  sideEffects:
    core.shearModulusMPa !== null && own.shearModulusMPa !== null
      ? [`Shear modulus ${exact(core.shearModulusMPa)} against ${exact(own.shearModulusMPa)} MPa.`]
      : [],
});
