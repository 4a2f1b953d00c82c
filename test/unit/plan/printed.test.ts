import { describe, expect, it } from 'vitest';
import { planResultSchema, type Build, type StageResult } from '../../../app/document/schema.ts';
import { FIRST_ANSWER, FULL_ANSWER, type Effort } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { printedRecord } from '../../../app/plan/replanPrinted.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

const planned = (build: Build, now = NOW, effort: Effort = FIRST_ANSWER) =>
  plan(build, library(), now, effort);

const onTheWall = planned(smallBuild(), NOW, FULL_ANSWER);
const printed = printedRecord(onTheWall, NOW)!;
const build = (edit: Partial<Build> = {}): Build => ({ ...smallBuild(), printed, ...edit });
const stageOf = (stages: readonly StageResult[], id: string) => stages.find((s) => s.id === id)!;
const local = (iso: string | null) => iso!.slice(0, 16);
const shifted = (iso: string | null, minutes: number) =>
  new Date((isoToMinute(iso!)! + 60 + minutes) * 60_000).toISOString().slice(0, 16);

/** Everything up to a stage done as printed, and that one so many minutes late. */
function doneUpTo(id: string, lateMinutes: number): { records: Build['records']; now: number } {
  const last = stageOf(onTheWall.result.stages, id);
  const before = onTheWall.result.stages.filter(
    (stage) => stage.id !== id && stage.end !== null && stage.end <= last.start!,
  );
  return {
    records: [
      ...before.map((s) => ({ stage: s.id, start: local(s.start), end: local(s.end) })),
      { stage: id, start: shifted(last.start, lateMinutes), end: shifted(last.end, lateMinutes) },
    ],
    now: isoToMinute(last.end!)! + lateMinutes,
  };
}

describe('a printed schedule', () => {
  it('stays as it hangs on the wall while nothing is in its way, for first and full answers', () => {
    for (const effort of [FIRST_ANSWER, FULL_ANSWER]) {
      const { result } = planned(build(), NOW, effort);
      expect(result.moved).toEqual([]);
      expect(result.stages.map((s) => [s.id, s.start])).toEqual(
        onTheWall.result.stages.map((s) => [s.id, s.start]),
      );
      expect(result.findings.some((f) => f.code === 'printed-moved')).toBe(false);
      expect(planResultSchema.safeParse(result).success).toBe(true);
    }
  });

  it('is not pulled forward by a warmer room, but for what depends on the gel itself', () => {
    const warm = build({ room: { temperatureC: { day: 24, night: 24 } } });
    const moved = planned(warm).result.moved!;
    const sooner = moved.filter((one) => isoToMinute(one.to)! < isoToMinute(one.from)!);
    expect(sooner.filter((one) => !one.stage.startsWith('gel-look:'))).toEqual([]);
    expect(planned({ ...warm, printed: null }).result.stages).not.toEqual(onTheWall.result.stages);
  });

  it('moves only what a late record pushes, and says from when to when', () => {
    const { records, now } = doneUpTo('trim', 1560);
    const first = planned(build({ records }), now).result;
    const full = planned(build({ records }), now, FULL_ANSWER).result;
    expect(full.moved).toEqual(first.moved);
    const moved = new Map(first.moved!.map((one) => [one.stage, one]));
    expect(moved.get('trim')!.from).toBe(stageOf(onTheWall.result.stages, 'trim').start);
    for (const stage of first.stages) {
      const was = stageOf(onTheWall.result.stages, stage.id).start;
      expect([stage.id, moved.get(stage.id)?.to ?? was]).toEqual([stage.id, stage.start]);
      // Nothing comes sooner than the wall says.
      expect(isoToMinute(stage.start!)!).toBeGreaterThanOrEqual(isoToMinute(was!)!);
    }
    expect(moved.size).toBeLessThan(first.stages.length / 2);
    const note = first.findings.find((f) => f.code === 'printed-moved')!;
    expect(note.severity).toBe('note');
    expect(note.message).toContain('was');
    expect(note.numbers['stagesMoved']).toBe(moved.size - 1);
  });

  it('keeps pins where they are', () => {
    const hardware = stageOf(onTheWall.result.stages, 'hardware');
    const start = '2027-05-20T09:00';
    const { result } = planned(build({ pins: [{ stage: 'hardware', start }] }));
    expect(stageOf(result.stages, 'hardware').start).toContain(start);
    expect(result.moved!.map((one) => one.stage)).toEqual(['hardware', 'hand-over']);
    expect(result.moved![0]!.from).toBe(hardware.start);
  });

  it('gives way where only that meets the date', () => {
    const end = isoToMinute(onTheWall.result.stages.at(-1)!.end!)!;
    const slow = printed.stages.map((one) => ({
      ...one,
      start: one.stage === 'hand-over' ? '2027-06-21T09:00' : one.start,
    }));
    const unveiling = '2027-06-01T18:00';
    const { result } = planned(build({ printed: { ...printed, stages: slow }, unveiling }));
    expect(result.fits).toBe(true);
    expect(result.moved!.map((one) => one.stage)).toEqual(['hand-over']);
    expect(isoToMinute(result.moved![0]!.to)!).toBeLessThanOrEqual(end);
  });

  it('says nothing of moves while nothing is printed', () => {
    expect(planned(smallBuild()).result.moved).toBeUndefined();
    expect('moved' in onTheWall.result).toBe(false);
  });
});
