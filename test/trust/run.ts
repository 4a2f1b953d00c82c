/**
 * `npm run bench -- crash|fuzz|soak|extremes [N]`: attacks the program, prints what came of it and writes it
 * into docs/trust.md. Without N the full run: 1,000 kills, 100,000 files, 50,000 edits, every range at its
 * ends and 300 drawn pairs of them. `extremes N MINUTES` begins no document after so many minutes.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { projectRoot } from '../../main/root.ts';
import { crash } from './crash.ts';
import { extremes, LIMITS } from './extremes/run.ts';
import { fuzz } from './fuzz.ts';
import { soak } from './soak.ts';

const FULL = { crash: 1000, fuzz: 100_000, soak: 50_000, extremes: 300 } as const;
type Attack = keyof typeof FULL;
/** What the engine may hold back of memory that it has used once; a leak of 10 kB an edit is 450 MB. */
const MAY_GROW_MB = 200;
const SEED = 20_271_128;

export const isAttack = (name: string | undefined): name is Attack =>
  name !== undefined && Object.hasOwn(FULL, name);

export async function main(argv: readonly string[]): Promise<void> {
  const name = argv[0] as Attack;
  const count = argv[1] === undefined ? FULL[name] : Number(argv[1]);
  if (!Number.isInteger(count) || count < 1) throw new Error(`found ${argv[1]}, expected a number`);
  const began = Date.now();
  const minutes = argv[2] === undefined ? Infinity : Number(argv[2]);
  if (!(minutes > 0)) throw new Error(`found ${argv[2]}, expected minutes`);
  const { line, sound } = await attack(name, count, minutes);
  const seconds = Math.round((Date.now() - began) / 1000);
  const day = new Date().toISOString().slice(0, 10);
  const whole = `${line} ${seconds} s, Node ${process.versions.node}, ${day}, sources of ${commit()}${count < FULL[name] ? `; a short run of ${count}, the full one is ${FULL[name]}` : ''}.`;
  console.log(whole);
  const path = join(projectRoot(), 'docs', 'trust.md');
  writeFileSync(path, withFigure(readFileSync(path, 'utf8'), name, whole));
  if (!sound) process.exitCode = 1;
}

async function attack(
  name: Attack,
  count: number,
  minutes: number,
): Promise<{ line: string; sound: boolean }> {
  if (name === 'extremes') {
    const { tried, of, refused, slowestFirstMs, slowestFullMs, peakMB, broken } = await extremes({
      pairs: count,
      seed: SEED,
      minutes,
      say: console.log,
    });
    const seconds = (ms: number): string => (ms / 1000).toFixed(2);
    const part =
      tried < of ? `${tried} of ${of} documents, drawn over all of them` : `${tried} documents`;
    const line = `${part}, ${refused} of them refused for what two fields say of each other: the slowest first answer ${seconds(slowestFirstMs)} s (${seconds(LIMITS.firstMs)}), the slowest full one ${seconds(slowestFullMs)} s (${seconds(LIMITS.fullMs)}), most memory ${peakMB.toFixed(0)} MB (${LIMITS.peakMB}); ${broken.length} beyond a limit or without an answer.`;
    return { line, sound: broken.length === 0 };
  }
  const folder = mkdtempSync(join(tmpdir(), 'backcure-trust-'));
  try {
    if (name === 'fuzz') {
      const { files, read, planned, commanded, printed, crashed, crashes } = await fuzz(
        count,
        SEED,
        folder,
        { commandEvery: 16, prints: true },
      );
      for (const one of crashes) console.log(one);
      const line = `${files} mutated files, ${read} of them still read, ${planned} planned, ${commanded} through the commands, each to a verdict, ${printed} of them printed: ${crashed} crashes.`;
      return { line, sound: crashed === 0 };
    }
    if (name === 'crash') {
      const { kills, acknowledged, lost, damaged, notices } = await crash(folder, count, SEED);
      const line = `${kills} kills over ${acknowledged} acknowledged revisions: ${lost} lost, ${damaged} damaged, ${notices} starts with a complaint.`;
      return { line, sound: lost + damaged + notices === 0 };
    }
    const { edits, heapMB, processMB, fileMB, editMs } = await soak(folder, count);
    const [early, late] = heapMB.map((mb) => mb.toFixed(1));
    const [wholeEarly, wholeLate] = processMB.map((mb) => mb.toFixed(0));
    const [first, last] = editMs.map((ms) => ms.toFixed(1));
    const line = `${edits} edits: heap ${early} MB after a tenth, ${late} MB at the end; all memory of the process ${wholeEarly} and ${wholeLate} MB; ${first} ms an edit in the first tenth, ${last} ms in the last; data file ${fileMB.toFixed(1)} MB.`;
    return {
      line,
      sound: heapMB[1] < heapMB[0] * 1.2 && processMB[1] < processMB[0] + MAY_GROW_MB,
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The state of the sources that ran, so that a figure can be held to what it was measured on. */
function commit(): string {
  const asked = spawnSync('git', ['rev-parse', '--short', 'HEAD'], {
    cwd: projectRoot(),
    encoding: 'utf8',
  });
  return asked.status === 0 ? asked.stdout.trim() : 'an unknown state';
}

/** Puts the figure between its two marks. */
export function withFigure(text: string, name: string, figure: string): string {
  const [from, to] = [`<!-- ${name} -->`, `<!-- /${name} -->`];
  const start = text.indexOf(from);
  const end = text.indexOf(to);
  if (start < 0 || end < start) throw new Error(`docs/trust.md has no place for ${name}`);
  return `${text.slice(0, start + from.length)}\n\n${figure}\n\n${text.slice(end)}`;
}
