/** STL, binary and text: three corners a face, no units, no joined vertices. */
import { LineFeed, LineReader } from './lines.ts';
import { MeshFault, tooManyFaces, Welder, MOST_FACES, type Mesh } from './weld.ts';

/** Takes the bytes of one file in order and in any pieces. */
export interface MeshReader {
  /** @throws MeshFault */
  push(chunk: Uint8Array): void;
  /** @throws MeshFault when the file ended too early or held nothing */
  finish(): Mesh;
}

export const BINARY_HEADER = 84;
export const BINARY_FACE = 50;

/** Faces that a binary header announces. `head` holds at least 84 bytes. */
export const declaredFaceCount = (head: Uint8Array): number =>
  new DataView(head.buffer, head.byteOffset, head.byteLength).getUint32(80, true);

/**
 * Reader of binary STL: 80 bytes of anything, the number of faces, 50 bytes a face (normal, three
 * corners, two bytes of anything), little endian.
 * @param byteLength size of the whole file
 * @throws MeshFault when the size contradicts the header
 */
export function binaryStlReader(head: Uint8Array, byteLength: number): MeshReader {
  const faces = declaredFaceCount(head);
  const wanted = BINARY_HEADER + faces * BINARY_FACE;
  if (faces > MOST_FACES && byteLength >= wanted) throw tooManyFaces();
  if (byteLength < wanted) {
    const held = Math.max(0, Math.floor((byteLength - BINARY_HEADER) / BINARY_FACE));
    throw new MeshFault(
      'truncated',
      `The header announces ${faces} faces, the file has room for ${held}: it is cut short, or no mesh.`,
    );
  }
  if (byteLength > wanted) {
    throw new MeshFault(
      'not-a-mesh',
      `The header announces ${faces} faces, ${wanted} bytes; the file has ${byteLength}.`,
    );
  }
  return new BinaryStl(faces);
}

class BinaryStl implements MeshReader {
  readonly #faces: number;
  readonly #welder: Welder;
  readonly #record = new Uint8Array(BINARY_FACE);
  readonly #recordView = new DataView(this.#record.buffer);
  #toSkip = BINARY_HEADER;
  #held = 0;

  constructor(faces: number) {
    this.#faces = faces;
    this.#welder = new Welder(faces);
  }

  push(chunk: Uint8Array): void {
    let at = Math.min(this.#toSkip, chunk.length);
    this.#toSkip -= at;
    if (this.#held > 0) {
      const missing = Math.min(BINARY_FACE - this.#held, chunk.length - at);
      this.#record.set(chunk.subarray(at, at + missing), this.#held);
      this.#held += missing;
      at += missing;
      if (this.#held < BINARY_FACE) return;
      this.#face(this.#recordView, 0);
      this.#held = 0;
    }
    const view = new DataView(chunk.buffer, chunk.byteOffset, chunk.byteLength);
    for (; at + BINARY_FACE <= chunk.length; at += BINARY_FACE) this.#face(view, at);
    if (at < chunk.length) {
      this.#record.set(chunk.subarray(at));
      this.#held = chunk.length - at;
    }
  }

  #face(view: DataView, from: number): void {
    const corner = (at: number): number =>
      this.#welder.vertex(
        view.getFloat32(at, true),
        view.getFloat32(at + 4, true),
        view.getFloat32(at + 8, true),
      );
    this.#welder.face(corner(from + 12), corner(from + 24), corner(from + 36));
  }

  finish(): Mesh {
    if (this.#welder.faceCount < this.#faces) {
      const { faceCount } = this.#welder;
      throw new MeshFault('truncated', `${this.#faces} faces were announced, ${faceCount} came.`);
    }
    return this.#welder.mesh();
  }
}

/** Reader of text STL: solid, facet normal, outer loop, three times vertex, endloop, endfacet, endsolid. */
export function textStlReader(): MeshReader {
  return new TextStl();
}

/** Lower-case letters. */
const [E, F, O, S, V] = [101, 102, 111, 115, 118];

class TextStl implements MeshReader {
  readonly #welder = new Welder();
  readonly #reader = new LineReader();
  readonly #feed = new LineFeed((bytes, from, to) => this.#line(bytes, from, to));
  readonly #corners = [0, 0, 0];
  #cornerCount = 0;
  #inFacet = false;
  #ended = false;

  push(chunk: Uint8Array): void {
    this.#feed.push(chunk);
  }

  #line(bytes: Uint8Array, from: number, to: number): void {
    const reader = this.#reader;
    reader.start(bytes, from, to);
    if (reader.done) return;
    const letter = reader.byte | 32;
    if (letter === V && reader.word('vertex')) this.#vertex();
    else if (letter === F && reader.word('facet')) this.#openFacet();
    else if (letter === O && reader.word('outer')) return;
    else if (letter === E) this.#end(bytes, from, to);
    else if (letter === S && reader.word('solid')) this.#ended = false;
    else throw this.#unread();
  }

  #vertex(): void {
    const reader = this.#reader;
    const [x, y, z] = reader.point(this.#welder);
    if (Number.isNaN(x + y + z)) {
      throw new MeshFault('bad-number', `Line ${this.#feed.number}: a vertex needs three numbers.`);
    }
    if (!this.#inFacet || this.#cornerCount === 3) throw this.#badFace();
    this.#corners[this.#cornerCount++] = this.#welder.vertex(x, y, z);
  }

  #openFacet(): void {
    if (this.#inFacet) throw this.#badFace();
    this.#inFacet = true;
    this.#cornerCount = 0;
  }

  #end(bytes: Uint8Array, from: number, to: number): void {
    const reader = this.#reader;
    if (reader.word('endloop')) return;
    reader.start(bytes, from, to);
    if (reader.word('endfacet')) {
      if (!this.#inFacet || this.#cornerCount !== 3) throw this.#badFace();
      this.#welder.face(this.#corners[0]!, this.#corners[1]!, this.#corners[2]!);
      this.#inFacet = false;
      return;
    }
    reader.start(bytes, from, to);
    if (!reader.word('endsolid')) throw this.#unread();
    this.#ended = true;
  }

  #badFace(): MeshFault {
    return new MeshFault(
      'bad-face',
      `Line ${this.#feed.number}: a face must have three corners between facet and endfacet.`,
    );
  }

  #unread(): MeshFault {
    return new MeshFault('not-a-mesh', `Line ${this.#feed.number} is no line of an STL file.`);
  }

  finish(): Mesh {
    this.#feed.finish();
    if (this.#inFacet || !this.#ended) {
      const { faceCount } = this.#welder;
      throw new MeshFault('truncated', `The file stops after ${faceCount} faces, before endsolid.`);
    }
    return this.#welder.mesh();
  }
}
