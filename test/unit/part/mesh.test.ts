import { describe, expect, it } from 'vitest';
import { measureMesh } from '../../../app/part/mesh/measure.ts';
import { meshReader, readMesh } from '../../../app/part/mesh/read.ts';
import { meshRemarks } from '../../../app/part/mesh/remarks.ts';
import { inUnit, unitGuesses } from '../../../app/part/mesh/units.ts';
import { MeshFault, type MeshFaultCode } from '../../../app/part/mesh/weld.ts';
import { binaryStl, bytesOf, textStl, type Triangle } from './mesh-files.ts';

/** Two triangles that make a unit square. */
const square: Triangle[] = [
  [
    [0, 0, 0],
    [1, 0, 0],
    [1, 1, 0],
  ],
  [
    [0, 0, 0],
    [1, 1, 0],
    [0, 1, 0],
  ],
];

function refused(name: string, bytes: Uint8Array): { code: MeshFaultCode; message: string } {
  try {
    readMesh(name, bytes);
  } catch (error) {
    if (error instanceof MeshFault) return { code: error.code, message: error.message };
    throw error;
  }
  throw new Error('was read');
}

describe('a surface', () => {
  it('joins corners that are equal, and finds its rim', () => {
    const mesh = measureMesh(readMesh('square.stl', binaryStl(square)));
    expect(mesh).toMatchObject({
      faces: 2,
      vertices: 4,
      area: 1,
      edge: 4,
      closed: false,
      sound: true,
    });
    expect(mesh.rims).toEqual([{ length: 4, edges: 4 }]);
  });

  it('reads -0 as 0', () => {
    const [first, second] = square as [Triangle, Triangle];
    const signed: Triangle = [[-0, -0, -0], second[1], second[2]];
    expect(measureMesh(readMesh('s.stl', binaryStl([first, signed]))).vertices).toBe(4);
  });

  it('comes out the same in whatever pieces the file arrives', () => {
    const binary = binaryStl(square, 'solid but binary all the same');
    const text = textStl(square);
    for (const bytes of [binary, text]) {
      const whole = measureMesh(readMesh('s.stl', bytes));
      for (const size of [1, 7, 49, 50, 51, 200]) {
        const reader = meshReader('s.stl', bytes.length);
        for (let at = 0; at < bytes.length; at += size) reader.push(bytes.subarray(at, at + size));
        expect(measureMesh(reader.finish())).toEqual(whole);
      }
    }
  });

  it('leaves collapsed faces out and counts them', () => {
    const needle: Triangle = [square[0]![0], square[0]![0], square[0]![1]];
    const mesh = measureMesh(readMesh('s.stl', binaryStl([...square, needle])));
    expect(mesh).toMatchObject({ faces: 2, collapsedFaces: 1, area: 1, sound: true });
  });

  it('shows faces turned the wrong way and edges with three faces', () => {
    const [first, second] = square as [Triangle, Triangle];
    const turned: Triangle = [second[0], second[2], second[1]];
    expect(measureMesh(readMesh('s.stl', binaryStl([first, turned])))).toMatchObject({
      turnedEdges: 1,
      sound: false,
    });
    const fin: Triangle = [
      [0, 0, 0],
      [1, 1, 0],
      [0, 0, 1],
    ];
    expect(measureMesh(readMesh('s.stl', binaryStl([...square, fin])))).toMatchObject({
      overfullEdges: 1,
      sound: false,
    });
  });

  it('gives no volume for an open or muddled one', () => {
    expect(measureMesh(readMesh('s.stl', binaryStl(square))).volume).toBeNull();
  });
});

