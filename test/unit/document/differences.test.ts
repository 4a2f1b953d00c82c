/** What differs between two states of a build, and a build begun from another. */
import { describe, expect, it } from 'vitest';
import { differences } from '../../../app/document/differences.ts';
import { duplicateOf } from '../../../app/document/edit/duplicate.ts';
import { setIn, type Draft } from '../../../app/document/edit/path.ts';
import { readBuild } from '../../../app/document/read.ts';
import sample from '../../../samples/harbour-gate-sign.build.json' with { type: 'json' };
import { library } from '../../library.ts';

const SIGN = sample as unknown as Draft;
const said = (after: Draft) =>
  differences(SIGN, after).map(({ field, before, after: now }) => [field, before, now]);

describe('differences', () => {
  it('are none between a build and itself, however it is written', () => {
    expect(differences(SIGN, JSON.parse(JSON.stringify(SIGN)) as Draft)).toEqual([]);
  });

  it('name the field with its value before and after', () => {
    expect(said(setIn(SIGN, 'name', 'Pier sign'))).toEqual([
      ['Name of the build', SIGN.name, 'Pier sign'],
    ]);
    const area = SIGN.part!.zones[0]!.areaM2;
    expect(said(setIn(SIGN, 'part.zones[0].areaM2', area + 1))).toEqual([
      ['Area, m²', String(area), String(area + 1)],
    ]);
  });

  it('say what came and what went', () => {
    const [first] = differences(SIGN, setIn(SIGN, 'earliestStart', '2027-04-14T08:00'));
    expect(first).toMatchObject({ field: 'Work may begin', after: '2027-04-14 08:00' });
    expect(said(setIn(SIGN, 'unveiling', undefined))[0]![2]).toBeNull();
  });

  it('leave out what the program keeps for itself', () => {
    expect(
      differences(SIGN, { ...SIGN, id: 'other', printed: null, library: {} } as Draft),
    ).toEqual([]);
  });
});

describe('a duplicate', () => {
  it('is a build of its own without what happened to the first one', () => {
    const worked: Draft = {
      ...SIGN,
      id: 'first',
      records: [{ stage: 'order', start: '2027-04-12T08:00', end: null }] as Draft['records'],
      pins: [{ stage: 'order', start: '2027-04-12T08:00' }],
    };
    const copy = duplicateOf(worked, 'Second sign');
    expect(copy).toMatchObject({ name: 'Second sign', part: SIGN.part, crew: SIGN.crew });
    for (const key of ['id', 'records', 'pins', 'printed', 'lessons'])
      expect(copy).not.toHaveProperty(key);
    expect(readBuild(JSON.stringify(copy), library).ok).toBe(true);
    expect(worked.records).toHaveLength(1);
  });
});
