import { expect, it } from 'vitest';
import { runCommand, sample, startCommand, type Ran } from './command.ts';

const SIGN = sample('harbour-gate-sign');
const why = (...args: string[]): Promise<Ran> =>
  runCommand('why', [SIGN, ...args, '--now', '2027-04-19T08:00+01:00']);

it('prints each stage as planned, and each relation with kind, slack and words', async () => {
  const { status, stdout, stderr } = await why();
  expect(stderr).toBe('');
  expect(status).toBe(0);
  const [, stages = '', relations = ''] = stdout.split('\n\n');
  expect(stages).toMatch(
    /^ {2}wed 2027-04-28 08:00 {2}wed 2027-04-28 09:08 {2}float .* layup:skin/m,
  );
  expect(relations).toMatch(
    /^ {2}at-least +end of layup:skin +start of cure:skin +slack 0 min +the cure runs from the sealed bag$/m,
  );
  expect(relations).toMatch(/^ {2}at-most .*release coats keep only so long$/m);
  const rows = relations.trimEnd().split('\n');
  expect(rows[0]).toBe(`Relations (${rows.length - 1}): kind, from, to, slack, why`);
});

it('says of a stage what binds its start and what would have to move', async () => {
  const args = [SIGN, 'layup:core', '--now', '2027-04-19T08:00+01:00'];
  const { status, stdout } = await startCommand('why', args);
  expect(status).toBe(0);
  expect(stdout).toMatch(
    /^Lay up core bond \+ inner skin \(layup:core\) in .+\nfrom Thursday 29 April, \d\d:\d\d to/,
  );
  expect(stdout).toMatch(
    /^ {2}at-least "bonded on a clean surface": Strip peel ply, clean for core bond \(prepare:core, until .+\) would have to move first\.$/m,
  );
});

it.each([
  ['a stage that is not planned', [SIGN, 'polish'], /^.+: STAGE: found "polish", expected one of /],
  ['no build file', [], /^why: expected npm run why/],
  [
    'a moment that does not exist',
    [SIGN, '--now', '2027-02-30'],
    /^why: --now: found "2027-02-30"/,
  ],
  ['an option that is not known', [SIGN, '--colour'], /^why: Unknown option '--colour', expected/],
])('%s is said in one line', async (_, args, line) => {
  const { status, stdout, stderr } = await runCommand('why', args);
  expect(status).toBe(2);
  expect(stdout).toBe('');
  expect(stderr).toMatch(line);
  expect(stderr.trimEnd()).not.toContain('\n');
});
