/** The Web Worker that reads and measures one mesh file, off the screen's thread. */
import { measureMesh, type MeshMeasure } from '../../app/part/mesh/measure.ts';
import { meshReader } from '../../app/part/mesh/read.ts';
import { MeshFault } from '../../app/part/mesh/weld.ts';

export type MeshMessage =
  | { readonly kind: 'read'; readonly share: number }
  | { readonly kind: 'measured'; readonly measure: MeshMeasure }
  | { readonly kind: 'fault'; readonly why: string };

const tell = (message: MeshMessage): void => self.postMessage(message);

self.onmessage = ({ data }: MessageEvent<File>) => void readFile(data);

async function readFile(file: File): Promise<void> {
  try {
    const reader = meshReader(file.name, file.size);
    let read = 0;
    let told = 0;
    for await (const chunk of file.stream()) {
      reader.push(chunk);
      read += chunk.length;
      if (read - told < file.size / 20) continue;
      told = read;
      tell({ kind: 'read', share: read / file.size });
    }
    tell({ kind: 'measured', measure: measureMesh(reader.finish()) });
  } catch (error) {
    const why =
      error instanceof MeshFault ? error.message : 'The file could not be read to its end.';
    tell({ kind: 'fault', why });
  }
}
