/** The Web Worker that reads and measures one mesh file, off the screen's thread. */
import { measureMesh, type MeshMeasure } from '../../app/part/mesh/measure.ts';
import { meshReader } from '../../app/part/mesh/read.ts';
import { MeshFault } from '../../app/part/mesh/weld.ts';
import { readPieces, type FileMessage } from './file.ts';
import { FILE_FAULTS } from '../words/news.ts';

const tell = (message: FileMessage<MeshMeasure>): void => self.postMessage(message);

self.onmessage = ({ data }: MessageEvent<File>) => void readMesh(data);

async function readMesh(file: File): Promise<void> {
  try {
    const reader = meshReader(file.name, file.size);
    await readPieces(file, (piece) => reader.push(piece), tell);
    tell({ kind: 'done', value: measureMesh(reader.finish()) });
  } catch (error) {
    tell({
      kind: 'fault',
      why: error instanceof MeshFault ? error.message : FILE_FAULTS.unreadable,
    });
  }
}
