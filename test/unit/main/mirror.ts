/** A stand-in for the server that Electron's program comes from, and a project to fetch it into. */
import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import { onTestFinished } from 'vitest';
import { projectRoot } from '../../../main/root.ts';
import { scratchFolder } from './fixtures.ts';

/** An archive of uncompressed files: APPNOTE.TXT 6.3, sections 4.3.7, 4.3.12 and 4.3.16, from memory. */
export function zipOf(files: Readonly<Record<string, Buffer>>): Buffer {
  const locals: Buffer[] = [];
  const centrals: Buffer[] = [];
  let at = 0;
  for (const [name, bytes] of Object.entries(files)) {
    const common = Buffer.alloc(26);
    common.writeUInt16LE(20, 0);
    common.writeUInt32LE(crc32(bytes), 10);
    common.writeUInt32LE(bytes.length, 14);
    common.writeUInt32LE(bytes.length, 18);
    common.writeUInt16LE(name.length, 22);
    const local = Buffer.concat([Buffer.from('PK\u0003\u0004'), common, Buffer.from(name), bytes]);
    const place = Buffer.alloc(14);
    place.writeUInt32LE((0o100755 << 16) >>> 0, 6);
    place.writeUInt32LE(at, 10);
    const madeBy = Buffer.from([20, 3]);
    centrals.push(
      Buffer.concat([Buffer.from('PK\u0001\u0002'), madeBy, common, place, Buffer.from(name)]),
    );
    locals.push(local);
    at += local.length;
  }
  const central = Buffer.concat(centrals);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(centrals.length, 4);
  end.writeUInt16LE(centrals.length, 6);
  end.writeUInt32LE(central.length, 8);
  end.writeUInt32LE(at, 12);
  return Buffer.concat([...locals, central, Buffer.from('PK\u0005\u0006'), end]);
}

/** The archive that the mirror serves; its program file says what it is. */
export const ARCHIVE = zipOf({
  electron: Buffer.from('a program file that is none'),
  'resources/filler.bin': Buffer.alloc(400_000, 'filler '),
});

/** A project whose Electron package is there and whose program file is not. */
export function projectWithoutElectron(): string {
  const root = scratchFolder();
  const real = join(projectRoot(), 'node_modules');
  const folder = join(root, 'node_modules', 'electron');
  mkdirSync(folder, { recursive: true });
  for (const name of ['install.js', 'package.json']) {
    copyFileSync(join(real, 'electron', name), join(folder, name));
  }
  for (const scope of ['@electron', '@electron-internal']) {
    symlinkSync(join(real, scope), join(root, 'node_modules', scope), 'junction');
  }
  return root;
}

/** Notes the archive's checksum in the package, under the name that the installer asked for. */
export function expectArchive(root: string, name: string, archive = ARCHIVE): void {
  const sha256 = createHash('sha256').update(archive).digest('hex');
  const path = join(root, 'node_modules', 'electron', 'checksums.json');
  writeFileSync(path, JSON.stringify({ [name]: sha256 }));
}

/** Answers every request on this machine's loopback; returns the address with its last stroke. */
export async function mirror(
  answer: (response: ServerResponse, fileName: string) => void,
): Promise<string> {
  const server = createServer((request, response) => {
    answer(response, (request.url ?? '').split('/').at(-1)!);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
  });
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
}
