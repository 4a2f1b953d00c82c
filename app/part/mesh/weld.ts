/** Vertices and faces of a surface, joined where coordinates are equal to the bit. */
import { isTooFar } from './distance.ts';
import { cutFace, MOST_CORNERS } from './polygon.ts';

/** A triangle mesh in the units of its file. */
export interface Mesh {
  /** x, y, z of each vertex, less whole steps of 1024 where the drawing lies far from zero. */
  readonly vertices: Float32Array;
  /** Three vertex numbers of each face, in the order of the file. */
  readonly faces: Uint32Array;
  /** Faces left out because two of their corners are one point. */
  readonly collapsed: number;
  /** Faces of four or more corners that do not lie in one plane, and so have no one area. */
  readonly bent: number;
}

/** Most faces read: a larger mesh has to be simplified before it is measured. */
export const MOST_FACES = 10_000_000;

/** Why a mesh file is refused. */
export type MeshFaultCode =
  'empty' | 'truncated' | 'not-a-mesh' | 'bad-number' | 'bad-face' | 'too-many-faces' | 'far-away';

/** A file that is no mesh, or only part of one; the message is for the person who opened it. */
export class MeshFault extends Error {
  readonly code: MeshFaultCode;
  constructor(code: MeshFaultCode, message: string) {
    super(message);
    this.name = 'MeshFault';
    this.code = code;
  }
}

const FIRST_ROOM = 1 << 12;

/** Collects faces and welds their corners as they come. */
export class Welder {
  #vertices: Float32Array<ArrayBuffer>;
  #bits: Int32Array;
  #vertexCount = 0;
  /** Open addressing: vertex number + 1, 0 for a free place. */
  #table: Uint32Array;
  #faces: Uint32Array;
  #faceCount = 0;
  #collapsed = 0;
  #bent = 0;
  /** Near the first corner: what lies far from zero is rounded only after this is taken off. */
  #origin: [number, number, number] | null = null;
  /** Finest step in which coordinates are written, along each axis. */
  readonly #steps: [number, number, number] = [Infinity, Infinity, Infinity];
  readonly #point = new Float32Array(3);
  readonly #pointBits = new Int32Array(this.#point.buffer);

  /** @param faces how many are to be expected; more may come */
  constructor(faces = FIRST_ROOM) {
    const faceRoom = Math.max(FIRST_ROOM, faces);
    // A surface has about half as many vertices as faces; the table is to stay less than half full.
    const vertexRoom = 2 ** Math.ceil(Math.log2(faceRoom * 0.6));
    this.#vertices = new Float32Array(vertexRoom * 3);
    this.#bits = new Int32Array(this.#vertices.buffer);
    this.#table = new Uint32Array(vertexRoom * 2);
    this.#faces = new Uint32Array(faceRoom * 3);
  }

  get faceCount(): number {
    return this.#faceCount + this.#collapsed;
  }

  get vertexCount(): number {
    return this.#vertexCount;
  }

  /**
   * The number of the vertex at a point, new or known.
   * @throws MeshFault when a coordinate is not a finite number
   */
  vertex(x: number, y: number, z: number): number {
    const point = this.#point;
    if (!Number.isFinite(Math.fround(x) + Math.fround(y) + Math.fround(z))) {
      throw new MeshFault('bad-number', 'A corner has a coordinate that is not a finite number.');
    }
    this.#origin ??= [near(x), near(y), near(z)];
    const [ox, oy, oz] = this.#origin;
    // Adding zero turns -0 into 0, which is the same point with other bits.
    point[0] = x - ox + 0;
    point[1] = y - oy + 0;
    point[2] = z - oz + 0;
    const a = this.#pointBits[0]!;
    const b = this.#pointBits[1]!;
    const c = this.#pointBits[2]!;
    const table = this.#table;
    const bits = this.#bits;
    const mask = table.length - 1;
    let place = hash(a, b, c) & mask;
    for (;;) {
      const entry = table[place]!;
      if (entry === 0) break;
      const at = (entry - 1) * 3;
      if (bits[at] === a && bits[at + 1] === b && bits[at + 2] === c) return entry - 1;
      place = (place + 1) & mask;
    }
    return this.#add(place);
  }

