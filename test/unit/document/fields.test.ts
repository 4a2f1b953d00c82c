/** Words, panel and reason of every field, found by its path in a document. */
import { describe, expect, it } from 'vitest';
import { assume } from '../../../app/document/assume.ts';
import {
  fieldLabel,
  fieldWords,
  NEEDED_FIELDS,
  panelOf,
  valueWords,
} from '../../../app/document/fields.ts';
import { buildSchema } from '../../../app/document/schema.ts';
import { smallBuild } from '../../support/builds.ts';

describe('fields in words', () => {
  it('every assumption of a bare document has words of its own and a reason', () => {
    const { assumptions } = assume({
      ...smallBuild(),
      outside: [{ name: 'Spray', workingDays: 2 }],
    });
    expect(assumptions.length).toBeGreaterThan(20);
    for (const { path, reason } of assumptions) {
      expect([path, fieldWords(path) === path, reason === '']).toEqual([path, false, false]);
    }
  });

  it('count the places of a list after the first', () => {
    expect(fieldWords('part.zones[0].edgeM')).toBe('Free edge, m');
    expect(fieldWords('part.zones[2].edgeM')).toBe('Free edge, m (3)');
    expect(fieldLabel('part.zones[2].edgeM')).toBe('Free edge');
    expect(fieldWords('no.such[1].field')).toBe('no.such[1].field (2)');
  });

  it('lead to the panel of the nearest field that has one', () => {
    expect(panelOf('part.zones[0].core.treatment')).toBe('part');
    expect(panelOf('part.questions[1].answer')).toBe('questions');
    expect(panelOf('room.temperatureC.night')).toBe('resin');
    expect(panelOf('gear.tents')).toBe('mould');
    expect(panelOf('crew[0].hours.mon[0]')).toBe('people');
    expect(panelOf('(file)')).toBe('job');
  });

  it('a document without any one of the needed fields is refused', () => {
    expect(NEEDED_FIELDS.length).toBeGreaterThan(5);
    for (const { path } of NEEDED_FIELDS) {
      const document = structuredClone(smallBuild()) as Record<string, unknown>;
      const keys = path.replaceAll('[]', '.0').split('.');
      const last = keys.pop()!;
      const owner = keys.reduce<Record<string, unknown>>(
        (at, key) => at[key] as Record<string, unknown>,
        document,
      );
      delete owner[last];
      expect([path, buildSchema.safeParse(document).success]).toEqual([path, false]);
    }
  });

  it('say values in few words', () => {
    expect(valueWords({ mon: [['07:30', '12:00']], tue: [] })).toBe('mon 07:30–12:00, tue none');
    expect(valueWords(false)).toBe('no');
    expect(valueWords('2027-05-14T18:00')).toBe('2027-05-14 18:00');
  });
});
