/** The command on sound builds: status, contract, sameness, files. */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { planResultSchema, type PlanResult } from '../../../app/document/schema.ts';
import { shippedSamples } from '../../../main/samples.ts';
import { localToMinute, minuteToIso } from '../../../app/time/zone.ts';
import { inFolder, NOW, runPlan, sample, startCommand } from './command.ts';

const TIMEOUT = { timeout: 120_000 };

function read(stdout: string): PlanResult {
  return planResultSchema.parse(JSON.parse(stdout));
}

describe('plan', () => {
  it.each(shippedSamples().map(({ name }) => name))(
    '%s follows the contract',
    TIMEOUT,
    async (name) => {
      const { status, stdout, stderr } = await runPlan([sample(name), '--now', NOW, '--json']);
      expect(stderr).toBe('');
      const result = read(stdout);
      expect(status).toBe(result.fits ? 0 : 1);
      expect(result.stages.length).toBeGreaterThan(0);
      expect(Date.parse(result.now)).toBe(Date.parse(NOW));
    },
  );

  it(
    'gives the same bytes twice, under any zone of the machine and any folder',
    TIMEOUT,
    async () => {
      const build = sample('wren-sound-shell');
      const runs = ['UTC', 'Pacific/Kiritimati', 'America/St_Johns'].map((zone) =>
        inFolder(async (cwd) => {
          const args = [build, '--now', NOW, '--json', '--html', 'h', '--ics', 'i', '--csv', 'c'];
          const env = { LANG: zone === 'UTC' ? 'C' : 'de_DE.UTF-8' };
          const { stdout } = await startCommand('plan', args, { cwd, zone, env });
          const files = await Promise.all(
            ['h', 'i', 'c'].map((f) => readFile(join(cwd, f), 'utf8')),
          );
          return [stdout, ...files];
        }),
      );
      const [first, ...others] = await Promise.all(runs);
      expect(first!.value.every((text) => text.length > 1000)).toBe(true);
      for (const other of others) expect(other.value).toEqual(first!.value);
    },
  );

  it("reads a time without an offset on the build's own clock", TIMEOUT, async () => {
    const build = sample('wren-sound-shell');
    const { zone } = JSON.parse(await readFile(build, 'utf8')) as { zone: string };
    const { minute } = localToMinute('2027-04-12T07:00', zone)!;
    const [bare, full] = await Promise.all(
      ['2027-04-12T07:00', minuteToIso(minute, zone)].map((now) =>
        runPlan([build, '--now', now, '--json']),
      ),
    );
    expect(bare!.stdout).toBe(full!.stdout);
    expect(read(bare!.stdout).now).toContain('2027-04-12T07:00');
  });

  it('knows the routes of a build with a resin of its own', TIMEOUT, async () => {
    const build = join(import.meta.dirname, '../../fixtures/v1/documents/own-resins.build.json');
    const { routes } = read((await runPlan([build, '--now', NOW, '--json'])).stdout);
    const { status, stderr } = await runPlan([build, '--now', NOW, '--route', routes.at(-1)!.id]);
    expect(stderr).toBe('');
    expect([0, 1]).toContain(status);
  });

  it('reads an instant with an offset as the same moment as with Z', TIMEOUT, async () => {
    const build = sample('wren-sound-shell');
    const [a, b] = await Promise.all(
      ['2027-04-12T06:00Z', '2027-04-12T15:30+09:30'].map((now) =>
        runPlan([build, '--now', now, '--json']),
      ),
    );
    expect(a!.stdout).toBe(b!.stdout);
  });

  it('plans the route it is told to', TIMEOUT, async () => {
    const build = sample('wren-sound-shell');
    const first = read((await runPlan([build, '--now', NOW, '--json'])).stdout);
    const other = first.routes.find((route) => route.id !== first.route.id)!;
    const told = read((await runPlan([build, '--now', NOW, '--json', '--route', other.id])).stdout);
    expect(told.route.id).toBe(other.id);
  });

  it('says in words what the JSON says', TIMEOUT, async () => {
    const args = [sample('harbour-gate-sign'), '--now', NOW];
    const [words, json] = await Promise.all([runPlan(args), runPlan([...args, '--json'])]);
    const result = read(json.stdout);
    expect(words.stdout).toContain(result.fits ? 'it fits' : 'it does not fit');
    const { deadline } = result;
    const style = { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' } as const;
    const parts = new Intl.DateTimeFormat('en-GB', { ...style, timeZone: 'UTC' });
    const day = parts.format(new Date(`${deadline.slice(0, 10)}T12:00Z`)).replace(',', '');
    expect(words.stdout).toContain(`Unveiling: ${day} ${deadline.slice(11, 16)}\n`);
    for (const { message } of result.findings) expect(words.stdout).toContain(message);
  });

  it('an unveiling already past is a finding and not malformed', TIMEOUT, async () => {
    const args = [sample('wren-sound-shell'), '--now', '2031-01-06T06:00Z', '--json'];
    const { status, stdout, stderr } = await runPlan(args);
    expect({ status, stderr }).toEqual({ status: 1, stderr: '' });
    expect(read(stdout).findings.some((f) => f.severity === 'stop')).toBe(true);
  });

  it.each<[string, (document: Record<string, unknown>) => void]>([
    ['an empty crew', (d) => void (d['crew'] = [])],
    ['a crew without hours', (d) => void (d['crew'] = [{ name: 'Ida', hours: {} }])],
    [
      'a room in which the cure never ends',
      (d) => void (d['room'] = { temperatureC: { day: -20, night: -20 } }),
    ],
  ])('%s is a finding, not a crash', TIMEOUT, async (_, change) => {
    const { value } = await inFolder(async (cwd) => {
      const text = await readFile(sample('wren-sound-shell'), 'utf8');
      const document = JSON.parse(text) as Record<string, unknown>;
      change(document);
      const file = join(cwd, 'b.json');
      await writeFile(file, JSON.stringify(document));
      return runPlan([file, '--now', NOW, '--json']);
    });
    expect(value).toMatchObject({ status: 1, stderr: '' });
    expect(read(value.stdout).findings.some((f) => f.severity === 'stop')).toBe(true);
  });
});

describe('output files', () => {
  it('are all written, or none', TIMEOUT, async () => {
    const { value, files } = await inFolder(async (cwd) => {
      await mkdir(join(cwd, 'taken'));
      const args = ['--html', 'a.html', '--csv', 'taken', '--ics', 'a.ics'];
      return startCommand('plan', [sample('wren-sound-shell'), '--now', NOW, ...args], { cwd });
    });
    expect(value).toMatchObject({ status: 3, stdout: '' });
    expect(value.stderr).toMatch(/^plan: --csv: .+ cannot be written: found a folder\n$/);
    expect(files).toEqual(['taken']);
  });

  it('a PDF without any browser is one plain line and status 3', TIMEOUT, async () => {
    const { value, files } = await inFolder((cwd) =>
      startCommand(
        'plan',
        [sample('wren-sound-shell'), '--now', NOW, '--csv', 'a.csv', '--pdf', 'a.pdf'],
        { cwd, env: { BACKCURE_CHROMIUM: join(cwd, 'no-browser') } },
      ),
    );
    expect(value).toMatchObject({ status: 3, stdout: '' });
    expect(value.stderr).toMatch(/^plan: --pdf: [^\n]+\n$/);
    expect(files).toEqual([]);
  });
});
