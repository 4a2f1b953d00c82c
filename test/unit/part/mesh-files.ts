/** Writes triangles as mesh files, for tests. */

export type Corner = readonly [number, number, number];
export type Triangle = readonly [Corner, Corner, Corner];

export function binaryStl(triangles: readonly Triangle[], header = ''): Uint8Array {
  const bytes = new Uint8Array(84 + 50 * triangles.length);
  new TextEncoder().encodeInto(header, bytes);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, triangles.length, true);
  triangles.forEach((triangle, i) =>
    triangle.flat().forEach((value, k) => view.setFloat32(84 + 50 * i + 12 + 4 * k, value, true)),
  );
  return bytes;
}

export function textStl(triangles: readonly Triangle[]): Uint8Array {
  const facets = triangles.map(
    (corners) =>
      `facet normal 0 0 0\nouter loop\n${corners
        .map((corner) => `vertex ${corner.map((v) => Math.fround(v).toExponential(9)).join(' ')}\n`)
        .join('')}endloop\nendfacet\n`,
  );
  return new TextEncoder().encode(`solid test\n${facets.join('')}endsolid test\n`);
}

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
