/** The commands that bring data back and give it out. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readBuild } from '../../../app/document/read.ts';
import { exportCommand, restoreCommand } from '../../../main/command/dataCommands.ts';
import { openSession } from '../../../main/session.ts';
import { fixedClock } from '../../../main/clock.ts';
import { shippedLibrary } from '../../../main/library/shipped.ts';
import { listBuilds, removeBuild } from '../../../main/store/builds.ts';
import { NOW, scratchFolder } from '../main/fixtures.ts';

const run = (command: typeof restoreCommand, args: readonly string[]) => {
  const written = { out: '', err: '' };
  const status = command(args, {
    out: (text) => void (written.out += text),
    err: (text) => void (written.err += text),
  });
  return { status, ...written };
};

/** A folder with a copy of the day, after which all builds were removed. */
function emptied(): { dataDir: string; names: string[]; first: string } {
  const dataDir = scratchFolder();
  const session = openSession({ runtime: 'browser', dataDir, clock: fixedClock(NOW) });
  const builds = listBuilds(session.store.read);
  for (const { id } of builds) removeBuild(session.store.write, id, 1);
  session.close();
  return { dataDir, names: builds.map(({ name }) => name).toSorted(), first: builds[0]!.id };
}

const namesIn = (dataDir: string): string[] => {
  const session = openSession({ runtime: 'browser', dataDir, clock: fixedClock(NOW) });
  const names = listBuilds(session.store.read).map(({ name }) => name);
  session.close();
  return names.toSorted();
};

describe('restore', () => {
  it('lists the kept copies with what they hold, and puts the named one back', () => {
    const { dataDir, names } = emptied();
    const listed = run(restoreCommand, ['--data', dataDir]);
    expect(listed.status).toBe(0);
    expect(listed.out).toMatch(
      new RegExp(`^backcure\\.day-20270419\\.sqlite  .* UTC  ${names.length} builds\n$`),
    );
    const put = run(restoreCommand, ['--data', dataDir, 'backcure.day-20270419.sqlite']);
    expect([put.status, put.err]).toEqual([0, '']);
    expect(namesIn(dataDir)).toEqual(names);
  });

  it('refuses what is no copy, in one line', () => {
    const { dataDir } = emptied();
    const put = run(restoreCommand, ['--data', dataDir, 'backcure.sqlite']);
    expect(put).toEqual({ status: 3, out: '', err: 'There is no such copy any more.\n' });
    expect(run(restoreCommand, ['--wrong']).status).toBe(2);
    expect(namesIn(dataDir)).toEqual([]);
  });
});

describe('export', () => {
  it('writes everything, and one build as a build file', () => {
    const { dataDir, first } = emptied();
    run(restoreCommand, ['--data', dataDir, 'backcure.day-20270419.sqlite']);
    const [all, one] = [join(dataDir, 'all.json'), join(dataDir, 'one.json')];
    expect(run(exportCommand, ['--data', dataDir, all])).toEqual({ status: 0, out: '', err: '' });
    expect(JSON.parse(readFileSync(all, 'utf8'))).toMatchObject({ backcure: 'shop' });
    expect(run(exportCommand, ['--data', dataDir, '--build', first, one]).status).toBe(0);
    expect(readBuild(readFileSync(one, 'utf8'), shippedLibrary()).ok).toBe(true);
  });

  it('takes no file that is there already, and says what is missing', () => {
    const { dataDir } = emptied();
    const file = join(dataDir, 'mine.txt');
    writeFileSync(file, 'mine');
    expect(run(exportCommand, ['--data', dataDir, file]).status).toBe(3);
    expect(readFileSync(file, 'utf8')).toBe('mine');
    expect(run(exportCommand, ['--data', dataDir]).err).toContain('expected npm run export');
    const none = run(exportCommand, ['--data', dataDir, '--build', 'x', join(dataDir, 'x')]);
    expect(none).toMatchObject({ status: 3, err: 'There is no such build any more.\n' });
  });
});
