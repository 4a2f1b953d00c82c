/** Plies as one line of text: `2 x Carbon 200 @ 0/45, Glass 163 @ 45`. */
import type { ClothRow, Ply } from '../schema.ts';

export type ReadPlies =
  { readonly ok: true; readonly plies: Ply[] } | { readonly ok: false; readonly why: string };

type Cloth = Pick<ClothRow, 'id' | 'name'>;

const MOST_PLIES = 60;
const EXAMPLE = 'Write as in "2 x Carbon 200 @ 0/45".';

const wordsOf = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[^a-z0-9/.]+/)
    .filter((word) => word !== '');

/** The short name of a cloth, without its unit. */
export const clothName = (cloth: Cloth): string => cloth.name.replace(/\s*g\/m(2|²)$/, '');

/** The cloths whose name or id holds every word typed; an exact id wins alone. */
function clothsLike(text: string, cloths: readonly Cloth[]): Cloth[] {
  const exact = cloths.filter((cloth) => cloth.id === text.trim().toLowerCase());
  if (exact.length > 0) return exact;
  const typed = wordsOf(text.replace(/\s*g\/m(2|²)$/, ''));
  if (typed.length === 0) return [];
  return cloths.filter((cloth) => {
    const known = [...wordsOf(cloth.name), ...wordsOf(cloth.id)];
    return typed.every((word) => known.some((k) => k === word));
  });
}

function readAngles(text: string): number[] | string {
  const angles: number[] = [];
  for (const piece of text.split('/').map((p) => p.trim().replace(/°$/, ''))) {
    const both = /^(?:±|\+-|\+\/-)(\d+(?:\.\d+)?)$/.exec(piece);
    const values = both ? [Number(both[1]), -Number(both[1])] : [Number(piece || NaN)];
    if (values.some((v) => !Number.isFinite(v) || Math.abs(v) > 90)) {
      return `"${piece}" is not an angle: −90 to 90 degrees from the 0 line.`;
    }
    angles.push(...values);
  }
  return angles;
}

function readGroup(text: string, cloths: readonly Cloth[]): Ply[] | string {
  const match = /^(?:(\d+)\s*[x×*]\s*)?(.+?)(?:\s*@\s*(.+))?$/i.exec(text);
  if (!match) return `"${text}" cannot be read. ${EXAMPLE}`;
  const found = clothsLike(match[2]!, cloths);
  if (found.length !== 1) {
    const list = (found.length > 1 ? found : cloths).map(clothName).join(', ');
    return found.length > 1
      ? `"${match[2]}" fits several cloths: ${list}.`
      : `"${match[2]}" is no cloth of the library: ${list}.`;
  }
  const angles = match[3] === undefined ? [0] : readAngles(match[3].replace(/\u2212/g, '-'));
  if (typeof angles === 'string') return angles;
  const count = match[1] === undefined ? angles.length : Number(match[1]);
  if (count < 1 || count > MOST_PLIES) return `1 to ${MOST_PLIES} plies, not ${match[1]}.`;
  if (angles.length > count)
    return `${count} ${count === 1 ? 'ply' : 'plies'} but ${angles.length} angles in "${text}".`;
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
    if (typeof read === 'string') return { ok: false, why: read };
    plies.push(...read);
  }
  if (plies.length > MOST_PLIES) return { ok: false, why: `At most ${MOST_PLIES} plies.` };
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
