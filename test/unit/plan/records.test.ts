import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { counterEntry, writeRecords, type FloorEntry } from '../../../app/document/edit/records.ts';
import type { Build } from '../../../app/document/schema.ts';
import { doubtWords } from '../../../app/messages/records.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import {
  askAbout,
  atSecondHour,
  canBeTaken,
  impliedEntries,
  localMinuteOf,
} from '../../../app/plan/records.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const ZONE = 'Europe/Lisbon';
const apart = { route: { joints: { 'skin-core': 'apart', 'core-inner': 'apart' } } } as const;
const build = (records: readonly FloorEntry[] = []): Build => ({
  ...smallBuild(),
  ...apart,
  records: [...records],
});
const at = (document: Build, now = NOW) => plan(document, library(), now, FIRST_ANSWER);
const before = at(build());
const stageOf = (outcome: ReturnType<typeof at>, id: string) =>
  outcome.result.stages.find((stage) => stage.id === id)!;
const minute = (iso: string | null) => isoToMinute(iso!)!;

/** The skin's layup written down as planned, alone. */
const skin = stageOf(before, 'layup:skin');
const laid: FloorEntry = {
  stage: 'layup:skin',
  start: skin.start!.slice(0, 16),
  end: skin.end!.slice(0, 16),
};
const after = minute(skin.end) + 120;

