/** The part: what an edit of a ply recomputes, and a million-face mesh in both kinds of STL. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildSchema } from '../../app/document/schema.ts';
import { zoneDetails, weightStatement } from '../../app/part/detail.ts';
import { partChecks } from '../../app/part/checks.ts';
import { lighterOptions } from '../../app/part/lighter.ts';
import { measurePart } from '../../app/part/measure.ts';
import { measureMesh } from '../../app/part/mesh/measure.ts';
import { meshReader } from '../../app/part/mesh/read.ts';
import { panelCheck } from '../../app/part/panel.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import type { Suite } from './suite.ts';

export async function bench(suite: Suite): Promise<void> {
  const library = shippedLibrary();
  const sample = join(import.meta.dirname, '../../samples/low-water-canopy.build.json');
  const build = buildSchema.parse(JSON.parse(readFileSync(sample, 'utf8')));

  await suite.measure('part-edit', { runs: 200, warmUp: 30, targetMs: 16 }, () => {
    const part = measurePart(build, library);
    part.kitFor(4, 20);
    zoneDetails(build, library);
    weightStatement(build, part, library);
    partChecks(build, library);
  });
  await suite.measure('part-panels', { runs: 100, warmUp: 10 }, () => {
    for (const zone of build.part.zones) panelCheck(zone, build, library);
  });
  await suite.measure('part-lighter', { runs: 30 }, () => {
    lighterOptions(build, library, 4, 20);
  });

  if (suite.wanted('part-mesh-binary')) {
    const binary = sphere();
    await suite.measure('part-mesh-binary', { runs: 7, warmUp: 1, targetMs: 2000 }, () =>
      readInPieces('sphere.stl', [binary]),
    );
  }
  if (suite.wanted('part-mesh-text')) {
    const text = asText(sphere());
    await suite.measure('part-mesh-text', { runs: 3, warmUp: 0, targetMs: 15_000 }, () =>
      readInPieces('sphere.stl', text),
    );
  }
}

function readInPieces(name: string, chunks: readonly Uint8Array[]): void {
  const reader = meshReader(
    name,
    chunks.reduce((sum, chunk) => sum + chunk.length, 0),
  );
  for (const chunk of chunks) reader.push(chunk);
  const mesh = measureMesh(reader.finish());
  if (!mesh.closed || !mesh.sound || mesh.faces < 1_000_000) throw new Error('not the sphere');
}

const STEPS = 708;
const HEADER = 84;
const FACE = 50;

/** A sphere of 500 mm by latitude and longitude, 1,001,112 faces, as binary STL. */
function sphere(): Uint8Array {
  const faces = 2 * STEPS * (STEPS - 1);
  const view = new DataView(new ArrayBuffer(HEADER + FACE * faces));
  view.setUint32(80, faces, true);
  let at = HEADER;
  const put = (...corners: readonly (readonly [number, number])[]): void => {
    corners.forEach(([i, j], k) => {
      const down = (Math.PI * i) / STEPS;
      const around = (2 * Math.PI * (j % STEPS)) / STEPS;
      const out = i === 0 || i === STEPS ? 0 : Math.sin(down);
      const from = at + 12 + 12 * k;
      view.setFloat32(from, 500 * out * Math.cos(around), true);
      view.setFloat32(from + 4, 500 * out * Math.sin(around), true);
      view.setFloat32(from + 8, 500 * Math.cos(down), true);
    });
    at += FACE;
  };
  for (let i = 0; i < STEPS; i++) {
    for (let j = 0; j < STEPS; j++) {
      if (i > 0) put([i, j], [i + 1, j + 1], [i, j + 1]);
      if (i < STEPS - 1) put([i, j], [i + 1, j], [i + 1, j + 1]);
    }
  }
  return new Uint8Array(view.buffer);
}

/** The same faces as text, in pieces of a few hundred kilobytes. */
function asText(binary: Uint8Array): Uint8Array[] {
  const view = new DataView(binary.buffer);
  const encoder = new TextEncoder();
  const chunks = [encoder.encode('solid sphere\n')];
  let lines = '';
  for (let at = HEADER; at < binary.length; at += FACE) {
    lines += 'facet normal 0 0 0\n outer loop\n';
    for (let corner = at + 12; corner < at + 48; corner += 12) {
      const axis = (offset: number): number => view.getFloat32(corner + offset, true);
      lines += `  vertex ${axis(0)} ${axis(4)} ${axis(8)}\n`;
    }
    lines += ' endloop\nendfacet\n';
    if (lines.length > 300_000) {
      chunks.push(encoder.encode(lines));
      lines = '';
    }
  }
  chunks.push(encoder.encode(`${lines}endsolid sphere\n`));
  return chunks;
}
