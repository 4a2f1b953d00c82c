import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { pack } from 'tar-stream';
import { expect, it } from 'vitest';
import { untar } from '../../../main/pdf/untar.ts';
import { scratchFolder } from './fixtures.ts';

async function archive(): Promise<Buffer> {
  const made = pack();
  made.entry({ name: 'lib', type: 'directory' });
  made.entry({ name: 'lib/tool', mode: 0o755 }, 'a tool');
  made.entry({ name: 'lib/link', type: 'symlink', linkname: '/etc/passwd' });
  made.entry({ name: 'deep/down/text', mode: 0o644 }, 'x'.repeat(5000));
  made.finalize();
  const chunks: Buffer[] = [];
  for await (const chunk of made) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}

it('an archive is unpacked with its folders and modes, and without its links', async () => {
  const folder = scratchFolder();
  await untar(await archive(), folder);
  expect(readFileSync(join(folder, 'deep/down/text'), 'utf8')).toBe('x'.repeat(5000));
  expect(readdirSync(join(folder, 'lib'))).toEqual(['tool']);
  if (process.platform !== 'win32') {
    expect(statSync(join(folder, 'lib/tool')).mode & 0o777).toBe(0o755);
  }
});

it('an archive that is cut short, or is none, is refused', async () => {
  const whole = await archive();
  await expect(untar(whole.subarray(0, 2100), scratchFolder())).rejects.toThrow('end of data');
  await expect(untar(Buffer.alloc(4096, 'noise'), scratchFolder())).rejects.toThrow('tar header');
});
