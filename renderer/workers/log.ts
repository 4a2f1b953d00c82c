/** The Web Worker that reads one temperature log, off the screen's thread. */
import { logReader, type LogResult } from '../../app/cure/logger.ts';
import { readPieces, type FileMessage } from './file.ts';
import { FILE_FAULTS } from '../words/news.ts';

export interface LogRequest {
  readonly file: File;
  /** Zone of times without an offset. */
  readonly zone: string;
  /** Rows of trade practice that the reader asks for, by id. */
  readonly practice: Readonly<Record<string, number>>;
}

const tell = (message: FileMessage<LogResult>): void => self.postMessage(message);

self.onmessage = ({ data }: MessageEvent<LogRequest>) => void readLog(data);

async function readLog({ file, zone, practice }: LogRequest): Promise<void> {
  try {
    const lookup = (id: string): number => {
      const value = practice[id];
      if (value === undefined) throw new Error(`practice has no row ${id}`);
      return value;
    };
    const reader = logReader({ zone, practice: lookup });
    // The mark at the head of the file is for the reader to report.
    const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
    await readPieces(file, (piece) => reader.push(decoder.decode(piece, { stream: true })), tell);
    reader.push(decoder.decode());
    tell({ kind: 'done', value: reader.end() });
  } catch {
    tell({ kind: 'fault', why: FILE_FAULTS.unreadable });
  }
}