describe('a record', () => {
  it('lets nothing that must have come before it be planned any more', () => {
    const outcome = at(build([laid]), after);
    const open = outcome.result.stages.filter((stage) => minute(stage.start) >= after);
    const kinds = open.map((stage) => stage.kind);
    for (const gone of ['mould', 'seal', 'release', 'resin-warm', 'rehearsal', 'order']) {
      expect(kinds).not.toContain(gone);
    }
    expect(stageOf(outcome, 'release')).toMatchObject({ state: 'implied' });
    expect(minute(stageOf(outcome, 'release').end)).toBeLessThanOrEqual(minute(skin.start));
    expect(stageOf(outcome, 'layup:skin')).toMatchObject({ state: 'done', start: skin.start });
    expect(stageOf(outcome, 'cure:skin')).toMatchObject({ state: 'running', start: skin.end });
    expect(stageOf(outcome, 'bag-off:skin').state).toBeUndefined();
  });

  it('of a bag taken off says that its gel was past and its vacuum watched', () => {
    const off = stageOf(before, 'bag-off:skin');
    const record = { stage: off.id, start: off.start!.slice(0, 16) };
    const now = minute(off.start) + 1;
    const outcome = at(build([record]), now);
    expect(stageOf(outcome, 'layup:skin').state).toBe('implied');
    for (const id of ['cure:skin', 'watched-vacuum:skin']) {
      expect(stageOf(outcome, id).state).toBe('done');
    }
    expect(stageOf(outcome, off.id).state).toBe('running');
  });

  it('asks for what it implies, in the order of the plan and with its planned times', () => {
    const asked = impliedEntries(before, [laid]);
    const order = asked.map((entry) => entry.stage);
    expect(order).toContain('release');
    expect(order.indexOf('mould')).toBeLessThan(order.indexOf('seal'));
    expect(order.indexOf('seal')).toBeLessThan(order.indexOf('release'));
    expect(asked.find(({ stage }) => stage === 'release')).toMatchObject({
      start: stageOf(before, 'release').start!.slice(0, 16),
      note: 'Written down afterwards, times as planned',
    });
    const { document } = writeRecords(build(), [...asked, laid], 'Outer skin laid');
    const outcome = at(document as Build, after);
    expect(outcome.result.stages.filter((stage) => stage.state === 'implied')).toEqual([]);
    expect(impliedEntries(outcome, [])).toEqual([]);
  });

  it('that came before the planned hour pulls what it implies before itself', () => {
    const early = { stage: 'layup:skin', start: '2027-04-19T10:00', end: '2027-04-19T11:00' };
    for (const entry of impliedEntries(before, [early])) {
      expect(entry.end! <= '2027-04-19T10:00', entry.stage).toBe(true);
      expect(entry.start <= entry.end!, entry.stage).toBe(true);
    }
  });

  it('without an end keeps its work going for as long as nobody says that it is over', () => {
    const trim = stageOf(before, 'release');
    const late = minute(trim.end) + 300;
    const outcome = at(build([{ stage: 'release', start: trim.start!.slice(0, 16) }]), late);
    expect(stageOf(outcome, 'release')).toMatchObject({ state: 'running' });
    expect(minute(stageOf(outcome, 'release').end)).toBe(late);
    expect(minute(stageOf(outcome, 'layup:skin').start)).toBeGreaterThan(late);
  });

  it('of work that hardens or dries lets the wait behind it run from its end, whoever looks and when', () => {
    for (const [work, wait] of [
      ['seal', 'wait:seal'],
      ['release', 'wait:release'],
      ['fair:1', 'wait:fair-1'],
    ] as const) {
      const { start, end } = stageOf(before, work);
      const planned = stageOf(before, wait);
      const record = { stage: work, start: start!.slice(0, 16), end: end!.slice(0, 16) };
      const ends = minute(planned.end);
      for (const [now, state] of [
        [minute(end) + 30, 'running'],
        [ends + 2000, 'done'],
      ] as const) {
        const outcome = at(build([record]), now);
        expect(stageOf(outcome, wait), `${wait} at ${now - ends}`).toMatchObject({
          state,
          start: end,
          end: planned.end,
        });
      }
    }
    const { end } = stageOf(before, 'seal');
    expect(stageOf(at(build([]), minute(end) + 30), 'wait:seal').state).toBeUndefined();
  });

  it('of work begun as planned keeps the hands of the plan, and its end', () => {
    const trim = stageOf(before, 'trim');
    expect(trim.people).toHaveLength(2);
    const begun = { stage: 'trim', start: trim.start!.slice(0, 16), end: null };
    const outcome = at(build([begun]), minute(trim.start));
    expect(stageOf(outcome, 'trim')).toMatchObject({ people: trim.people, end: trim.end });
  });

  it('keeps its time against a pin and against people who are elsewhere', () => {
    const now = minute(stageOf(before, 'mould').start);
    const start = localMinuteOf(now, ZONE);
    const records = ['mould', 'cutting'].map((stage) => ({ stage, start }));
    const pins = [{ stage: 'mould', start: '2027-05-03T09:00' }];
    const outcome = at({ ...build(records), pins }, now);
    for (const { stage } of records) expect(minute(stageOf(outcome, stage).start)).toBe(now);
  });

  it('is gone once a counter-entry takes it back, and the one before holds again', () => {
    const begun: FloorEntry = { stage: 'layup:skin', start: laid.start };
    const wrong: FloorEntry = { ...laid };
    const backToBegun = at(build([begun, wrong, counterEntry(wrong, begun)]), after);
    expect(stageOf(backToBegun, 'layup:skin').state).toBe('running');
    const back = at(build([begun, wrong, counterEntry(wrong, null)]), after);
    expect(stageOf(back, 'layup:skin').state).toBeUndefined();
    expect(minute(stageOf(back, 'release').start)).toBeGreaterThanOrEqual(after);
  });

  it('of a layup settles its joints, whatever route the document leaves open', () => {
    const joints = { 'skin-core': 'apart', 'core-inner': 'apart' } as const;
    const off = { stage: 'layup:core', start: '2027-05-10T09:00', end: '2027-05-10T11:00', joints };
    const open = { ...smallBuild(), records: [{ ...laid, joints }, off] };
    const { result } = plan(open, library(), minute('2027-05-10T12:00+01:00'), {
      scope: 'full',
      schedules: 1,
    });
    const possible = result.routes.filter((route) => route.possible);
    expect(possible.length).toBeGreaterThan(0);
    expect(possible.every((route) => route.joints['skin-core'] === 'apart')).toBe(true);
  });
});

