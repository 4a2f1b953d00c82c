/** The phone pack: its page, its text, and what of a text is taken. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { writeRecords } from '../../../app/document/edit/records.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { openSteps } from '../../../app/shop/floor/steps.ts';
import { phoneContent, utc } from '../../../app/shop/phone/content.ts';
import { phonePage, SCRIPT_HASH, STYLE_HASH } from '../../../app/shop/phone/page.ts';
import { isAsked, isRefused, reviewTicks } from '../../../app/shop/phone/review.ts';
import { PHONE_SCRIPT, PHONE_STYLE } from '../../../app/shop/phone/script.ts';
import { checkSum } from '../../../app/shop/phone/sum.ts';
import { MOST_CHARACTERS, readTicks } from '../../../app/shop/phone/text.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const document: Build = {
  ...smallBuild(),
  name: 'Lid </script><script>alert(1)</script> & "co"',
  route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } },
};
const at = (build: Build, now: number) => plan(build, library(), now, FIRST_ANSWER);
const outcome = at(document, NOW);
const content = phoneContent(outcome);
const stage = (id: string) => outcome.result.stages.find((one) => one.id === id)!;

type Row = readonly [key: string, minute: number];
const textOf = (rows: readonly Row[], head: Partial<{ build: string; plan: string }> = {}) => {
  const lines = [
    'BACKCURE TICKS 1',
    `build ${head.build ?? content.build}`,
    `plan ${head.plan ?? content.plan}`,
    ...rows.map(([key, minute]) => `${key} ${utc(minute)}`),
  ];
  return [...lines, `sum ${checkSum(lines.join('\n'))}`].join('\n');
};
const ticksOf = (text: string) => {
  const read = readTicks(text);
  if (!read.ok) throw new Error(read.fault.code);
  return read.value;
};
const codeOf = (text: string) => {
  const read = readTicks(text);
  return read.ok ? 'ok' : read.fault.code;
};

/** Every tick of everything up to the bag of the first cure, as planned. */
const upToBag = (): Row[] => {
  const last = isoToMinute(stage('layup:skin').end!)!;
  return openSteps(outcome)
    .filter(({ at: planned }) => planned! <= last)
    .map(({ key, at: planned }) => [key, planned!]);
};

describe('the page of a phone pack', () => {
  const page = phonePage(outcome);

  it('runs its own script and nothing else, and loads nothing', () => {
    const hash = (text: string) => `sha256-${createHash('sha256').update(text).digest('base64')}`;
    expect(hash(PHONE_SCRIPT)).toBe(SCRIPT_HASH);
    expect(hash(PHONE_STYLE)).toBe(STYLE_HASH);
    expect(page).toContain('default-src &#39;none&#39;');
    expect(page.match(/<script/g)).toHaveLength(2);
    expect(page).not.toMatch(/<script>alert|https?:|<img|<link|style="| on[a-z]+="/);
    expect(page).toContain('Lid &lt;/script&gt;');
  });

  it('has a card for every stage that is done by hand, and a button for every stamp', () => {
    const keys = content.days.flatMap(({ cards }) =>
      cards.flatMap(({ steps }) => steps.map(({ key }) => key)),
    );
    expect([...keys].sort()).toEqual(
      openSteps(outcome)
        .map(({ key }) => key)
        .sort(),
    );
    for (const key of keys) expect(page).toContain(`data-key="${key}"`);
  });

  it('holds what a slip of could hurt, and says the reading of the scale', () => {
    const layup = content.days.flatMap(({ cards }) => cards).find(({ id }) => id === 'layup:skin')!;
    const mix = layup.steps.find(({ key }) => key === 'layup:skin/mixed/1')!;
    expect(mix.held).toBe(true);
    expect(mix.label).toMatch(
      /^Batch 1 mixed: resin [\d.]+ g, hardener until the scale reads [\d.]+ g/,
    );
    expect(layup.cautions.join(' ')).not.toBe('');
  });

  it('its clocks keep their distance from the first mix, which starts them', () => {
    const skin = outcome.result.cures.find(({ id }) => id === stage('layup:skin').cure)!;
    const bag = content.clocks.find(({ until }) => until.includes('layup:skin/bag-down'))!;
    const down = content.clocks.find(({ label }) => label.startsWith('Bag down by'))!;
    expect(bag).toBeDefined();
    expect(down.at - down.from!.at).toBe(
      isoToMinute(skin.bagBy!)! - isoToMinute(outcome.result.mixes[0]!.mixAt!)!,
    );
    expect(down.from!.key).toBe('layup:skin/mixed/1');
    const cups = content.clocks.filter(({ label }) =>
      label.startsWith('Use this cup by: Outer skin'),
    );
    expect(cups.length).toBeGreaterThan(0);
    for (const cup of cups) expect(cup.latest).toEqual({ at: down.at, from: down.from });
    const kinds = new Set(content.clocks.map(({ label }) => label.split(':')[0]));
    expect([...kinds]).toEqual(
      expect.arrayContaining([
        'Mix by',
        'Use this cup by',
        'Bag down by',
        'Gel at the earliest',
        'Gel at the latest',
        'Bag off from',
      ]),
    );
  });

  it('one day holds that day’s stages alone', () => {
    const { date } = content.days[2]!;
    const one = phoneContent(outcome, { days: [date, date] });
    const ids = one.days.flatMap(({ cards }) => cards.map(({ id }) => id));
    expect(ids).toEqual(expect.arrayContaining(content.days[2]!.cards.map(({ id }) => id)));
    expect(ids.length).toBeLessThan(content.days.reduce((sum, { cards }) => sum + cards.length, 0));
  });
});

