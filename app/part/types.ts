/** The quantities that part/ hands to the steps after it. */
import type { PartZone, Provenance, StageKind } from '../document/schema.ts';
import type { Repair } from './repair.ts';

/**
 * One lamination that could be cured on its own.
 * `chain` layups lie one on the other in the mould, in order; `after-trim` ones are made on the
 * demoulded, trimmed part and are always cured apart. `beside` the chain lie inserts, on a flat of their own;
 * `after-demould` comes a patch that demould has made necessary. Neither has a boundary with another layup.
 */
export interface Layup {
  readonly id: LayupId;
  readonly name: string;
  readonly place: LayupPlace;
  readonly areaM2: number;
  /** Sum over plies of ply area, overlaps included, m2. */
  readonly plyAreaM2: number;
  readonly plies: number;
  readonly edgeM: number;
  /** Mixed resin and hardener needed at the part, losses and core uptake included, g. */
  readonly mixedG: number;
  /** Fastest and slowest crew allowed, and the person-minutes of the wet work, first mix to sealed bag. */
  readonly personMinutes: number;
  readonly peopleMin: number;
  readonly peopleMax: number;
  /** Set-up of its bag and bench within `personMinutes`. */
  readonly setupMinutes: number;
  /** The layup that it goes down wet with, as plies of it; null: a layup of its own. */
  readonly partOf: LayupId | null;
  /** One of several sections of a skin, each laid, bagged and cured as a lamination of its own; null: all of it. */
  readonly section: Section | null;
  /** Cloth that is laid dry and filled under its bag. */
  readonly infused: boolean;
  /** True for a layup that holds core. */
  readonly hasCore: boolean;
  readonly vertical: boolean;
  /** Cured thickness of the layup, mm (the core's own included). */
  readonly thicknessMm: number;
}

/**
 * In the order of making; `local` lies between the outer skin and the core, `local-after` on the demoulded part.
 * `skin-2` is the second section of an outer skin that is laid in several, `skin` its first.
 */
export const LAYUP_IDS = [
  'inserts',
  'skin',
  'skin-2',
  'skin-3',
  'local',
  'core',
  'inner',
  'inner-2',
  'inner-3',
  'repair',
  'local-after',
  'closeout',
] as const;
export type LayupId = (typeof LAYUP_IDS)[number];

/** Where a section stands among those of its skin, and its joint to the one before. */
export interface Section {
  readonly of: SectionedId;
  /** From 1. */
  readonly number: number;
  readonly count: number;
  /** Joint to the section before it, m; 0 for the first. */
  readonly jointM: number;
  /** Band of staggered overlaps along that joint, m2; 0 for the first. */
  readonly bandM2: number;
}

/** Skins that may be laid in sections. */
export const SECTIONED_IDS = ['skin', 'inner'] as const;
export type SectionedId = (typeof SECTIONED_IDS)[number];

export type LayupPlace = 'beside' | 'chain' | 'after-demould' | 'after-trim';

/** A bag that holds dry cloth is filled with resin, core in it as well; core bonded alone is bedded by hand. */
export const isInfused = (layups: readonly Pick<Layup, 'infused'>[]): boolean =>
  layups.some(({ infused }) => infused);

/** Layups that have a boundary with the one before or after them. */
export const isInLine = ({ place }: Pick<Layup, 'place'>): boolean =>
  place === 'chain' || place === 'after-trim';

/** kg by what it is made of. */
export interface MassBreakdown {
  readonly fibre: number;
  readonly resin: number;
  readonly core: number;
  readonly coreResin: number;
  readonly closeout: number;
  readonly fairing: number;
  readonly paint: number;
}

export interface ZoneResult {
  readonly zone: PartZone;
  readonly thicknessMm: number;
  /** Cured thickness of the skins that cover all of it, mm. */
  readonly skinsMm: { readonly outer: number; readonly inner: number };
  readonly fibreFraction: number;
  readonly arealKgM2: number;
  readonly massKg: number;
}

/** One line of the kit: what to buy or take from stock. */
export interface KitLine {
  readonly id: string;
  readonly name: string;
  readonly group: 'cloth' | 'core' | 'resin' | 'consumable' | 'release' | 'mould';
  readonly quantity: number;
  readonly unit: 'm2' | 'm' | 'kg' | 'piece' | 'm3';
  /** null: the row has no price. */
  readonly costMinor: number | null;
  /** null: not known. */
  readonly leadDays: number | null;
  /** Who delivers it, by id; null: its row does not say. */
  readonly supplier: string | null;
  /** Where the row of the library has price and lead time from. */
  readonly provenance: Provenance;
  /** How it is bought: metres off a roll, sheets. */
  readonly detail?: string;
  /** Least amount that can be bought more, in `unit`. */
  readonly step: number;
}

/** Hands-on work outside the wet layups. */
export interface StageWork {
  readonly kind: StageKind;
  readonly personMinutes: number;
  readonly peopleMin: number;
  readonly peopleMax: number;
  readonly provenance: Provenance;
}

export interface PartResult {
  readonly areaM2: number;
  readonly edgeM: number;
  readonly zones: readonly ZoneResult[];
  /** Chain order first, then those made after trimming. Empty layups are left out. */
  readonly layups: readonly Layup[];
  readonly massKg: MassBreakdown;
  /** The part out of the mould, its edge not closed yet, kg, and the people who lift it together. */
  readonly lift: { readonly massKg: number; readonly hands: number };
  /** Repair after demould; null for a build that has not taken its rows. */
  readonly repair: Repair | null;
  /** Person-minutes of the plies that the repair lays, min; 0 where it lays none. */
  readonly repairLaidMinutes: number;
  /** Mass counted against the target, as the build states it (shell, faired or painted), kg. */
  readonly countedMassKg: number;
  /** Kit for a number of bagged cures (peel ply, film, tape are used once a bag). */
  kitFor(
    bags: number,
    batches: number,
    hardeners?: Readonly<Record<string, string>>,
    fillerKg?: number,
  ): readonly KitLine[];
  /** Labour of a stage kind; person-minutes 0 when the part needs none. */
  workFor(kind: StageKind): StageWork;
  /** The same for one bag, by what lies under it. */
  workUnder(kind: StageKind, layups: readonly Layup[]): StageWork;
}
