/** Reads mutated files of every kind that the program takes in; each is to be an answer, never a throw. */
import { isUtf8 } from 'node:buffer';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { plan } from '../../app/answer/plan.ts';
import { logReader } from '../../app/cure/logger.ts';
import { practiceOf } from '../../app/document/library.ts';
import { readBuild } from '../../app/document/read.ts';
import { librarySchema } from '../../app/document/schema.ts';
import { measureMesh } from '../../app/part/mesh/measure.ts';
import { readMesh } from '../../app/part/mesh/read.ts';
import { MeshFault } from '../../app/part/mesh/weld.ts';
import { FIRST_ANSWER } from '../../app/plan/outcome.ts';
import { seededRandom } from '../../app/schedule/random.ts';
import { phonePage } from '../../app/shop/phone/page.ts';
import { readBusyFile } from '../../main/calendars/busyFile.ts';
import { OUTPUTS } from '../../main/command/arguments.ts';
import { planCommand } from '../../main/command/planCommand.ts';
import { whyCommand } from '../../main/command/whyCommand.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { StoreRefusal } from '../../main/store/errors.ts';
import { projectRoot } from '../../main/root.ts';
import { shippedSamples } from '../../main/samples.ts';
import { mutated } from './mutate.ts';
import { phonePack } from './phonePack.ts';

const NOW = Date.parse('2027-04-12T06:00Z') / 60_000;
/** One mutated build of so many that can still be read is planned as well. */
const PLAN_EVERY = 2;
/** Of those that go through the commands, one of so many by a route that is named, and one of so many printed. */
const ROUTE_EVERY = 3;
const PRINT_EVERY = 50;

export interface FuzzCount {
  readonly files: number;
  /** Files that were read as what they were meant to be. */
  readonly read: number;
  readonly planned: number;
  /** Builds that went through the commands as a file, each to end with 0 or 1. */
  readonly commanded: number;
  /** And those of them that were printed as a PDF. */
  readonly printed: number;
  /** Throws where an answer was due, the first few with the seed that brings them again. */
  readonly crashes: readonly string[];
  readonly crashed: number;
}

type Target = (bytes: Buffer) => boolean | Promise<boolean>;

const CALENDAR = `BEGIN:VCALENDAR
VERSION:2.0
BEGIN:VEVENT
UID:1
DTSTART;TZID=Europe/Lisbon:20270421T080000
DTEND;TZID=Europe/Lisbon:20270421T120000
RRULE:FREQ=WEEKLY;COUNT=5
SUMMARY:Other job
END:VEVENT
END:VCALENDAR
`.replaceAll('\n', '\r\n');
const OBJ = 'v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nf 1 2 3\nf 1/1 3/2 4/3\n';
const STL = `solid a
facet normal 0 0 1
outer loop
vertex 0 0 0
vertex 1 0 0
vertex 0 1 0
endloop
endfacet
endsolid a
`;

/**
 * @param scratch a folder for the files that the command reads and writes
 * @param commandEvery one build of so many that can be read goes through the commands, with its full answer
 * @param prints whether some of these are printed too, which takes a browser
 */
