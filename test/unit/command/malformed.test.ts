/** Malformed input: exit 2, one line per fault, no stack trace, nothing written. */
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFolder, NOW, runPlan, sample, startCommand } from './command.ts';

type Document = Record<string, unknown> & {
  part: { zones: Record<string, unknown>[] };
  resin: Record<string, unknown>;
};

interface Case {
  readonly what: string;
  /** Text of the file, or a change of a sound build. */
  readonly text?: () => string | Buffer;
  readonly change?: (document: Document) => void;
  /** One pattern per line of standard error, after `build.json: `. */
  readonly lines: readonly RegExp[];
}

const CASES: readonly Case[] = [
  {
    what: 'no JSON',
    text: () => 'unveiling: friday',
    lines: [/^\(file\): found .+, expected a build file in JSON$/],
  },
  {
    what: 'an empty file',
    text: () => '',
    lines: [/^\(file\): found .+, expected a build file in JSON$/],
  },
  {
    what: 'a list',
    text: () => '[]',
    lines: [/^\(file\): found a list of 0, expected one JSON object/],
  },
  {
    what: 'bytes that are no text',
    text: () => Buffer.from([0x7b, 0xff, 0xfe, 0x7d]),
    lines: [/^\(file\): found bytes that are no UTF-8 text, expected a build file in JSON$/],
  },
  {
    what: '10 MB of noise',
    text: () => Buffer.alloc(10_000_000, 'q8#'),
    lines: [/^\(file\): found more than 8000000 bytes, expected a build of at most 8000000 bytes$/],
  },
  {
    what: 'a newer format',
    change: (d) => void (d['formatVersion'] = 99),
    lines: [
      /^formatVersion: found 99, expected at most 2: the file was written by a newer program$/,
    ],
  },
  {
    what: 'a negative area',
    change: (d) => void (d.part.zones[0]!['areaM2'] = -2.5),
    lines: [/^part\.zones\[0\]\.areaM2: found -2\.5, expected at least 0.0001$/],
  },
  {
    what: 'an unknown resin',
    change: (d) => void (d.resin['system'] = 'glue'),
    lines: [/^resin\.system: found "glue", expected a known resin \(.+\)$/],
  },
  {
    what: 'a cycle between stages',
    change: (d) => {
      d['links'] = [
        { before: 'trim', after: 'fair' },
        { before: 'fair', after: 'trim' },
      ];
    },
    lines: [/^links\[\d\]: found a circle: .+, expected an order with an end$/],
  },
  {
    what: 'a day that does not exist',
    change: (d) => void (d['unveiling'] = '2027-02-30T18:00'),
    lines: [/^unveiling: found "2027-02-30T18:00", expected a day and time that exist/],
  },
  {
    what: 'a time that the clocks skip',
    change: (d) => {
      d['zone'] = 'Europe/Lisbon';
      d['unveiling'] = '2027-03-28T01:30';
    },
    lines: [/^unveiling: found "2027-03-28T01:30", expected a time that exists in Europe\/Lisbon/],
  },
  {
    what: 'a field with a line break in its name',
    change: (d) => void (d['two\nlines'] = 1),
    lines: [/^two lines: found a field that is not known, expected no such field/],
  },
  {
    what: 'two faults at once',
    change: (d) => {
      d['zone'] = 'Europe/Atlantis';
      d['currency'] = 'euro';
    },
    lines: [
      /^zone: found "Europe\/Atlantis", expected an IANA/,
      /^currency: found "euro", expected/,
    ],
  },
];

const outputsIn = (folder: string): string[] => [
  ...['html', 'ics', 'csv', 'pdf'].flatMap((kind) => [`--${kind}`, join(folder, `a.${kind}`)]),
  '--json',
];

describe('a malformed build file', () => {
  it.each(CASES)('$what', async ({ text, change, lines }) => {
    const { value, files } = await inFolder(async (folder) => {
      const file = join(folder, 'build.json');
      let content = text?.();
      if (content === undefined) {
        const document = JSON.parse(await readFile(sample('wren-sound-shell'), 'utf8')) as Document;
        change?.(document);
        content = JSON.stringify(document);
      }
      await writeFile(file, content);
      return { file, ran: await runPlan([file, '--now', NOW, ...outputsIn(folder)]) };
    });
    const { file, ran } = value;
    expect(ran).toMatchObject({ status: 2, stdout: '' });
    expect(files).toEqual(['build.json']);
    const said = ran.stderr.trimEnd().split('\n');
    expect(said).toHaveLength(lines.length);
    said.forEach((line, i) => {
      expect(line.startsWith(`${file}: `)).toBe(true);
      expect(line.slice(`${file}: `.length)).toMatch(lines[i]!);
    });
  });

  it('cut anywhere is refused as unreadable', { timeout: 60_000 }, async () => {
    const whole = await readFile(sample('wren-sound-shell'), 'utf8');
    const { value } = await inFolder(async (folder) => {
      const cuts = [1, Math.floor(whole.length / 2), whole.trimEnd().length - 1];
      return Promise.all(
        cuts.map(async (cut) => {
          await writeFile(join(folder, `${cut}.json`), whole.slice(0, cut));
          return startCommand('plan', [`${cut}.json`], { cwd: folder });
        }),
      );
    });
    for (const { status, stderr } of value) {
      expect(status).toBe(2);
      expect(stderr).toMatch(
        /^\d+\.json: \(file\): found [^\n]+, expected a build file in JSON\n$/,
      );
    }
  });
});

describe('malformed arguments', () => {
  const build = sample('wren-sound-shell');
  it.each<[string, string[], RegExp]>([
    [
      'an option that is not known',
      [build, '--colour'],
      /^plan: Unknown option '--colour', expected npm run plan/,
    ],
    ['no build file', [], /^plan: found 0 build files, expected npm run plan/],
    ['two build files', [build, build], /^plan: found 2 build files/],
    [
      'a day that does not exist',
      [build, '--now', '2027-02-29T08:00Z'],
      /^plan: --now: found "2027-02-29T08:00Z"/,
    ],
    [
      'a time that the clocks of the build skip',
      [build, '--now', '2027-10-03T02:30'],
      /--now: found 2027-10-03T02:30, expected a time that exists in Australia\/Adelaide/,
    ],
    ['a year out of reach', [build, '--now', '9999-12-31T08:00Z'], /^plan: --now: found "9999/],
    [
      'a file that is not there',
      ['gone.json'],
      /^gone\.json: \(file\): found no such file, expected/,
    ],
    ['a folder', ['.'], /^\.: \(file\): found a folder, expected/],
    [
      'a route that is not known',
      [build, '--route', 'all'],
      /: --route: found "all", expected one of skin\//,
    ],
    [
      'one file for two outputs',
      [build, '--csv', 'x', '--ics', './x'],
      /^plan: --ics: found \.\/x a second time|^plan: --csv: found x a second time/,
    ],
    ['the build as output', [build, '--html', build], /^plan: --html: found .+ a second time/],
  ])('%s', async (_, args, line) => {
    const value = await runPlan(args);
    expect(value).toMatchObject({ status: 2, stdout: '' });
    expect(value.stderr).toMatch(line);
    expect(value.stderr.trimEnd().split('\n')).toHaveLength(1);
  });
});
