/** Seeds come from the document, never from the clock. */

/** A 32-bit seed from texts (FNV-1a over their UTF-16 units). */
export function seedOf(...texts: readonly string[]): number {
  let hash = 0x811c9dc5;
  for (const text of texts) {
    for (let i = 0; i < text.length; i += 1) {
      hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
    }
  }
  return hash;
}
