/** Entry of the bundled host: serves the planner until it is told to stop. */
import { dataFolder } from '../data-folder.ts';
import { readOptions, USAGE } from '../options.ts';
import { StoreUnavailable } from '../store/errors.ts';
import { startHost } from './start.ts';

const say = (line: string): void => void process.stdout.write(`${line}\n`);
const writeErrors = (line: string): void => void process.stderr.write(`${line}\n`);

// Who started the host may stop listening, as `| head -1` does: the planner goes on.
process.stdout.on('error', () => {});
process.stderr.on('error', () => {});

async function run(): Promise<void> {
  const read = readOptions(process.argv.slice(2));
  if (!read.ok) {
    writeErrors(`${read.fault}\n${USAGE}`);
    process.exitCode = 2;
    return;
  }
  const { now, port, dataDir } = read.options;
  try {
    const host = await startHost({
      dataDir: dataFolder(dataDir),
      now,
      port,
      openBrowser: true,
      ended: () => {
        say('No page has called for 12 hours: the planner ends. Everything is saved.');
        stop();
      },
    });
    const stop = (): void => {
      void host.close().finally(() => process.exit(0));
    };
    // Before the address is told: whoever reads it may end the host at once.
    // SIGHUP: its terminal was closed.
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.once(signal, stop);
    if (host.notice) say(host.notice);
    say(`The planner is at ${host.url}`);
    say('Ctrl-C ends it; everything is saved as it is done.');
  } catch (error) {
    writeErrors(plain(error, port));
    process.exitCode = 1;
  }
}

function plain(error: unknown, port: number): string {
  if (error instanceof StoreUnavailable) return error.message;
  const code = error instanceof Error && 'code' in error ? error.code : '';
  if (code === 'EADDRINUSE') return `Port ${port} is taken: name another with --port, or none.`;
  if (code === 'EACCES') return `Port ${port} may not be used: name another with --port, or none.`;
  return `The planner could not be started: ${error instanceof Error ? error.message : error}`;
}

await run();
