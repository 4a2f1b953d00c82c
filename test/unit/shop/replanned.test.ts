import { describe, expect, it } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import type { Build } from '../../../app/document/schema.ts';
import { FIRST_ANSWER, FULL_ANSWER, type Effort } from '../../../app/plan/outcome.ts';
import { acceptedRecord, printedRecord } from '../../../app/plan/replanPrinted.ts';
import {
  hasMoved,
  heldAtPrint,
  keepPrinted,
  replannedSincePrint,
} from '../../../app/shop/floor/replanned.ts';
import { isoToMinute, minuteToLocal } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const ZONE = 'Europe/Lisbon';
const planned = (build: Build, now = NOW, effort: Effort = FIRST_ANSWER) =>
  plan(build, library(), now, effort);
const onTheWall = planned(smallBuild(), NOW, FULL_ANSWER);
const printed = printedRecord(onTheWall, NOW)!;
const build = (edit: Partial<Build> = {}): Build => ({ ...smallBuild(), printed, ...edit });
const stage = (id: string) => onTheWall.result.stages.find((one) => one.id === id)!;
const local = (minute: number): string => {
  const { date, time } = minuteToLocal(minute, ZONE);
  return `${date}T${time}`;
};

/** Everything up to the trimming as printed, and that so many minutes late. */
function trimmedLate(lateMinutes: number): { document: Build; now: number } {
  const trim = stage('trim');
  const before = onTheWall.result.stages.filter(({ end }) => end !== null && end <= trim.start!);
  const shift = (iso: string) => local(isoToMinute(iso)! + lateMinutes);
  const records = [
    ...before.map((one) => ({
      stage: one.id,
      start: one.start!.slice(0, 16),
      end: one.end!.slice(0, 16),
    })),
    { stage: 'trim', start: shift(trim.start!), end: shift(trim.end!) },
  ];
  return { document: build({ records }), now: isoToMinute(trim.end!)! + lateMinutes };
}

const { document, now } = trimmedLate(1560);
const late = planned(document, now);
const seen = replannedSincePrint(late)!;

describe('the printed plan beside the one from now', () => {
  it('is the same while nothing has happened, and nothing without a print', () => {
    const same = replannedSincePrint(planned(build()))!;
    expect(hasMoved(same)).toBe(false);
    expect(same).toMatchObject({ moved: [], added: [], gone: [], at: printed.at, accepted: false });
    expect(same.kept).toBe(printed.stages.length);
    expect(replannedSincePrint(planned(smallBuild()))).toBeNull();
  });

  it('lists every stage to come that moved, from the printed moment to the new one', () => {
    expect(hasMoved(seen)).toBe(true);
    const now = new Map(late.result.stages.map((one) => [one.id, one]));
    const then = new Map(printed.stages.map((one) => [one.stage, one.start]));
    for (const one of seen.moved) {
      expect(local(one.from)).toBe(then.get(one.stage));
      expect(one.to).toBe(isoToMinute(now.get(one.stage)!.start!));
      expect(now.get(one.stage)!.state).toBeUndefined();
    }
    const others = late.result.stages.filter(
      ({ id, state }) => state === undefined && !seen.moved.some((one) => one.stage === id),
    );
    expect(others.map(({ id, start }) => [id, start!.slice(0, 16)])).toEqual(
      others.map(({ id }) => [id, then.get(id)]),
    );
    expect(seen.kept).toBe(others.length);
  });

  it('names the record behind a move, and what else had to move with it', () => {
    const reasons = seen.moved.map(({ why }) => why);
    const [first] = seen.moved;
    expect(first!.why).toMatch(/^“Trim.*” did not go as printed: |^Its printed hour is past/);
    expect(reasons.filter((why) => why.startsWith('Nothing stops it at its printed time'))).toEqual(
      [],
    );
  });

  it('a pin is the reason where it moves a stage by itself', () => {
    const pinned = planned(build({ pins: [{ stage: 'hardware', start: '2027-05-20T09:00' }] }));
    const moves = replannedSincePrint(pinned)!.moved;
    expect(moves.map(({ stage: id, why }) => [id, why])).toEqual([
      ['hardware', 'Its start is fixed by hand.'],
      ['hand-over', expect.stringContaining('has moved too')],
    ]);
  });

  it('accepted it is the plan that is compared with, and the paper stays noted', () => {
    const sheets = [{ id: 'week-1', lines: ['abc'] }];
    const noted = { ...late.detail.build.printed!, sheets };
    const own = {
      ...late,
      detail: { ...late.detail, build: { ...late.detail.build, printed: noted } },
    };
    const accepted = acceptedRecord(own, now)!;
    expect(accepted).toMatchObject({ at: printed.at, acceptedAt: local(now), sheets });
    const after = replannedSincePrint(planned({ ...document, printed: accepted }, now))!;
    expect(after).toMatchObject({ moved: [], accepted: true, at: local(now) });
  });

  it('a late record leaves nothing to keep: only what had to move has moved', () => {
    const pins = keepPrinted(document, seen, { now, zone: ZONE });
    const ahead = seen.moved.filter(({ from }) => from >= now);
    expect(pins).toEqual(ahead.map(({ stage: id, from }) => ({ stage: id, start: local(from) })));
    expect(ahead.length).toBeGreaterThan(0);
    expect([...heldAtPrint(seen, planned({ ...document, pins }, now))]).toEqual([]);
  });

  it('kept, what can stand at its old moment is fixed there, and the others are left alone', () => {
    const moved = build({ pins: [{ stage: 'hardware', start: '2027-05-20T09:00' }] });
    const changed = replannedSincePrint(planned(moved))!;
    const pins = keepPrinted(moved, changed, { now: NOW, zone: ZONE });
    const held = heldAtPrint(changed, planned({ ...moved, pins }));
    expect([...held]).toEqual(['hardware', 'hand-over']);
    const only = new Set(['hand-over']);
    expect(keepPrinted(moved, changed, { now: NOW, zone: ZONE, only })).toEqual([
      { stage: 'hardware', start: '2027-05-20T09:00' },
      { stage: 'hand-over', start: stage('hand-over').start!.slice(0, 16) },
    ]);
  });

  it('says what closed since, and what is still to be decided, the soonest first', () => {
    const route = { route: 'skin-gone', cures: ['skin-gone'], closes: onTheWall.result.now };
    const closed = planned({ ...document, printed: { ...printed, routes: [route] } }, now);
    expect(replannedSincePrint(closed)!.closed).toEqual([
      { route: 'skin-gone', cures: ['skin-gone'], at: NOW },
    ]);
    expect(printed.routes!.length).toBeGreaterThan(1);
    const open = replannedSincePrint({
      ...onTheWall,
      detail: {
        ...onTheWall.detail,
        build: { ...onTheWall.detail.build, printed: { ...printed } },
      },
    })!;
    expect(open.closed).toEqual([]);
    const kinds = open.decide.map(({ kind }) => kind);
    expect(kinds).toContain('start');
    expect(kinds).toContain('route');
    expect(open.decide.map(({ at }) => at)).toEqual(
      open.decide.map(({ at }) => at).toSorted((a, b) => a - b),
    );
  });
});
