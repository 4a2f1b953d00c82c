import { describe, expect, it } from 'vitest';
import { MAX_BUILD_CHARACTERS, readBuild } from '../../../app/document/read.ts';
import { library, read, smallBuild } from '../../support/builds.ts';

/** The faults of a document that must be refused. */
function faultsOf(document: unknown) {
  const answer = read(document);
  if (answer.ok) throw new Error('expected faults');
  return answer.faults;
}

/** As much of a build's shape as the edits below reach into; they may put anything there. */
type Loose = Record<string, unknown> & {
  part: { zones: [{ inner: [object, ...object[]] }, ...object[]] };
};
const changed = (edit: (build: Loose) => void): unknown => {
  const build = structuredClone(smallBuild()) as unknown as Loose;
  edit(build);
  return build;
};

describe('readBuild accepts', () => {
  it('a build that says no more than it must', () => {
    const answer = read(smallBuild());
    expect(answer.ok).toBe(true);
  });

  it('a byte-order mark before the text', () => {
    expect(readBuild(`\uFEFF${JSON.stringify(smallBuild())}`, library()).ok).toBe(true);
  });

  it('a build with no crew and no zones: those are findings, not faults', () => {
    expect(read({ ...smallBuild(), crew: [], part: { zones: [] } }).ok).toBe(true);
  });
});

describe('readBuild refuses, saying where, what was found and what is expected', () => {
  const cases: [string, unknown, string, RegExp, RegExp][] = [
    ['a list', [], '(file)', /a list of 0/, /one JSON object/],
    [
      'a newer version',
      { ...smallBuild(), formatVersion: 99 },
      'formatVersion',
      /99/,
      /newer program/,
    ],
    [
      'a negative area',
      changed((b) => Object.assign(b.part.zones[0], { areaM2: -2 })),
      'part.zones[0].areaM2',
      /-2/,
      /at least 0.0001/,
    ],
    [
      'an unknown resin',
      { ...smallBuild(), resin: { system: 'amber-9', hardener: 'medium' } },
      'resin.system',
      /amber-9/,
      /a known resin/,
    ],
    [
      'an unknown hardener',
      { ...smallBuild(), resin: { system: 'orrin-40', hardener: 'instant' } },
      'resin.hardener',
      /instant/,
      /a known hardener/,
    ],
    [
      'an unknown cloth',
      changed((b) => Object.assign(b.part.zones[0].inner[0], { cloth: 'silk' })),
      'part.zones[0].inner[0].cloth',
      /silk/,
      /a known cloth/,
    ],
    [
      'a day that does not exist',
      { ...smallBuild(), unveiling: '2027-02-29T10:00' },
      'unveiling',
      /2027-02-29/,
      /a day and time that exist/,
    ],
    [
      'a time that the clocks skip',
      { ...smallBuild(), unveiling: '2027-03-28T01:30' },
      'unveiling',
      /01:30/,
      /the clocks skip/,
    ],
    [
      'a circle in the order of stages',
      {
        ...smallBuild(),
        links: [
          { before: 'trim', after: 'fit-check' },
          { before: 'fit-check', after: 'trim' },
        ],
      },
      'links[1]',
      /trim -> fit-check -> trim/,
      /an order with an end/,
    ],
    [
      'a field that is not known',
      { ...smallBuild(), colour: 'red' },
      'colour',
      /not known/,
      /check its spelling/,
    ],
    [
      'a zone id used twice',
      changed((b) => {
        const [zone] = b.part.zones;
        Object.assign(b.part, {
          zones: [
            { ...zone, id: 'a' },
            { ...zone, id: 'a' },
          ],
        });
      }),
      'part.zones[1].id',
      /"a"/,
      /used once/,
    ],
    [
      'an unknown zone of the clock',
      { ...smallBuild(), zone: 'Mars/Base' },
      'zone',
      /Mars/,
      /IANA/,
    ],
  ];
  it.each(cases)('%s', (_what, document, path, found, expected) => {
    const fault = faultsOf(document).find((one) => one.path === path);
    expect(fault, JSON.stringify(faultsOf(document))).toBeDefined();
    expect(fault!.found).toMatch(found);
    expect(fault!.expected).toMatch(expected);
  });

  it('text that is not JSON, in one line', () => {
    const answer = readBuild('{"name": \n "half', library());
    expect(answer.ok).toBe(false);
    if (!answer.ok) expect(answer.faults[0]!.found).not.toContain('\n');
  });

  it('more text than any build has', () => {
    const answer = readBuild('x'.repeat(MAX_BUILD_CHARACTERS + 1), library());
    expect(answer).toMatchObject({ ok: false, faults: [{ path: '(file)' }] });
  });

  it('every fault at once, not only the first', () => {
    const document = changed((b) => {
      Object.assign(b.part.zones[0], { areaM2: 0, outer: 'carbon' });
      Object.assign(b, { zone: 'Nowhere/At-All' });
    });
    const paths = faultsOf(document).map((fault) => fault.path);
    expect(paths).toEqual(
      expect.arrayContaining(['part.zones[0].areaM2', 'part.zones[0].outer', 'zone']),
    );
  });
});
