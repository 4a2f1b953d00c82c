/**
 * Pieces of documents that say the same are made the same object, so that what was worked out about the one
 * is known about the other: two edits of one document copy the same piece, each for itself.
 */
import type { Build } from './schema.ts';

export class KeptPieces {
  private readonly pieces = new Map<string, unknown>();

  /** @param document its own pieces stay as they are */
  constructor(document: Build) {
    this.of(document);
  }

  /** The document made of pieces that are known. */
  of(document: Build): Build {
    const known = Object.entries(document).map(([key, piece]) => [key, this.piece(key, piece)]);
    return Object.fromEntries(known) as Build;
  }

  private piece(key: string, piece: unknown): unknown {
    if (typeof piece !== 'object' || piece === null) return piece;
    const text = `${key} ${JSON.stringify(piece)}`;
    const known = this.pieces.get(text);
    if (known !== undefined) return known;
    this.pieces.set(text, piece);
    return piece;
  }
}
