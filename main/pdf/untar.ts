/** Reads the few plain files of a small tar archive held in memory. */

const BLOCK = 512;

export interface TarFile {
  readonly path: string;
  readonly mode: number;
  readonly bytes: Buffer;
}

/**
 * Regular files of a ustar archive, in order; folders and links are skipped.
 * @throws Error when a header is not a tar header or the archive ends inside a file.
 */
export function untar(archive: Buffer): TarFile[] {
  const files: TarFile[] = [];
  for (let at = 0; at + BLOCK <= archive.length;) {
    const header = archive.subarray(at, at + BLOCK);
    if (header[0] === 0) break;
    if (header.toString('latin1', 257, 262) !== 'ustar') throw new Error('not a tar archive');
    const size = octal(header, 124, 12);
    const from = at + BLOCK;
    if (from + size > archive.length) throw new Error('tar archive is cut short');
    const type = String.fromCharCode(header[156]!);
    if (type === '0' || type === '\0') {
      const prefix = textAt(header, 345, 155);
      const name = textAt(header, 0, 100);
      files.push({
        path: prefix ? `${prefix}/${name}` : name,
        mode: octal(header, 100, 8),
        bytes: archive.subarray(from, from + size),
      });
    }
    at = from + Math.ceil(size / BLOCK) * BLOCK;
  }
  return files;
}

function textAt(header: Buffer, from: number, length: number): string {
  const field = header.toString('latin1', from, from + length);
  const end = field.indexOf('\0');
  return end < 0 ? field : field.slice(0, end);
}

const octal = (header: Buffer, from: number, length: number): number =>
  Number.parseInt(textAt(header, from, length).trim() || '0', 8);
