import { describe, expect, it } from 'vitest';
import type { Build, PlanResult } from '../../../app/document/schema.ts';
import { GEAR } from '../../../app/document/ids.ts';
import { FULL_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import { library, NOW, smallBuild } from '../../support/builds.ts';

/** The build with people whose ids are `ids`, in the order of its crew. */
const crewAs = (build: Build, ids: readonly string[]): Build => ({
  ...build,
  crew: build.crew.map((person, i) => ({ ...person, id: ids[i]! })),
});

const shapeOf = (result: PlanResult, ids: readonly string[]) =>
  result.stages.map(({ id, start, end, people, gear }) => ({
    id,
    start,
    end,
    gear,
    people: people.map((person) => ids.indexOf(person)),
  }));

describe('a crew that goes by the names of the gear', () => {
  const answer = (ids: readonly string[]) =>
    plan(crewAs(smallBuild(), ids), library(), NOW, FULL_ANSWER).result;
  const plainIds = GEAR.map((_kind, i) => `person-${i}`);

  it('is planned as any other crew, with the gear it uses told apart', () => {
    const [named, plainly] = [answer(GEAR), answer(plainIds)];
    expect(shapeOf(named, GEAR)).toEqual(shapeOf(plainly, plainIds));
    expect(named.fits).toBe(plainly.fits);
    const cure = named.stages.find((stage) => stage.kind === 'cure')!;
    expect(cure).toMatchObject({ people: [], gear: ['pump', 'mould'] });
    const layup = named.stages.find((stage) => stage.kind === 'layup')!;
    expect(layup.people).toContain('mould');
    expect(layup.gear).not.toContain('mould');
  });
});
