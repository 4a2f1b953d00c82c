/** Plies as one line of text: `2 x Carbon 200 @ 0/45, Glass 163 @ 45`. */
import { readQuantity } from '../../units/read.ts';
import type { ClothRow, Ply } from '../schema.ts';

/** Why a text is no stack of plies. Worded in app/messages/typed.ts. */
export type PliesFault =
  | { readonly code: 'unreadable' | 'no-angle'; readonly typed: string }
  | {
      readonly code: 'several-cloths' | 'no-cloth';
      readonly typed: string;
      /** Short names of the cloths that it fits, or of all that there are. */
      readonly cloths: readonly string[];
    }
  | { readonly code: 'ply-count'; readonly typed: string; readonly most: number }
  | {
      readonly code: 'more-angles';
      readonly typed: string;
      readonly plies: number;
      readonly angles: number;
    }
  | { readonly code: 'too-many'; readonly most: number };

export type ReadPlies =
  { readonly ok: true; readonly plies: Ply[] } | { readonly ok: false; readonly fault: PliesFault };

type Cloth = Pick<ClothRow, 'id' | 'name'> & Partial<Pick<ClothRow, 'arealGM2'>>;

const MOST_PLIES = 60;

const wordsOf = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[^a-z0-9/.]+/)
    .filter((word) => word !== '');

/** The short name of a cloth, without its unit. */
export const clothName = (cloth: Cloth): string => cloth.name.replace(/\s*g\/m(2|²)$/, '');

const G_PER_M2 = /(\d+)\s*(?:gsm|g\/m(?:2|²)|g\/sqm|g)(?![a-z0-9/])/gi;
const OZ = /(\d+(?:\.\d+)?)\s*oz(?:\.|\/yd(?:2|²))?(?![a-z0-9])/i;
/** Cloth by the ounce is named in round figures: `6 oz` of 200 g/m². */
const OZ_ROUNDED = 0.03;

/** The cloths whose name or id holds every word typed, in grams or ounces; an exact id wins alone. */
function clothsLike(text: string, cloths: readonly Cloth[]): Cloth[] {
  const exact = cloths.filter((cloth) => cloth.id === text.trim().toLowerCase());
  if (exact.length > 0) return exact;
  const ounces = OZ.exec(text);
  const weight = ounces && readQuantity(`${ounces[1]} oz/yd²`, 'arealGM2');
  const gM2 = weight?.ok ? weight.value : null;
  const typed = wordsOf(text.replace(OZ, ' ').replace(G_PER_M2, ' $1 '));
  if (typed.length === 0 && gM2 === null) return [];
  return cloths.filter((cloth) => {
    const known = [...wordsOf(cloth.name), ...wordsOf(cloth.id)];
    const weighs = gM2 === null || Math.abs((cloth.arealGM2 ?? 0) / gM2 - 1) <= OZ_ROUNDED;
    return weighs && typed.every((word) => known.some((k) => k === word));
  });
}

/** `2 carbon 200` is two plies, unless a cloth has the figure in its name. */
function countedCloths(
  text: string,
  cloths: readonly Cloth[],
): { count: string; name: string } | null {
  const [, count, name] = /^(\d{1,2})\s+(.+)$/.exec(text) ?? [];
  if (count === undefined || name === undefined || clothsLike(text, cloths).length > 0) return null;
  return clothsLike(name, cloths).length > 0 ? { count, name } : null;
}

function readAngles(text: string): number[] | PliesFault {
  const angles: number[] = [];
  for (const piece of text.split('/').map((p) => p.trim().replace(/°$/, ''))) {
    const both = /^(?:±|\+-|\+\/-)(\d+(?:\.\d+)?)$/.exec(piece);
    const values = both ? [Number(both[1]), -Number(both[1])] : [Number(piece || NaN)];
    if (values.some((v) => !Number.isFinite(v) || Math.abs(v) > 90)) {
      return { code: 'no-angle', typed: piece };
    }
    angles.push(...values);
  }
  return angles;
}

function readGroup(text: string, cloths: readonly Cloth[]): Ply[] | PliesFault {
  const match = /^(?:(\d+)\s*[x×*]\s*)?(.+?)(?:\s*@\s*(.+))?$/i.exec(text);
  if (!match) return { code: 'unreadable', typed: text };
  const counted = match[1] === undefined ? countedCloths(match[2]!, cloths) : null;
  const plies = counted?.count ?? match[1];
  const found = clothsLike(counted?.name ?? match[2]!, cloths);
  if (found.length !== 1) {
    const code = found.length > 1 ? 'several-cloths' : 'no-cloth';
    const named = (found.length > 1 ? found : cloths).map(clothName);
    return { code, typed: match[2]!, cloths: named };
  }
  const angles = match[3] === undefined ? [0] : readAngles(match[3].replace(/\u2212/g, '-'));
  if (!Array.isArray(angles)) return angles;
  const count = plies === undefined ? angles.length : Number(plies);
  if (count < 1 || count > MOST_PLIES) {
    return { code: 'ply-count', typed: String(count), most: MOST_PLIES };
  }
  if (angles.length > count) {
    return { code: 'more-angles', typed: text, plies: count, angles: angles.length };
  }
  return Array.from({ length: count }, (_, i) => ({
    cloth: found[0]!.id,
    angleDeg: angles[i % angles.length]!,
  }));
}

/**
 * Reads a stack, mould side first. Groups are parted by comma, semicolon or line; angles repeat until
 * the count is reached. An empty text is an empty stack.
 */
export function readPlies(text: string, cloths: readonly Cloth[]): ReadPlies {
  const plies: Ply[] = [];
  for (const group of text.split(/[,;\n]+/).map((g) => g.trim())) {
    if (group === '') continue;
    const read = readGroup(group, cloths);
    if (!Array.isArray(read)) return { ok: false, fault: read };
    plies.push(...read);
  }
  if (plies.length > MOST_PLIES)
    return { ok: false, fault: { code: 'too-many', most: MOST_PLIES } };
  return { ok: true, plies };
}

/** The same stack as text that reads back to the same plies. */
export function formatPlies(
  plies: readonly { cloth: string; angleDeg?: number | undefined }[],
  cloths: readonly Cloth[],
): string {
  const groups: { cloth: string; angles: number[] }[] = [];
  for (const ply of plies) {
    const last = groups[groups.length - 1];
    if (last && last.cloth === ply.cloth) last.angles.push(ply.angleDeg ?? 0);
    else groups.push({ cloth: ply.cloth, angles: [ply.angleDeg ?? 0] });
  }
  return groups
    .map(({ cloth, angles }) => {
      const row = cloths.find((c) => c.id === cloth);
      const same = angles.every((angle) => angle === angles[0]);
      const shown = (same ? angles.slice(0, 1) : angles).map(String).join('/');
      return `${angles.length} x ${row ? clothName(row) : cloth} @ ${shown}`;
    })
    .join(', ');
}
