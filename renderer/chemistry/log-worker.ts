/** The Web Worker that reads one temperature log, off the screen's thread. */
import { logReader, type LogResult } from '../../app/cure/logger.ts';

export interface LogRequest {
  readonly file: File;
  /** Zone of times without an offset. */
  readonly zone: string;
  /** Rows of trade practice that the reader asks for, by id. */
  readonly practice: Readonly<Record<string, number>>;
}

export type LogMessage =
  | { readonly kind: 'read'; readonly share: number }
  | { readonly kind: 'done'; readonly log: LogResult }
  | { readonly kind: 'fault'; readonly why: string };

const tell = (message: LogMessage): void => self.postMessage(message);

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
    let read = 0;
    let told = 0;
    for await (const chunk of file.stream()) {
      reader.push(decoder.decode(chunk, { stream: true }));
      read += chunk.length;
      if (read - told < file.size / 20) continue;
      told = read;
      tell({ kind: 'read', share: read / file.size });
    }
    reader.push(decoder.decode());
    tell({ kind: 'done', log: reader.end() });
  } catch {
    tell({ kind: 'fault', why: 'The file could not be read to its end.' });
  }
}