  #add(place: number): number {
    const number = this.#vertexCount++;
    if (number * 3 === this.#vertices.length) this.#growVertices();
    this.#vertices.set(this.#point, number * 3);
    this.#table[place] = number + 1;
    if (this.#vertexCount * 2 > this.#table.length) this.#growTable();
    return number;
  }

  #growVertices(): void {
    const larger = new Float32Array(this.#vertices.length * 2);
    larger.set(this.#vertices);
    this.#vertices = larger;
    this.#bits = new Int32Array(larger.buffer);
  }

  #growTable(): void {
    const table = new Uint32Array(this.#table.length * 2);
    const mask = table.length - 1;
    const bits = this.#bits;
    for (let number = 0; number < this.#vertexCount; number++) {
      const at = number * 3;
      let place = hash(bits[at]!, bits[at + 1]!, bits[at + 2]!) & mask;
      while (table[place] !== 0) place = (place + 1) & mask;
      table[place] = number + 1;
    }
    this.#table = table;
  }

  /** @throws MeshFault beyond MOST_FACES */
  face(a: number, b: number, c: number): void {
    if (a === b || b === c || c === a) {
      this.#collapsed++;
      return;
    }
    const at = this.#faceCount * 3;
    if (at === this.#faces.length) {
      if (this.#faceCount >= MOST_FACES) throw tooManyFaces();
      const larger = new Uint32Array(this.#faces.length * 2);
      larger.set(this.#faces);
      this.#faces = larger;
    }
    this.#faces[at] = a;
    this.#faces[at + 1] = b;
    this.#faces[at + 2] = c;
    this.#faceCount++;
  }

  /** A coordinate of the next corner is written to this step along the axis. */
  step(axis: 0 | 1 | 2, size: number): void {
    if (size < this.#steps[axis]) this.#steps[axis] = size;
  }

  /**
   * A face of any number of corners, each a vertex number.
   * @returns false when it crosses itself, has no area or more corners than can be cut
   */
  polygon(corners: readonly number[]): boolean {
    if (corners.length === 3) {
      this.face(corners[0]!, corners[1]!, corners[2]!);
      return true;
    }
    if (corners.length > MOST_CORNERS) return false;
    const points = new Float64Array(corners.length * 3);
    corners.forEach((vertex, i) => {
      points.set(this.#vertices.subarray(vertex * 3, vertex * 3 + 3), i * 3);
    });
    const cut = cutFace(points, corners);
    if (!cut) return false;
    if (cut.bend > FLAT) this.#bent++;
    const { triangles } = cut;
    for (let i = 0; i < triangles.length; i += 3) {
      const [a, b, c] = [triangles[i]!, triangles[i + 1]!, triangles[i + 2]!];
      this.face(corners[a]!, corners[b]!, corners[c]!);
    }
    return true;
  }

  /** @throws MeshFault when nothing with an area came, or all of it too far away to be told apart */
  mesh(): Mesh {
    if (this.#faceCount === 0) {
      throw new MeshFault('empty', 'The file holds no face with an area.');
    }
    const mesh = {
      vertices: this.#vertices.subarray(0, this.#vertexCount * 3),
      faces: this.#faces.subarray(0, this.#faceCount * 3),
      collapsed: this.#collapsed,
      bent: this.#bent,
    };
    if (isTooFar(mesh, this.#origin!, this.#steps)) {
      throw new MeshFault(
        'far-away',
        'The drawing lies so far from its zero point that the file cannot tell its corners apart: ' +
          'move it to zero and export it again.',
      );
    }
    return mesh;
  }
}

/** Whole steps below a coordinate that 32-bit numbers then hold to a ten-thousandth of a unit. */
const near = (value: number): number => Math.trunc(value / 1024) * 1024;

/** A face whose corners stray from its plane by less than this share of its size is flat. */
const FLAT = 0.01;

/** The fault of a mesh with more than MOST_FACES faces. */
export const tooManyFaces = (): MeshFault =>
  new MeshFault(
    'too-many-faces',
    `More than ${MOST_FACES / 1e6} million faces: thin the mesh first.`,
  );

/** Mixes the bits of three coordinates. */
function hash(a: number, b: number, c: number): number {
  let h = Math.imul(a, 0x9e3779b1) ^ Math.imul(b, 0x85ebca6b) ^ Math.imul(c, 0xc2b2ae35);
  h ^= h >>> 15;
  h = Math.imul(h, 0x2c1b3c6d);
  return (h ^ (h >>> 13)) >>> 0;
}
