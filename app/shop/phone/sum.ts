/** Check sum of a text that is handed on by people: it finds slips of copying, and is no lock. */

/** FNV-1a over UTF-16 code units, 32 bits, eight hexadecimal digits. */
export function checkSum(text: string): string {
  let sum = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) {
    sum = Math.imul(sum ^ text.charCodeAt(i), 0x01000193) >>> 0;
  }
  return sum.toString(16).padStart(8, '0');
}
