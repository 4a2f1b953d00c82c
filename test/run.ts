/**
 * `npm test`: everything that can be checked, in one go. Every step runs even when an earlier one
 * failed, so that one run shows all there is to mend; the exit status is the first failing step's.
 * `--no-browser` leaves the end-to-end tests out. The last line is `N passed, N failed`.
 */
import { spawn } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { projectRoot } from '../main/root.ts';

interface Outcome {
  readonly name: string;
  readonly status: number;
}
interface Counts {
  passed: number;
  failed: number;
}

const root = projectRoot();
const onWindows = process.platform === 'win32';

/** Runs an npm script; its output is shown at its end, in one piece, or as it comes. */
async function npmRun(name: string, args: readonly string[], live: boolean): Promise<Outcome> {
  const began = performance.now();
  const child = spawn('npm', ['run', '--silent', name, '--', ...args], {
    cwd: root,
    shell: onWindows,
    stdio: live ? ['ignore', 'inherit', 'inherit'] : ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  const keep = (chunk: Buffer): void => void (output += chunk.toString());
  child.stdout?.on('data', keep);
  child.stderr?.on('data', keep);
  const status = await new Promise<number>((resolve) => {
    child.on('error', (error) => {
      output += error.message;
      resolve(127);
    });
    child.on('close', (code) => resolve(code ?? 1));
  });
  const seconds = ((performance.now() - began) / 1000).toFixed(0);
  const title = [name, ...args.slice(0, 1)].join(' ');
  console.log(`${status === 0 ? 'ok' : 'FAILED'}  ${title}  ${seconds} s`);
  if (status !== 0 && output.trim() !== '') console.log(output.trimEnd());
  return { name: title, status };
}

/** Steps that look at the sources or make out/; two at a time. */
async function staticSteps(): Promise<Outcome[]> {
  const lane = async (names: readonly string[]): Promise<Outcome[]> => {
    const outcomes: Outcome[] = [];
    for (const name of names) outcomes.push(await npmRun(name, [], false));
    return outcomes;
  };
  const lanes = await Promise.all([lane(['format:check', 'lint', 'build']), lane(['typecheck'])]);
  return lanes.flat();
}

async function testProject(name: string, folder: string, counts: Counts): Promise<Outcome> {
  const file = join(folder, `${name}.json`);
  const args = [name, '--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const outcome = await npmRun('test:project', args, true);
  const report = await readFile(file, 'utf8').catch(() => null);
  if (report === null) counts.failed += 1;
  else count(JSON.parse(report) as Report, counts);
  return outcome;
}

interface Report {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly testResults: readonly {
    readonly status: string;
    readonly assertionResults: readonly { readonly status: string }[];
  }[];
}

/** A file that fails as a whole, before its tests, counts as one failure. */
function count(report: Report, counts: Counts): void {
  const broken = report.testResults.filter(
    ({ status, assertionResults }) =>
      status === 'failed' && !assertionResults.some((test) => test.status === 'failed'),
  );
  counts.passed += report.numPassedTests;
  counts.failed += report.numFailedTests + broken.length;
}

async function run(): Promise<number> {
  const withBrowser = !process.argv.includes('--no-browser');
  const counts: Counts = { passed: 0, failed: 0 };
  const folder = await mkdtemp(join(tmpdir(), 'backcure-tests-'));
  try {
    const outcomes = await staticSteps();
    const projects = ['unit', 'stand-ins', 'component', ...(withBrowser ? ['e2e'] : [])];
    for (const name of projects) outcomes.push(await testProject(name, folder, counts));
    const failing = outcomes.filter(({ status }) => status !== 0);
    for (const { name, status } of failing) console.log(`failed: ${name} (status ${status})`);
    console.log(`${counts.passed} passed, ${counts.failed} failed`);
    return failing[0]?.status ?? 0;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

process.exitCode = await run();
