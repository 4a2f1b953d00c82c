/** The headless command's PDF: made without a screen, and the same bytes every time. */
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFolder, NOW, sample, startCommand } from '../unit/command/command.ts';

async function pdfUnder(zone: string): Promise<Buffer> {
  const { value } = await inFolder(async (cwd) => {
    const args = [sample('wren-sound-shell'), '--now', NOW, '--pdf', 'sheets.pdf'];
    const { status, stderr } = await startCommand('plan', args, { cwd, zone });
    expect(stderr).toBe('');
    expect([0, 1]).toContain(status);
    return readFile(join(cwd, 'sheets.pdf'));
  });
  return value;
}

describe('--pdf', () => {
  it('prints sheets that hold nothing of the clock or the machine', async () => {
    const [first, second] = [await pdfUnder('UTC'), await pdfUnder('Pacific/Kiritimati')];
    const text = first.toString('latin1');
    expect(text.startsWith('%PDF-')).toBe(true);
    expect(text).toContain('/CreationDate (D:20270412060000');
    expect(text.match(/\/Type \/Page\b/g)!.length).toBeGreaterThan(3);
    const hash = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');
    expect(hash(second)).toBe(hash(first));
  });
});