describe('the shape of a surface', () => {
  /** A patch of a torus: radius round the axis, radius of the tube, turned and tilted. */
  const patch = (turn: number, ring: number, tube: number, arc: number, bend: number) => {
    const at = (i: number, j: number): [number, number, number] => {
      const [u, v] = [(arc * i) / 20, (bend * j) / 20];
      const out = ring + tube * Math.cos(v);
      const [x, y, z] = [out * Math.cos(u), out * Math.sin(u), tube * Math.sin(v)];
      return [x * Math.cos(turn) + z * Math.sin(turn), y, z * Math.cos(turn) - x * Math.sin(turn)];
    };
    const list: Triangle[] = [];
    for (let i = 0; i < 20; i++) {
      for (let j = 0; j < 20; j++) {
        list.push([at(i, j), at(i + 1, j), at(i + 1, j + 1)]);
        list.push([at(i, j), at(i + 1, j + 1), at(i, j + 1)]);
      }
    }
    return measureMesh(readMesh('patch.stl', binaryStl(list)));
  };

  it.each([0, 0.4, 1.2])('is told whatever way it lies (%f rad)', (turn) => {
    // Nearly flat, bent about one axis, bent about both.
    expect(patch(turn, 1000, 1000, 0.05, 0.05).shape).toBe('flat');
    expect(patch(turn, 1000, 10, 1.2, 0.05).shape).toBe('single');
    expect(patch(turn, 1000, 800, 0.9, 0.9).shape).toBe('double');
  });
});

describe('remarks on a mesh', () => {
  const remarks = (triangles: readonly Triangle[]): string[] =>
    meshRemarks(measureMesh(readMesh('s.stl', binaryStl(triangles))));
  const [o, x, y, z] = [
    [0, 0, 0],
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ] as const;

  it('are none for a sound open surface', () => {
    expect(remarks(square)).toEqual([]);
  });

  it('name a solid, loose pieces, cracks and muddle', () => {
    const solid: Triangle[] = [
      [o, y, x],
      [o, x, z],
      [o, z, y],
      [x, y, z],
    ];
    expect(remarks(solid).join()).toMatch(/it is a solid/);
    const far = square.map((t) => t.map(([a, b, c]) => [a + 5, b, c])) as unknown as Triangle[];
    expect(remarks([...square, ...far])).toEqual([
      '2 pieces that do not touch: all of them are counted.',
      '2 separate free edges: holes and cracks count as edge. The longest is 50 % of it.',
    ]);
    expect(remarks([...square, [o, [1, 1, 0], z]]).join()).toMatch(
      /1 edge with more than two faces/,
    );
    expect(remarks([square[0]!, [o, [0, 1, 0], [1, 1, 0]]]).join()).toMatch(/opposite ways/);
    expect(remarks([...square, [o, o, x]]).join()).toMatch(/1 face without area was left out/);
  });
});

describe('OBJ', () => {
  it('reads polygons, slashes, counts from behind and passes over the rest', () => {
    const text = `# a square and a triangle
mtllib x.mtl
o thing
v 0 0 0
v 1 0 0 1.0
v 1 1 0
v 0 1 0
vt 0 0
vn 0 0 1
usemtl red
s off
f 1/1/1 2/1/1 3//1 4
v 0 2 0
f -2 -3 -1
`;
    const mesh = measureMesh(readMesh('thing.OBJ', bytesOf(text)));
    expect(mesh).toMatchObject({ faces: 3, vertices: 5, area: 1.5 });
    expect(mesh.edge).toBeCloseTo(4 + Math.SQRT2, 6);
  });

  it('reads numbers as people and programs write them', () => {
    const text = 'v 1e3 -2.5E-1 +.5\r\nv 0 0 0\r\nv 1 12345678901234567890 0\r\nf 1 2 3\r\n';
    const mesh = readMesh('n.obj', bytesOf(text));
    expect([...mesh.vertices.subarray(0, 3)]).toEqual([1000, -0.25, 0.5]);
    expect(mesh.vertices[7]).toBe(Math.fround(Number('12345678901234567890')));
  });
});

