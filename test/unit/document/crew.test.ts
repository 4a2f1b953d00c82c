/** The crew as one line of names. */
import { describe, expect, it } from 'vitest';
import { nameCrew, nameTwice, readNames, removePerson } from '../../../app/document/edit/crew.ts';
import type { Draft } from '../../../app/document/edit/path.ts';

const crewOf = (document: Draft) => (document.crew ?? []).map(({ id, name }) => [id, name]);
const TWO: Draft = {
  crew: [{ name: 'Odile', hours: { mon: [['09:00', '12:00']] } }, { name: 'Bram' }],
  busy: [
    {
      id: 'busy-1',
      who: { kind: 'person', id: 'person-1' },
      what: 'Dentist',
      from: '2027-04-12T09:00',
      until: '2027-04-12T12:00',
    },
  ],
};

describe('names in one line', () => {
  it.each([
    ['Odile, Bram', ['Odile', 'Bram']],
    ['Odile and Bram', ['Odile', 'Bram']],
    ['Odile; Bram & Cy Anders', ['Odile', 'Bram', 'Cy Anders']],
    ['Odile + Bram,', ['Odile', 'Bram']],
    ['Andrea Sanders', ['Andrea Sanders']],
    [' , ', []],
  ])('%j', (text, names) => {
    expect(readNames(text)).toEqual(names);
  });

  it('says which stands twice', () => {
    expect(nameTwice(['Odile', 'Bram', 'odile'])).toBe('odile');
    expect(nameTwice(['Odile', 'Bram'])).toBeNull();
  });
});

describe('a crew by its names', () => {
  it('becomes several people, each with an id', () => {
    const { document, label } = nameCrew({}, ['Odile', 'Bram'], 'Who works on it');
    expect(crewOf(document)).toEqual([
      ['person-1', 'Odile'],
      ['person-2', 'Bram'],
    ]);
    expect(label).toBe('Who works on it: Odile, Bram');
  });

  it('keeps hours and other jobs of whoever stays, in whatever order', () => {
    const { document } = nameCrew(TWO, ['Cy', 'Bram', 'Odile'], 'Crew');
    expect(crewOf(document)).toEqual([
      ['person-3', 'Cy'],
      ['person-2', 'Bram'],
      ['person-1', 'Odile'],
    ]);
    expect(document.crew![2]!.hours).toEqual(TWO.crew![0]!.hours);
    expect(document.busy).toHaveLength(1);
  });

  it('takes a new name in the place of one that went as that name spelt anew', () => {
    const { document } = nameCrew(TWO, ['Odille', 'Bram'], 'Crew');
    expect(crewOf(document)[0]).toEqual(['person-1', 'Odille']);
    expect(document.crew![0]!.hours).toEqual(TWO.crew![0]!.hours);
    expect(document.busy).toHaveLength(1);
  });

  it('takes whoever is left off the build, with the other jobs they had', () => {
    const { document } = nameCrew(TWO, ['Bram'], 'Crew');
    expect(crewOf(document)).toEqual([['person-2', 'Bram']]);
    expect(document.busy).toEqual([]);
  });

  it('gives nobody the other jobs of a person who is taken off', () => {
    const { document, label } = removePerson(TWO, 0);
    expect(label).toBe('Remove Odile');
    expect(crewOf(document)).toEqual([['person-2', 'Bram']]);
    expect(document.busy).toEqual([]);
  });
});