describe('a record that cannot be, or may not be', () => {
  const outcome = at(build([laid]), after);
  const ask = (...entries: FloorEntry[]) => askAbout(outcome, entries, after);
  const words = (...entries: FloorEntry[]) =>
    ask(...entries).flatMap(({ entry, doubts }) =>
      doubts.map((doubt) => doubtWords(doubt, entry.stage, ZONE)),
    );

  it('is refused where it ends before it begins', () => {
    const [asked] = ask({ stage: 'trim', start: '2027-04-20T10:00', end: '2027-04-20T09:00' });
    expect(canBeTaken(asked!.doubts)).toBe(false);
    expect(doubtWords(asked!.doubts[0]!, 'Trim', ZONE)).toBe(
      '“Trim” would end Tuesday 20 April, 09:00, before it begins Tuesday 20 April, 10:00. One of the two is wrong.',
    );
  });

  it('is asked about where it lies in the future', () => {
    const start = localMinuteOf(after + 90, ZONE);
    const [asked] = ask({ stage: 'bag-off:skin', start });
    expect(asked!.doubts).toContainEqual({ code: 'in-the-future', at: after + 90, now: after });
    expect(canBeTaken(asked!.doubts)).toBe(true);
  });

  it('is asked about where one person is at two places', () => {
    const [a, b] = ask(
      { stage: 'trim', start: '2027-04-20T09:00', end: '2027-04-20T11:00', people: ['person-1'] },
      { stage: 'fair:1', start: '2027-04-20T10:00', end: '2027-04-20T12:00', people: ['person-1'] },
    );
    for (const one of [a!, b!]) {
      const [two] = one.doubts.filter((doubt) => doubt.code === 'two-places');
      expect(two).toMatchObject({ person: 'Mina Vale' });
      expect(two!.code === 'two-places' && two!.until - two!.from).toBe(60);
    }
  });

  it('is asked about where its stage is written down already, and not where it only ends it', () => {
    expect(words({ ...laid, start: '2027-04-19T08:00' })[0]).toMatch(
      /^“layup:skin” is written down already, .* Does this correct it\?$/,
    );
    const going = at(build([{ stage: 'mould', start: '2027-04-19T09:00' }]), after);
    const end = { stage: 'mould', start: '2027-04-19T09:00', end: '2027-04-19T12:00' };
    expect(askAbout(going, [end], after)[0]!.doubts).toEqual([]);
  });

  it('is asked about where it comes before its turn', () => {
    const early = stageOf(outcome, 'bag-off:skin');
    expect(early.start).not.toBeNull();
    const coreFit = at(
      build([{ stage: 'release', start: '2027-04-30T09:00', end: '2027-04-30T15:00' }]),
      after,
    );
    const [asked] = askAbout(
      coreFit,
      [{ stage: 'layup:skin', start: '2027-04-30T14:00', end: '2027-04-30T16:00' }],
      after,
    );
    expect(asked!.doubts.map((doubt) => doubt.code)).toContain('before-its-turn');
  });

  it('is asked about where a bag comes off before its resin can be hard', () => {
    const [asked] = ask({ stage: 'bag-off:skin', start: localMinuteOf(after - 30, ZONE) });
    const [early] = asked!.doubts.filter((doubt) => doubt.code === 'too-early');
    const cure = outcome.result.cures.find(({ id }) => id === 'skin')!;
    expect(early).toEqual({ code: 'too-early', at: after - 30, from: minute(cure.debagFrom) });
    expect(canBeTaken(asked!.doubts)).toBe(true);
  });

  it('is asked about where the clock shows its hour twice, and keeps the one that it was', () => {
    // Lisbon: at 02:00 summer time on 31 October 2027 the clocks go back to 01:00.
    const first = minute('2027-10-31T01:30+01:00');
    const entry = { stage: 'mould', start: '2027-10-30T20:00', end: '2027-10-31T01:30' };
    const [asked] = askAbout(outcome, [entry], first + 600);
    const [twice] = asked!.doubts.filter((doubt) => doubt.code === 'shown-twice');
    expect(twice).toEqual({ code: 'shown-twice', first, second: first + 60 });
    expect(doubtWords(twice!, 'Mould', ZONE)).toContain('is shown twice, 1 h apart');
    const second = atSecondHour(entry, ZONE);
    expect(second).toEqual({ ...entry, end: '2027-10-31T01:30+00:00' });
    expect(askAbout(outcome, [second], first + 600)[0]!.doubts.map(({ code }) => code)).toEqual(
      asked!.doubts.map(({ code }) => code).filter((code) => code !== 'shown-twice'),
    );
    const lived = at(build([second]), first + 600);
    expect(minute(stageOf(lived, 'mould').end)).toBe(first + 60);
  });

  it('stamped in the second of two hours says which, and never ends before it began', () => {
    const first = minute('2027-10-31T01:50+01:00');
    const stamps = [first, first + 20].map((at) => localMinuteOf(at, ZONE));
    expect(stamps).toEqual(['2027-10-31T01:50', '2027-10-31T01:10+00:00']);
    const entry = { stage: 'trim', start: stamps[0]!, end: stamps[1]! };
    const codes = askAbout(outcome, [entry], first + 60)[0]!.doubts.map(({ code }) => code);
    expect(codes).not.toContain('ends-before-start');
  });

  it('is asked about where no plan has such a stage', () => {
    expect(ask({ stage: 'own:thing', start: '2027-04-19T08:00' })[0]!.doubts).toEqual([
      { code: 'not-in-plan' },
    ]);
  });
});
