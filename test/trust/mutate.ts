/** Bytes of a file with a few things wrong. */
import type { Random } from '../../app/schedule/random.ts';

/** What breaks readers: ends of ranges, other types, steering characters, half of a pair. */
const ODD = [
  ...['0', '-1', '1e308', '-1e308', '1e-308', '99999999999', 'null', '""', '[]', '{}', 'true'],
  ...[
    '"\\u0000"',
    '"\\ud800"',
    '__proto__',
    '"constructor"',
    '\u202e',
    '\u0000',
    '\r',
    ',',
    '"',
    ']',
  ],
  ...['NaN', 'Infinity', '2027-02-30', '9999-12-31', '0000-01-01', '1827-04-19T08:00Z', '=1+1'],
];
const NUMBER = /-?\d+(?:\.\d+)?/g;

type Change = (bytes: Buffer, random: Random) => Buffer;

const spliced = (bytes: Buffer, at: number, length: number, put: Buffer): Buffer =>
  Buffer.concat([bytes.subarray(0, at), put, bytes.subarray(at + length)]);
const oddOne = (random: Random): Buffer => Buffer.from(ODD[random.below(ODD.length)]!);

const CHANGES: readonly Change[] = [
  // A number becomes another one, or something else.
  (bytes, random) => {
    const numbers = [...bytes.toString('latin1').matchAll(NUMBER)];
    const found = numbers[random.below(Math.max(1, numbers.length))];
    return found ? spliced(bytes, found.index, found[0].length, oddOne(random)) : bytes;
  },
  // A number becomes a likelier one, which a reader lets pass more often.
  (bytes, random) => {
    const numbers = [...bytes.toString('latin1').matchAll(NUMBER)];
    const found = numbers[random.below(Math.max(1, numbers.length))];
    if (!found) return bytes;
    const factor = [0, 0.5, 0.99, 1.5, 2, 10][random.below(6)]!;
    const next = Buffer.from(String(Number((Number(found[0]) * factor).toPrecision(6))));
    return spliced(bytes, found.index, found[0].length, next);
  },
  // A byte is another one.
  (bytes, random) => {
    const copy = Buffer.from(bytes);
    if (copy.length > 0) copy[random.below(copy.length)] = random.below(256);
    return copy;
  },
  // Something is put in, left out, or there twice.
  (bytes, random) => spliced(bytes, random.below(bytes.length + 1), 0, oddOne(random)),
  (bytes, random) =>
    spliced(bytes, random.below(bytes.length + 1), random.below(60), Buffer.alloc(0)),
  (bytes, random) => {
    const at = random.below(bytes.length + 1);
    return spliced(bytes, at, 0, bytes.subarray(at, at + random.below(400)));
  },
  // The end is missing.
  (bytes, random) => bytes.subarray(0, random.below(bytes.length + 1)),
];

/** One to three changes; half of the files have numbers alone that are others. */
export function mutated(bytes: Buffer, random: Random): Buffer {
  let next = bytes;
  const gentle = random.below(2) === 0;
  for (let changes = 1 + random.below(3); changes > 0; changes -= 1) {
    const kind = gentle ? 1 : random.below(CHANGES.length);
    next = CHANGES[kind]!(next, random);
  }
  return next;
}