export async function fuzz(
  files: number,
  seed: number,
  scratch: string,
  { commandEvery, prints }: { readonly commandEvery: number; readonly prints: boolean },
): Promise<FuzzCount> {
  const library = shippedLibrary();
  const practice = practiceOf(library);
  let planned = 0;
  let commanded = 0;
  let printed = 0;
  let whole = 0;
  const builds: Target = async (bytes) => {
    const result = readBuild(bytes.toString(), library);
    if (!result.ok) return false;
    whole += 1;
    if (whole % PLAN_EVERY === 0) {
      const outcome = plan(result.document, library, NOW, FIRST_ANSWER);
      if (/NaN|Infinity/.test(JSON.stringify(outcome.result.totals))) throw new Error('no number');
      // Its own script and the data of its pack, whatever stands in the build.
      if (phonePage(outcome).split('<script').length !== 3) throw new Error('a phone pack is open');
      planned += 1;
    }
    if (whole % commandEvery === 1) {
      const isPrinted = prints && commanded % PRINT_EVERY === 0;
      await endsWithVerdict(bytes, scratch, commanded, isPrinted);
      commanded += 1;
      if (isPrinted) printed += 1;
    }
    return true;
  };
  const libraries: Target = (bytes) => {
    let raw: unknown;
    try {
      raw = JSON.parse(bytes.toString());
    } catch {
      return false;
    }
    return librarySchema.safeParse(raw).success;
  };
  const logs: Target = (bytes) => {
    const reader = logReader({ zone: 'Europe/Lisbon', practice });
    reader.push(bytes.toString());
    return reader.end().profile !== null;
  };
  const meshes =
    (name: string): Target =>
    (bytes) => {
      try {
        measureMesh(readMesh(name, bytes));
        return true;
      } catch (error) {
        if (error instanceof MeshFault) return false;
        throw error;
      }
    };
  const calendars: Target = (bytes) => {
    const span = { zone: 'Europe/Lisbon', from: '2027-04-01', to: '2027-06-01' };
    try {
      return readBusyFile(bytes.toString(), span).blocks.length > 0;
    } catch (error) {
      if (error instanceof StoreRefusal) return false;
      throw error;
    }
  };
  const folder = (path: string): Buffer[] =>
    readdirSync(join(projectRoot(), path))
      .filter((name) => /\.(json|csv)$/.test(name))
      .map((name) => readFileSync(join(projectRoot(), path, name)));
  const sources = shippedSamples().map((sample) => Buffer.from(sample.text()));
  const first = readBuild(sources[0]!.toString(), library);
  if (!first.ok) throw new Error('the first sample can not be read');
  const pack = phonePack(first.document, library, NOW);
  const kinds: readonly (readonly [string, Target, readonly Buffer[]])[] = [
    ['build', builds, sources],
    ['library', libraries, folder('samples/library')],
    ['log', logs, folder('samples/logs').map((log) => log.subarray(0, 20_000))],
    ['obj', meshes('a.obj'), [Buffer.from(OBJ)]],
    ['stl', meshes('a.stl'), [Buffer.from(STL)]],
    ['calendar', calendars, [Buffer.from(CALENDAR)]],
    ['phone pack', pack.taken, [pack.source]],
  ];
  const crashes: string[] = [];
  let [read, crashed] = [0, 0];
  for (let i = 0; i < files; i += 1) {
    const random = seededRandom(seed + i);
    const [kind, target, originals] = kinds[i % kinds.length]!;
    try {
      if (await target(mutated(originals[random.below(originals.length)]!, random))) read += 1;
    } catch (error) {
      crashed += 1;
      if (crashes.length < 10) crashes.push(`${kind}, seed ${seed + i}: ${String(error)}`);
    }
  }
  return { files, read, planned, commanded, printed, crashes, crashed };
}

/**
 * The commands plan the file, in all their forms, and say why a stage stands where it does.
 * @throws where one ends with anything but what it found
 */
async function endsWithVerdict(
  bytes: Buffer,
  scratch: string,
  nth: number,
  isPrinted: boolean,
): Promise<void> {
  // A file that is no text is refused at the door, before it is read as a build.
  if (!isUtf8(bytes)) return;
  const file = join(scratch, 'mutated.build.json');
  writeFileSync(file, bytes);
  const always = [file, '--now', '2027-04-12T06:00Z'];
  const kinds = [...OUTPUTS].filter((kind) => kind !== 'pdf' || isPrinted);
  const outputs = kinds.flatMap((kind) => [`--${kind}`, join(scratch, `out.${kind}`)]);
  const answer = await run(planCommand, [...always, '--json', ...outputs], [0, 1]);
  const { routes, stages } = JSON.parse(answer) as {
    readonly routes: readonly { readonly id: string }[];
    readonly stages: readonly { readonly id: string; readonly start: string | null }[];
  };
  await run(whyCommand, always, [0]);
  // What has no place in time is no stage that can be asked about.
  const placed = stages.filter(({ start }) => start !== null);
  const stage = placed[nth % placed.length];
  if (stage) await run(whyCommand, [file, stage.id, ...always.slice(1)], [0]);
  const route = routes[nth % routes.length];
  if (route && nth % ROUTE_EVERY === 0) {
    await run(planCommand, [...always, '--route', route.id], [0, 1]);
  }
}

type Command = typeof planCommand;

async function run(
  command: Command,
  args: readonly string[],
  expected: readonly number[],
): Promise<string> {
  const said = { out: '', err: '' };
  const status = await command(args, {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
  });
  const text = said.out + said.err;
  if (!expected.includes(status)) throw new Error(`ended with ${status}: ${text.slice(0, 200)}`);
  if (/\bNaN\b|\bInfinity\b|\n +at /.test(text)) throw new Error('the answer holds no number');
  return said.out;
}
