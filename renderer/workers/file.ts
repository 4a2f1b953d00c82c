/** How the workers that read a file go through it and what they say. */

export type FileMessage<T> =
  | { readonly kind: 'read'; readonly share: number }
  | { readonly kind: 'done'; readonly value: T }
  | { readonly kind: 'fault'; readonly why: string };

/**
 * Reads a file piece by piece.
 * @param tell called with the share read, 0 to 1, at every twentieth of the file
 */
export async function readPieces(
  file: File,
  take: (piece: Uint8Array) => void,
  tell: (message: { readonly kind: 'read'; readonly share: number }) => void,
): Promise<void> {
  let read = 0;
  let told = 0;
  for await (const piece of file.stream()) {
    take(piece);
    read += piece.length;
    if (read - told < file.size / 20) continue;
    told = read;
    tell({ kind: 'read', share: read / file.size });
  }
}
