/**
 * Ids of builds: UUID version 7, layout of RFC 9562 section 5.7.
 * 48 bits of Unix milliseconds, 12 bits that count within a millisecond, 62 random bits.
 */
import { randomBytes } from 'node:crypto';

const SEQUENCE_SIZE = 4096;

/**
 * A source of ids that rise in the order they are made, also while the clock stands still or steps
 * back.
 * @param nowMs Unix milliseconds
 */
export function createIds(nowMs: () => number): () => string {
  let lastMs = -1;
  let sequence = 0;
  return () => {
    const ms = nowMs();
    if (ms > lastMs) {
      lastMs = ms;
      sequence = 0;
    } else if (sequence < SEQUENCE_SIZE - 1) {
      sequence += 1;
    } else {
      lastMs += 1;
      sequence = 0;
    }
    return uuid7(lastMs, sequence, randomBytes(8));
  };
}

function uuid7(ms: number, sequence: number, random: Buffer): string {
  const bytes = Buffer.alloc(16);
  bytes.writeUIntBE(ms, 0, 6);
  bytes.writeUInt16BE(0x7000 | sequence, 6);
  random.copy(bytes, 8);
  bytes.writeUInt8((bytes.readUInt8(8) & 0x3f) | 0x80, 8);
  const hex = bytes.toString('hex');
  return [
    hex.slice(0, 8),
    hex.slice(8, 12),
    hex.slice(12, 16),
    hex.slice(16, 20),
    hex.slice(20),
  ].join('-');
}
