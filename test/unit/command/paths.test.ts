/** Files of the command: never its own input, nothing half made, no pipe that hangs it. */
import { execFileSync, spawn } from 'node:child_process';
import {
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { cell } from '../../../app/shop/csv.ts';
import { isSameFile } from '../../../main/command/sameFile.ts';
import { jsonText } from '../../../main/command/terminal.ts';
import { projectRoot } from '../../../main/root.ts';
import { scratchFolder } from '../main/fixtures.ts';
import { NODE, NOW, runCommand, runPlan, sample } from './command.ts';

const SMALL = 'harbour-gate-sign';

function buildIn(folder: string, change: (text: string) => string = (text) => text): string {
  const file = join(folder, 'build.json');
  writeFileSync(file, change(readFileSync(sample(SMALL), 'utf8')));
  return file;
}

describe('an output', () => {
  it.each<[string, (file: string, folder: string) => string]>([
    ['under its own name', (file) => file],
    [
      'by a symbolic link',
      (file, folder) => (symlinkSync(file, join(folder, 'l')), join(folder, 'l')),
    ],
    ['by a hard link', (file, folder) => (linkSync(file, join(folder, 'h')), join(folder, 'h'))],
    [
      'through a linked folder',
      (_file, folder) => (symlinkSync(folder, join(folder, 'd')), join(folder, 'd', 'build.json')),
    ],
  ])('is never the build file, named %s', async (_what, pathOf) => {
    const folder = scratchFolder();
    const file = buildIn(folder);
    const before = readFileSync(file);
    const ran = await runPlan([file, '--now', NOW, '--csv', pathOf(file, folder)]);
    expect(ran.status).toBe(2);
    expect(ran.stderr).toContain('expected a file of its own');
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  it('is not written twice into one file that is not there yet', async () => {
    const folder = scratchFolder();
    mkdirSync(join(folder, 'real'));
    symlinkSync(join(folder, 'real'), join(folder, 'link'));
    const ran = await runPlan([
      ...[buildIn(folder), '--now', NOW],
      ...['--csv', join(folder, 'real', 'x'), '--ics', join(folder, 'link', 'x')],
    ]);
    expect(ran.status).toBe(2);
    expect(readdirSync(join(folder, 'real'))).toEqual([]);
  });

  it('leaves nothing half made when the command is told to end', async () => {
    const folder = scratchFolder();
    const out = join(folder, 'out');
    mkdirSync(out);
    // The PDF takes long enough to be ended in the middle, when the HTML lies there half made.
    const child = spawn(NODE, [
      ...[join(projectRoot(), 'main/command/plan.ts'), buildIn(folder), '--now', NOW],
      ...['--html', join(out, 'a.html'), '--pdf', join(out, 'a.pdf')],
    ]);
    const ended = new Promise((resolve) => child.on('close', resolve));
    await vi.waitFor(() => expect(readdirSync(out)).toHaveLength(1), {
      timeout: 60_000,
      interval: 5,
    });
    child.kill('SIGTERM');
    await ended;
    expect(readdirSync(out)).toEqual([]);
  }, 90_000);

  it('takes the rest of a command away that was killed without a word', async () => {
    const folder = scratchFolder();
    const dead = Number(execFileSync(NODE, ['-p', 'process.pid']).toString());
    for (const rest of [`a.csv.${dead}.part`, `a.csv.${process.pid}.part`, 'a.csv.mine.part']) {
      writeFileSync(join(folder, rest), '');
    }
    // Its own name would be in the way of this process's own draft: the command's process differs.
    const ran = await runPlan([buildIn(folder), '--now', NOW, '--csv', join(folder, 'a.csv')]);
    expect(ran.status).toBeLessThan(2);
    expect(readdirSync(folder)).not.toContain(`a.csv.${dead}.part`);
    expect(readdirSync(folder)).toContain('a.csv.mine.part');
  });
});

describe.skipIf(process.platform !== 'linux')('what only Linux can be asked', () => {
  it('files of the same number on two devices are two files', () => {
    const [one, other] = ['/proc', '/sys'].map((path) => statSync(path));
    expect(one!.ino).toBe(other!.ino);
    expect(isSameFile('/proc', '/sys')).toBe(false);
    expect(isSameFile('/proc', '/proc/.')).toBe(true);
  });

  it('an answer that meets a full disk ends with 3 and one line', () => {
    const plan = join(projectRoot(), 'main/command/plan.ts');
    let failure: { status?: number; stderr?: Buffer } = {};
    try {
      execFileSync(
        'sh',
        ['-c', '"$0" "$@" > /dev/full', NODE, plan, sample(SMALL), '--now', NOW, '--json'],
        { stdio: ['ignore', 'ignore', 'pipe'] },
      );
    } catch (error) {
      failure = error as typeof failure;
    }
    expect(failure.status).toBe(3);
    expect(failure.stderr?.toString()).toBe('The answer cannot be written: found a full disk\n');
  }, 60_000);

  it('a pipe that nobody writes to is said after a while, and one with a writer is read', async () => {
    const folder = scratchFolder();
    const pipe = join(folder, 'pipe');
    execFileSync('mkfifo', [pipe]);
    const writer = spawn('sh', ['-c', `sleep 0.2; cat "${sample(SMALL)}" > "${pipe}"`]);
    expect((await runPlan([pipe, '--now', NOW])).status).toBeLessThan(2);
    writer.kill();
    const silent = await runPlan([pipe, '--now', NOW]);
    expect(silent.status).toBe(2);
    expect(silent.stderr).toContain('found a pipe that nobody writes to');
  }, 60_000);
});

describe('names that would steer a terminal', () => {
  const NASTY = 'Hull\u009b31m\u202emirror\u0007';
  it('are printed without it by both commands, and escaped in JSON', async () => {
    const file = buildIn(scratchFolder(), (text) =>
      JSON.stringify({ ...(JSON.parse(text) as object), name: NASTY }),
    );
    // eslint-disable-next-line no-control-regex -- these are what must not be printed
    const steering = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;
    for (const [command, args] of [
      ['plan', []],
      ['plan', ['--json']],
      ['why', []],
    ] as const) {
      const ran = await runCommand(command, [file, '--now', NOW, ...args]);
      expect([command, args, ran.stderr, ran.stdout.match(steering)]).toEqual([
        command,
        args,
        '',
        null,
      ]);
      expect(ran.stdout).toContain('mirror');
    }
    expect(JSON.parse(jsonText({ name: NASTY }))).toEqual({ name: NASTY });
  });

  it('that a spreadsheet would run are text, with wide signs too', () => {
    for (const sign of ['=', '+', '-', '@', '＝', '＋', '－', '＠']) {
      expect(cell(`${sign}1+1`)).toBe(`'${sign}1+1`);
    }
    expect(cell('1+1')).toBe('1+1');
    expect(cell(-3)).toBe('-3');
  });
});