describe('a file that is no mesh, or half of one', () => {
  const binary = binaryStl(square);
  const text = new TextDecoder().decode(textStl(square));
  const cases: [string, string, Uint8Array, MeshFaultCode][] = [
    ['nothing', 'a.stl', new Uint8Array(0), 'empty'],
    ['binary cut short', 'a.stl', binary.subarray(0, 150), 'truncated'],
    ['a header alone', 'a.stl', binary.subarray(0, 84), 'truncated'],
    ['less than a header', 'a.stl', binary.subarray(0, 50), 'not-a-mesh'],
    ['binary with more behind it', 'a.stl', new Uint8Array([...binary, 1, 2, 3]), 'not-a-mesh'],
    ['text cut short', 'a.stl', bytesOf(text.slice(0, 220)), 'truncated'],
    ['text without its end', 'a.stl', bytesOf(text.replace(/endsolid.*/, '')), 'truncated'],
    [
      'text with a word for a number',
      'a.stl',
      bytesOf(text.replace('vertex 0', 'vertex x')),
      'bad-number',
    ],
    [
      'text with a number run into a word',
      'a.stl',
      bytesOf(text.replace('e+0', 'e+0mm')),
      'bad-number',
    ],
    [
      'text with an endless number',
      'a.stl',
      bytesOf(text.replace('1.000000000e+0', '1.0e+99')),
      'bad-number',
    ],
    [
      'a face of four corners',
      'a.stl',
      bytesOf(text.replace('endloop', 'vertex 0 0 0\nendloop')),
      'bad-face',
    ],
    ['a letter to the client', 'a.stl', bytesOf('Dear Ms Ferris,\n'.repeat(20)), 'not-a-mesh'],
    [
      'a letter that begins well',
      'a.stl',
      bytesOf('solid work, thank you\nregards\n'),
      'not-a-mesh',
    ],
    ['a solid of nothing', 'a.stl', bytesOf('solid x\nendsolid x\n'), 'empty'],
    ['OBJ of a letter', 'a.obj', bytesOf('Dear Ms Ferris,\n'), 'not-a-mesh'],
    ['OBJ with a vertex missing', 'a.obj', bytesOf('v 0 0 0\nv 1 0 0\nf 1 2 3\n'), 'bad-face'],
    ['OBJ with vertex 0', 'a.obj', bytesOf('v 0 0 0\nv 1 0 0\nv 1 1 0\nf 0 1 2\n'), 'bad-face'],
    ['OBJ with a face of two', 'a.obj', bytesOf('v 0 0 0\nv 1 0 0\nf 1 2\n'), 'bad-face'],
    ['OBJ with half a vertex', 'a.obj', bytesOf('v 0 0 0\nv 1 0'), 'bad-number'],
    ['OBJ of bytes', 'a.obj', binary, 'not-a-mesh'],
  ];

  it.each(cases)('%s', (_, name, bytes, code) => {
    const fault = refused(name, bytes);
    expect(fault.code).toBe(code);
    expect(fault.message).not.toMatch(/undefined|NaN|\[object/);
  });

  it('ten megabytes of noise', () => {
    const noise = new Uint8Array(10_000_000);
    let seed = 1;
    for (let i = 0; i < noise.length; i++) {
      seed = (Math.imul(seed, 1_103_515_245) + 12_345) >>> 0;
      noise[i] = seed >>> 16;
    }
    expect(['truncated', 'not-a-mesh']).toContain(refused('noise.stl', noise).code);
    expect(refused('noise.obj', noise).code).toBe('not-a-mesh');
  });

  it('binary whose numbers are not numbers', () => {
    const bytes = binaryStl(square);
    new DataView(bytes.buffer).setFloat32(84 + 12, NaN, true);
    expect(refused('a.stl', bytes).code).toBe('bad-number');
  });
});

describe('the unit of a mesh', () => {
  const sized = (side: number) =>
    measureMesh(
      readMesh(
        's.stl',
        binaryStl(square.map((t) => t.map((c) => c.map((v) => v * side)) as unknown as Triangle)),
      ),
    );

  it.each([
    [1400, null, 'mm'],
    [1.4, null, 'm'],
    [55, null, 'in'],
    [55, 1.95, 'in'],
    [140, 1.96, 'cm'],
    [4.6, 1.96, 'ft'],
  ] as const)('a side of %f with a typed area of %s m2 is read as %s first', (side, area, unit) => {
    expect(unitGuesses(sized(side), area)[0]!.unit).toBe(unit);
  });

  it('shows every unit with its size, and which sizes no shop builds', () => {
    const guesses = unitGuesses(sized(1400), null);
    expect(guesses.map((guess) => guess.unit).toSorted()).toEqual(['cm', 'ft', 'in', 'm', 'mm']);
    expect(guesses.find((guess) => guess.unit === 'm')!.plausible).toBe(false);
    expect(guesses.find((guess) => guess.unit === 'mm')!.plausible).toBe(true);
  });

  it('turns lengths, areas and volumes by their own power', () => {
    const metres = inUnit(sized(12), 'in');
    expect(metres.sizeM[0]).toBeCloseTo(0.3048, 9);
    expect(metres.areaM2).toBeCloseTo(0.3048 ** 2, 9);
    expect(metres.edgeM).toBeCloseTo(4 * 0.3048, 9);
  });
});
