/** Unpacks the plain files of a small tar archive held in memory. */
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { extract } from 'tar-stream';

/**
 * Writes every regular file of the archive below `folder`; folders are made, links are skipped.
 * @throws Error when it is no tar archive or ends inside a file
 */
export async function untar(archive: Buffer, folder: string): Promise<void> {
  const entries = extract();
  entries.end(archive);
  for await (const entry of entries) {
    const { name, type, mode } = entry.header;
    if (type !== 'file') {
      entry.resume();
      continue;
    }
    const path = join(folder, name);
    await mkdir(dirname(path), { recursive: true });
    await writeFile(path, entry as AsyncIterable<Buffer>, { mode });
  }
}
