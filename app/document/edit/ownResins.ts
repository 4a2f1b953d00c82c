/**
 * Resin systems and hardeners of the shop's own, in the build's frozen library: made, copied, named
 * and taken out. Each is one edit.
 */
import type { HardenerRow, Library, ResinRow, SheetRow } from '../schema.ts';
import { copiedFrom, TYPED_ROW } from '../provenance.ts';
import { setField, type Change } from './change.ts';
import type { Draft } from './path.ts';
import { freeRowId, hardenerLike, hardenerName, OWN_RESIN, useResin, wholeResin } from './resin.ts';

type Resins = Pick<Library, 'resins'>;

/** Why an edit is not made, in one line. */
export interface Refusal {
  readonly refused: string;
}
export const isRefusal = (answer: Change | Refusal): answer is Refusal => 'refused' in answer;

/** What a new system needs before it has a curve; the rest of its sheet is typed later or assumed. */
export interface NewResin {
  readonly name: string;
  readonly chemistry: ResinRow['chemistry'];
  readonly hardener: string;
  readonly partsPer100ByMass: number;
  readonly potLife: Pick<SheetRow, 'temperatureC' | 'minutes'> & {
    readonly massG: number;
    readonly vessel: 'cup' | 'tray';
  };
}

/** Usual hazards until the safety sheet is read: common practice, no source. */
const HAZARDS_OF: Readonly<
  Record<'epoxy' | 'ester', Pick<ResinRow, 'hazards'> & { hardener: HardenerRow['hazards'] }>
> = {
  epoxy: {
    hazards: ['skin-sensitiser', 'exotherm'],
    hardener: ['skin-sensitiser', 'corrosive', 'exotherm'],
  },
  ester: { hazards: ['styrene', 'exotherm'], hardener: ['peroxide', 'corrosive', 'exotherm'] },
};

/** A name that no other row has: `Copy of X`, then `Copy of X (2)`. */
export function freeName(rows: readonly { readonly name: string }[], wanted: string): string {
  const taken = new Set(rows.map(({ name }) => name));
  let name = wanted.slice(0, NAME_LENGTH);
  for (let number = 2; taken.has(name); number += 1) {
    name = `${wanted.slice(0, NAME_LENGTH)} (${number})`;
  }
  return name;
}
const NAME_LENGTH = 120;

/** The document with a row more, and made with it. */
function addResinRow(document: Draft, resin: ResinRow, hardener: string, label: string): Change {
  const others = (document.library?.resins ?? []).filter(({ id }) => id !== resin.id);
  return {
    label,
    document: {
      ...document,
      library: { ...document.library, resins: [...others, resin] },
      resin: useResin(document.resin, resin, hardener),
    },
  };
}

/** A new system, made and picked. */
export function newResin(document: Draft, library: Resins, given: NewResin): Change {
  const { name, chemistry, hardener, partsPer100ByMass, potLife } = given;
  const usual = HAZARDS_OF[chemistry === 'epoxy' ? 'epoxy' : 'ester'];
  const resin = wholeResin({
    id: freeRowId(library.resins, OWN_RESIN),
    name: freeName(library.resins, name.trim() || 'Own resin'),
    provenance: TYPED_ROW,
    chemistry,
    hazards: usual.hazards,
    hardeners: [
      {
        id: 'own-hardener',
        name: hardener.trim() || hardenerName(name.trim() || 'Own resin'),
        provenance: TYPED_ROW,
        partsPer100ByMass,
        sheet: [{ what: 'pot-life', ...potLife }],
        hazards: usual.hardener,
      },
    ],
  });
  return addResinRow(document, resin, 'own-hardener', `New resin system: ${resin.name}`);
}

/** A copy of a system with all its hardeners, picked in its place. Null when there is no such system. */
export function copyResin(document: Draft, library: Resins, system: string): Change | null {
  const from = library.resins.find(({ id }) => id === system);
  if (!from) return null;
  const resin: ResinRow = {
    ...from,
    id: freeRowId(library.resins, OWN_RESIN),
    name: freeName(library.resins, `Copy of ${from.name}`),
    revision: 1,
    provenance: copiedFrom(from.provenance, from.name),
  };
  const hardener = hardenerLike(resin, document.resin?.hardener);
  return addResinRow(document, resin, hardener, `Resin copied: ${resin.name}`);
}

