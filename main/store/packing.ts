/** The stored form of a revision's text: whole or as a difference, compressed, with its checksum. */
import { createHash } from 'node:crypto';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { applied, difference, type Piece } from './delta.ts';

/** What stands beside the document in a revision's row. */
export interface Facts {
  readonly build: string;
  readonly number: number;
  readonly kind: string;
  readonly label: string;
  readonly position: number;
  readonly parent: number | null;
  readonly created_at_ms: number;
}

export interface Whole {
  readonly number: number;
  readonly text: string;
}

export interface Packed {
  readonly document: Buffer;
  /** The revision that the document is a difference to; null when it is whole. */
  readonly base: number | null;
  readonly checksum: Buffer;
}

/** Far above any real build: a damaged blob may not fill the memory. */
const MAX_DOCUMENT_BYTES = 64_000_000;
/** So many revisions at most hang on one whole one, so that its damage costs no more. */
const MOST_ON_ONE = 64;
/** A difference is kept where it is at most this part of the text. */
const SMALL_PART = 10;
const CHECKSUM_BYTES = 16;

export const inflated = (blob: Buffer): string =>
  inflateRawSync(blob, { maxOutputLength: MAX_DOCUMENT_BYTES }).toString();

const deflated = (text: string): Buffer => deflateRawSync(Buffer.from(text));

/**
 * @param whole the newest revision that is kept whole; null for the first one
 * @returns the difference where it is small, else the text itself
 */
export function packed(facts: Facts, text: string, whole: Whole | null): Packed {
  const checksum = checksumOf(facts, text);
  const hangs = whole !== null && facts.number - whole.number <= MOST_ON_ONE;
  const pieces = hangs ? JSON.stringify(difference(whole.text, text)) : null;
  const small = pieces !== null && pieces.length < text.length / SMALL_PART;
  if (!hangs || !small || applied(whole.text, JSON.parse(pieces) as Piece[]) !== text) {
    return { document: deflated(text), base: null, checksum };
  }
  return { document: deflated(pieces), base: whole.number, checksum };
}

/**
 * The text of a revision, checked.
 * @param base text of the whole revision that it is a difference to, or null
 * @throws Error when it is not what was written
 */
export function unpacked(
  facts: Facts,
  { document, checksum }: Pick<Packed, 'document' | 'checksum'>,
  base: string | null,
): string {
  const own = inflated(document);
  const text = base === null ? own : applied(base, JSON.parse(own) as Piece[]);
  if (!checksumOf(facts, text).equals(checksum)) throw new Error('The checksum does not fit');
  return text;
}

function checksumOf(facts: Facts, text: string): Buffer {
  const { build, number, kind, label, position, parent, created_at_ms } = facts;
  return createHash('sha256')
    .update(JSON.stringify([build, number, kind, label, position, parent, created_at_ms]))
    .update(text)
    .digest()
    .subarray(0, CHECKSUM_BYTES);
}