describe('the text of a phone', () => {
  const rows: Row[] = [
    ['release/started', NOW],
    ['layup:skin/mixed/1', NOW + 5],
  ];

  it('comes back as it was ticked, with a greeting round it and other line ends', () => {
    const read = ticksOf(`Hello,\r\n\r\n${textOf(rows).replaceAll('\n', ' \r\n')}\r\n\r\nbye`);
    expect(read.ticks.map(({ key, at: minute }) => [key, minute])).toEqual(rows);
    expect(read.ticks[1]).toMatchObject({ stage: 'layup:skin', stamp: 'mixed', batch: 1 });
  });

  it.each([
    ['no-ticks', 'See you tomorrow'],
    ['other-version', textOf(rows).replace('TICKS 1', 'TICKS 2')],
    ['cut-off', textOf(rows).split('\n').slice(0, -1).join('\n')],
    ['wrong-sum', textOf(rows).replace('release', 'relaese')],
    ['no-ticks', textOf([])],
    ['twice', textOf([...rows, ['release/started', NOW + 9]])],
    ['bad-line', textOf([['release/finished', NOW]])],
    ['bad-line', textOf([['release/started/1', NOW]])],
    ['bad-line', textOf([['__proto__', NOW]])],
    ['bad-line', textOf(rows, { plan: '2027-02-30T08:00Z 00000000' })],
    ['bad-line', textOf(rows, { build: 'a b' })],
    ['too-long', `BACKCURE TICKS 1\n${'x'.repeat(MOST_CHARACTERS)}`],
    ['too-long', textOf(Array.from({ length: 1001 }, (_, i) => [`s${i}/done`, NOW] as const))],
  ])('%s', (code, text) => expect(codeOf(text)).toBe(code));
});

describe('ticks held against the plan', () => {
  const rows = upToBag();
  const now = rows.at(-1)![1] + 10;
  const none: readonly string[] = [];
  const review = reviewTicks(outcome, ticksOf(textOf(rows)), now, none);

  it('as planned nothing is asked, and each stage is written once with its batches', () => {
    expect(review.olderPlan).toBe(false);
    expect(review.rows.filter((row) => isAsked(row) || row.fault)).toEqual([]);
    const layup = review.entries.find((entry) => entry.stage === 'layup:skin')!;
    expect(layup.mixes!.length).toBe(rows.filter(([key]) => key.includes('skin/mixed')).length);
    expect(layup.end).toBe(stage('layup:skin').end!.slice(0, 16));
    expect(new Set(review.entries.map((entry) => entry.stage)).size).toBe(review.entries.length);
    expect(review.implied).toEqual([]);
  });

  it('written down, the same text once more changes nothing', () => {
    const built = writeRecords(document, review.entries, 'ticks').document as Build;
    const again = reviewTicks(at(built, now), ticksOf(textOf(rows)), now, none);
    expect(again.rows.map(({ fault }) => fault)).toEqual(rows.map(() => 'already'));
    expect(again.entries).toEqual([]);
  });

  it('a tick that is left out takes those after it at its stage along', () => {
    const left = reviewTicks(outcome, ticksOf(textOf(rows)), now, ['layup:skin/mixed/1']);
    const fault = (key: string) => left.rows.find(({ tick }) => tick.key === key)!.fault;
    expect(fault('layup:skin/bag-down')).toBe('not-its-turn');
    expect(left.entries.some((entry) => entry.stage === 'layup:skin')).toBe(false);
  });

  it('what must have come before is named', () => {
    const mixed = rows.filter(([key]) => key.startsWith('layup:skin'));
    const alone = reviewTicks(outcome, ticksOf(textOf(mixed)), now, none);
    expect(alone.implied.map((entry) => entry.stage)).toContain('release');
  });

  it('times in the future, or before the pack, are asked about', () => {
    const early = reviewTicks(outcome, ticksOf(textOf(rows)), rows[3]![1], none);
    const codes = early.rows.flatMap(({ doubts }) => doubts.map(({ code }) => code));
    expect(codes).toContain('in-the-future');
    const [first] = rows;
    const before = reviewTicks(outcome, ticksOf(textOf([[first![0], NOW - 60]])), now, none);
    expect(before.rows[0]!.beforePack).toBe(true);
    expect(isAsked(before.rows[0]!)).toBe(true);
    expect(isRefused(before.rows[0]!)).toBe(false);
  });

  it('another build is refused whole, an older plan is asked about, an unknown stage not taken', () => {
    const other = reviewTicks(outcome, ticksOf(textOf(rows, { build: 'other' })), now, none);
    expect([other.otherBuild, other.rows, other.entries]).toEqual([true, [], []]);
    const old = textOf(rows, {
      plan: content.plan.replace(/.$/, (digit) => (digit === '0' ? '1' : '0')),
    });
    expect(reviewTicks(outcome, ticksOf(old), now, none).olderPlan).toBe(true);
    const unknown = reviewTicks(outcome, ticksOf(textOf([['gilding/done', now]])), now, none);
    expect(unknown.rows[0]!.fault).toBe('not-in-plan');
    expect(unknown.entries).toEqual([]);
  });

  it('a print after the pack was made makes its plan the older one', () => {
    const printed = { at: '2099-01-01T00:00' };
    const { build } = outcome.detail;
    const later = { ...outcome, detail: { ...outcome.detail, build: { ...build, printed } } };
    const seen = reviewTicks(later as typeof outcome, ticksOf(textOf(rows)), now, none);
    expect(seen.olderPlan).toBe(true);
  });
});