/** A further hardener on the system in use: a copy of the one in use, to be typed over; picked. */
export function addHardener(document: Draft, library: Resins): Change | null {
  const resin = library.resins.find(({ id }) => id === document.resin?.system);
  const from = resin?.hardeners.find(({ id }) => id === document.resin?.hardener);
  if (!resin || !from) return null;
  const hardener: HardenerRow = {
    ...from,
    id: freeRowId(resin.hardeners, 'own-hardener'),
    name: freeName(resin.hardeners, `Copy of ${from.name}`),
    provenance: copiedFrom(from.provenance, from.name),
  };
  const grown = { ...resin, hardeners: [...resin.hardeners, hardener] };
  return addResinRow(document, grown, hardener.id, `Hardener added: ${hardener.name}`);
}

/** One row of the shop's own, as the list shows it. */
export interface OwnRow {
  readonly resin: ResinRow;
  /** Null: the system itself. */
  readonly hardener: HardenerRow | null;
  readonly inUse: boolean;
}

/** Every system and hardener that no library but the build's own has. */
export function ownRows(document: Draft, library: Resins, shipped: Resins): OwnRow[] {
  const { system, hardener, hardenerFor = {} } = document.resin ?? {};
  return library.resins.flatMap((resin) => {
    const known = shipped.resins.find(({ id }) => id === resin.id);
    const own = resin.hardeners.filter(({ id }) => !known?.hardeners.some((h) => h.id === id));
    const used = resin.id === system;
    return [
      ...(known ? [] : [{ resin, hardener: null, inUse: used }]),
      ...own.map((row) => ({
        resin,
        hardener: row,
        inUse: used && (row.id === hardener || Object.values(hardenerFor).includes(row.id)),
      })),
    ];
  });
}

const withResins = (document: Draft, resins: readonly ResinRow[], name: string, said: string) =>
  setField(document, 'library.resins', resins, name, said);

/** The build's own resins with one of them changed. */
function changed(
  document: Draft,
  library: Resins,
  resin: ResinRow,
  name: string,
  said: string,
): Change {
  const mine = new Set((document.library?.resins ?? []).map(({ id }) => id));
  const kept = library.resins.filter(({ id }) => mine.has(id) && id !== resin.id);
  return withResins(document, [...kept, resin], name, said);
}

export function renameRow(
  document: Draft,
  library: Resins,
  { resin, hardener }: OwnRow,
  wanted: string,
): Change | Refusal {
  const name = wanted.trim();
  const rows: readonly { id: string; name: string }[] = hardener ? resin.hardeners : library.resins;
  if (name === '' || name.length > NAME_LENGTH) {
    return { refused: `A name has 1 to ${NAME_LENGTH} letters.` };
  }
  if (rows.some((row) => row.name === name && row.id !== (hardener ?? resin).id)) {
    return { refused: `${name} is there already: two of one name would be mixed up.` };
  }
  const next = hardener
    ? {
        ...resin,
        hardeners: resin.hardeners.map((h) => (h.id === hardener.id ? { ...h, name } : h)),
      }
    : { ...resin, name };
  return changed(document, library, next, `${(hardener ?? resin).name} renamed`, name);
}

export function removeRow(
  document: Draft,
  library: Resins,
  { resin, hardener, inUse }: OwnRow,
): Change | Refusal {
  const { name } = hardener ?? resin;
  if (inUse) {
    const single = Object.values(document.resin?.hardenerFor ?? {}).includes(hardener?.id ?? '');
    return {
      refused: hardener
        ? `${name} is in use${single ? ' for a single layup' : ''}: pick another hardener first.`
        : `${name} is in use: pick another resin first.`,
    };
  }
  if (hardener) {
    const hardeners = resin.hardeners.filter(({ id }) => id !== hardener.id);
    if (hardeners.length === 0) {
      return {
        refused: `${name} is the only hardener of ${resin.name}: remove the resin instead.`,
      };
    }
    return changed(document, library, { ...resin, hardeners }, 'Hardener removed', name);
  }
  const kept = (document.library?.resins ?? []) as readonly ResinRow[];
  const resins = kept.filter(({ id }) => id !== resin.id);
  return withResins(document, resins, 'Resin system removed', name);
}
