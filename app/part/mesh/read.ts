/** Tells the mesh formats apart and reads a file that comes in pieces. */
import { objReader } from './obj.ts';
import {
  declaredFaceCount,
  BINARY_FACE,
  BINARY_HEADER,
  binaryStlReader,
  textStlReader,
  type MeshReader,
} from './stl.ts';
import { MeshFault, type Mesh } from './weld.ts';

/** Bytes that are looked at before a reader is chosen. */
const HEAD = 1024;

/**
 * Reader for an STL or OBJ file. STL is recognised by its bytes, since both of its kinds may begin with
 * `solid`; OBJ by its name.
 * @param name file name
 * @param byteLength size of the whole file
 */
export function meshReader(name: string, byteLength: number): MeshReader {
  let head: Uint8Array = new Uint8Array(0);
  let reader: MeshReader | null = null;
  const enough = Math.min(HEAD, byteLength);
  const choose = (): MeshReader => {
    const chosen = readerFor(name, head, byteLength);
    chosen.push(head);
    return chosen;
  };
  return {
    push(chunk) {
      if (reader) {
        reader.push(chunk);
        return;
      }
      const joined = new Uint8Array(head.length + chunk.length);
      joined.set(head);
      joined.set(chunk, head.length);
      head = joined;
      if (head.length >= enough) reader = choose();
    },
    finish() {
      reader ??= choose();
      return reader.finish();
    },
  };
}

/**
 * Reads a file that is in memory already; the mesh is in the unit of the file.
 * @param name file name, by whose ending OBJ is recognised
 * @throws MeshFault when the bytes are no mesh, or only part of one
 */
export function readMesh(name: string, bytes: Uint8Array): Mesh {
  const reader = meshReader(name, bytes.length);
  reader.push(bytes);
  return reader.finish();
}

function readerFor(name: string, head: Uint8Array, byteLength: number): MeshReader {
  if (byteLength === 0) throw new MeshFault('empty', 'The file is empty.');
  if (/\.obj$/i.test(name)) return objReader();
  const text = looksLikeText(head);
  const binary =
    head.length >= BINARY_HEADER &&
    byteLength === BINARY_HEADER + declaredFaceCount(head) * BINARY_FACE;
  if (binary) return binaryStlReader(head, byteLength);
  if (text && /^\s*solid/i.test(ascii(head))) return textStlReader();
  if (text || head.length < BINARY_HEADER) {
    throw new MeshFault('not-a-mesh', 'The file is neither STL nor OBJ.');
  }
  return binaryStlReader(head, byteLength);
}

/** No control bytes but those of lines and tabs. */
function looksLikeText(head: Uint8Array): boolean {
  return head.every((byte) => byte >= 32 || (byte >= 9 && byte <= 13));
}

const ascii = (bytes: Uint8Array): string => String.fromCharCode(...bytes.subarray(0, 64));
