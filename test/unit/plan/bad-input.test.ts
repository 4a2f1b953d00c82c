/** Builds that no plan can do: each fault is a finding of its own, named and soon. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER, FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const MINUTES: [string, string][] = [['08:00', '08:20']];
const cases: [string, Partial<Build>, string, RegExp][] = [
  [
    'a circle of orders',
    { links: [{ before: 'trim', after: 'cutting' }] },
    'stage-impossible',
    /Each waits for the one before it: .*Trim to line/,
  ],
  [
    'a greatest lag below the least',
    { links: [{ before: 'cutting', after: 'core-fit', minHours: 20, maxHours: 5 }] },
    'order-left-out',
    /leaves out this order: .*at most 5 h after Cut plies.*does not go with .*at least 20 h after Cut plies/,
  ],
  [
    'the same in two links',
    {
      links: [
        { before: 'demould', after: 'trim', minHours: 48 },
        { before: 'demould', after: 'trim', maxHours: 3 },
      ],
    },
    'order-left-out',
    /leaves out this order: Trim to line at most 3 h after Demould and weigh; it does not go with Trim to line at least 48 h after Demould and weigh\. Remove one of them\.$/,
  ],
  [
    'work that no day can hold',
    { crew: [{ name: 'Mina Vale', hours: { mon: MINUTES, tue: MINUTES } }] },
    'stage-impossible',
    /in one stretch; the longest open stretch is 0.3 h/,
  ],
  ['nobody in the crew', { crew: [] }, 'crew-empty', /Nobody is in the crew/],
  [
    'no pump port',
    { gear: { pumpPorts: 0 } },
    'stage-impossible',
    /needs 1 of pump port; there is 0/,
  ],
  ['no bench', { gear: { benches: 0 } }, 'stage-impossible', /needs 1 of bench; there is 0/],
  [
    'a date before the work may begin',
    { earliestStart: '2027-08-01T08:00' },
    'date-missed',
    /after the unveiling on Friday 2 July/,
  ],
  [
    'a slot before the part can be there',
    { outside: [{ name: 'Brackwater sprayers', workingDays: 3, slot: '2027-04-20' }] },
    'slot-missed',
    /Brackwater sprayers is booked from/,
  ],
];

describe('a build that cannot be done', () => {
  it.each(cases)('says why: %s', (_what, edit, code, words) => {
    const { result } = plan({ ...smallBuild(), ...edit }, library(), NOW, FULL_ANSWER);
    expect(result.fits).toBe(false);
    const said = result.findings.filter((finding) => finding.code === code);
    expect(said.map((finding) => finding.message).join('\n')).toMatch(words);
    expect(said[0]!.severity).toBe('stop');
  });
});

describe('orders of the shop that contradict each other', () => {
  it('leave a plan with dates, by all of them but the youngest', () => {
    const links = [
      { before: 'cutting', after: 'core-fit', minHours: 30 },
      { before: 'demould', after: 'trim', minHours: 48 },
      { before: 'demould', after: 'trim', maxHours: 3 },
    ];
    const { result } = plan({ ...smallBuild(), links }, library(), NOW, FIRST_ANSWER);
    const spot = (id: string) => result.stages.find((stage) => stage.id === id)!;
    expect(result.stages.every(({ start }) => start !== null)).toBe(true);
    const hours = (from: string, to: string) =>
      (Date.parse(spot(to).start!) - Date.parse(spot(from).end!)) / 3_600_000;
    expect(hours('cutting', 'core-fit')).toBeGreaterThanOrEqual(30);
    expect(hours('demould', 'trim')).toBeGreaterThanOrEqual(48);
    expect(result.findings.filter(({ code }) => code === 'order-left-out')).toHaveLength(1);
  });
});

describe('a crew of nobody', () => {
  it('is one stop, not one for every stage, and no route can be done', () => {
    const { result } = plan({ ...smallBuild(), crew: [] }, library(), NOW, FULL_ANSWER);
    const stops = result.findings.filter(({ severity }) => severity === 'stop');
    expect(stops.map(({ code }) => code)).toEqual(['crew-empty']);
    expect(result.routes.some(({ possible }) => possible)).toBe(false);
    expect(result.fits).toBe(false);
  });
});

describe('an outside party that goes by the name of a wait', () => {
  it.each(['seal', 'edge', 'finish'])('is planned as any other: %s', (id) => {
    const outside = (party: string) => [
      { id: party, name: 'Sprayers', workingDays: 2, leavesFrom: 'tue' as const },
    ];
    const stagesOf = (party: string) =>
      plan({ ...smallBuild(), outside: outside(party) }, library(), NOW, FIRST_ANSWER).result
        .stages;
    const [named, plainly] = [stagesOf(id), stagesOf('works')];
    const ids = named.map((stage) => stage.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).toContain(`wait:outside:${id}`);
    expect(plainly.map((stage) => stage.id)).toContain('wait:works');
    expect(named.map(({ start, end }) => [start, end])).toEqual(
      plainly.map(({ start, end }) => [start, end]),
    );
  });
});
