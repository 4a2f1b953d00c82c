/** OBJ: `v x y z`, then `f a b c ...` by number, from 1, or counted back from the last with a minus. */
import { LineFeed, LineReader } from './lines.ts';
import type { MeshReader } from './stl.ts';
import { MeshFault, Welder, type Mesh } from './weld.ts';

/** Reader of the surface in an OBJ file; polygons are cut into triangles, all else is ignored. */
export function objReader(): MeshReader {
  return new Obj();
}

/** Lower-case letters. */
const [F, V] = [102, 118];
const FIRST_ROOM = 4096;

class Obj implements MeshReader {
  readonly #welder = new Welder();
  readonly #reader = new LineReader();
  readonly #feed = new LineFeed((bytes, from, to) => this.#line(bytes, from, to));
  /** Welded number of every vertex of the file. */
  #welded = new Uint32Array(FIRST_ROOM);
  #vertexCount = 0;
  readonly #corners: number[] = [];

  push(chunk: Uint8Array): void {
    this.#feed.push(chunk);
  }

  #line(bytes: Uint8Array, from: number, to: number): void {
    const reader = this.#reader;
    reader.start(bytes, from, to);
    if (reader.done) return;
    const letter = reader.byte;
    if (letter === V && reader.word('v')) this.#vertex();
    else if (letter === F && reader.word('f')) this.#face();
    else if (letter < 32 || letter > 126) {
      throw new MeshFault('not-a-mesh', `Line ${this.#feed.number} is no line of an OBJ file.`);
    }
  }

  #vertex(): void {
    const reader = this.#reader;
    const [x, y, z] = reader.point(this.#welder);
    if (Number.isNaN(x + y + z)) {
      throw new MeshFault('bad-number', `Line ${this.#feed.number}: a vertex needs three numbers.`);
    }
    if (this.#vertexCount === this.#welded.length) {
      const larger = new Uint32Array(this.#welded.length * 2);
      larger.set(this.#welded);
      this.#welded = larger;
    }
    this.#welded[this.#vertexCount++] = this.#welder.vertex(x, y, z);
  }

  #face(): void {
    const reader = this.#reader;
    const corners = this.#corners;
    corners.length = 0;
    while (!reader.done) {
      const number = reader.integer();
      // A corner may carry numbers of texture and normal behind slashes.
      while (!reader.done && reader.byte > 32) {
        if (!isPartOfCorner(reader.byte)) throw this.#badFace();
        reader.next();
      }
      reader.skipSpace();
      const index = number < 0 ? this.#vertexCount + number : number - 1;
      if (!(index >= 0 && index < this.#vertexCount)) throw this.#badFace();
      corners.push(this.#welded[index]!);
    }
    if (corners.length < 3) throw this.#badFace();
    if (!this.#welder.polygon(corners)) {
      throw new MeshFault(
        'bad-face',
        `Line ${this.#feed.number}: a face of ${corners.length} corners crosses itself, has no area or has too many corners. Cut the faces into triangles and export again.`,
      );
    }
  }

  #badFace(): MeshFault {
    return new MeshFault(
      'bad-face',
      `Line ${this.#feed.number}: a face needs three or more vertices that came before it.`,
    );
  }

  finish(): Mesh {
    this.#feed.finish();
    if (this.#vertexCount === 0) throw new MeshFault('not-a-mesh', 'The file holds no vertex.');
    return this.#welder.mesh();
  }
}

/** Slash, minus or digit. */
const isPartOfCorner = (byte: number): boolean =>
  byte === 47 || byte === 45 || (byte >= 48 && byte <= 57);
