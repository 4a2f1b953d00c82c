import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { freeId, pinStage, recordStage, unpinStage } from '../../../app/document/edit/change.ts';
import { spansFaultWords } from '../../../app/messages/typed.ts';
import { readSpans, formatSpans } from '../../../app/document/edit/hours.ts';
import { painterIndex, withPainter, withZone } from '../../../app/document/edit/part.ts';
import { getIn, setIn, type Draft } from '../../../app/document/edit/path.ts';
import { ownResin, ownRow } from '../../../app/document/edit/resin.ts';
import {
  assumedAt,
  assumptionsOf,
  emptyBuild,
  missingOf,
} from '../../../app/document/edit/start.ts';
import { forAll } from '../../support/draws.ts';

const frozen = <T>(value: T): T => {
  if (typeof value === 'object' && value !== null) {
    Object.freeze(value);
    Object.values(value).forEach(frozen);
  }
  return value;
};

describe('a field of the document', () => {
  const path = fc
    .array(fc.oneof(fc.constantFrom('part', 'room', 'zones', 'a'), fc.nat({ max: 2 })), {
      minLength: 1,
      maxLength: 4,
    })
    .map((keys) =>
      keys
        .map((k) => (typeof k === 'number' ? `[${k}]` : `.${k}`))
        .join('')
        .replace(/^\./, ''),
    )
    .filter((text) => !text.startsWith('['));

  it('reads back as written, wherever it is, and the original stays as it was', () => {
    forAll(
      fc.property(path, path, fc.integer(), (first, second, value) => {
        const before = frozen(setIn({} as Draft, first, 'other'));
        const copy = structuredClone(before);
        const after = setIn(before, second, value);
        expect(getIn(after, second)).toBe(value);
        expect(before).toEqual(copy);
      }),
      { seed: 1 },
    );
  });

  it('taken out, leaves no empty word behind', () => {
    const document = frozen({ room: { humidityPct: 60, dayFrom: '06:00' } }) as Draft;
    expect(setIn(document, 'room.humidityPct', undefined)).toEqual({ room: { dayFrom: '06:00' } });
  });
});

describe('an empty build', () => {
  it('names what is needed, one by one, until nothing is', () => {
    let document = emptyBuild('Europe/Lisbon', []);
    const steps: [string, unknown][] = [
      ['name', 'Roof'],
      ['unveiling', '2027-06-18T17:00'],
      ['part.zones[0].areaM2', 2],
      ['part.zones[0].outer', [{ cloth: 'c' }]],
      ['resin', { system: 'r', hardener: 'h' }],
      ['crew', [{ name: 'Ines' }]],
    ];
    for (const [i, [path, value]] of steps.entries()) {
      expect(missingOf(document)).toHaveLength(steps.length - i);
      const first = missingOf(document)[0]!.path.replaceAll('[]', '[0]');
      expect(first.startsWith(path)).toBe(true);
      document = setIn(document, path, value);
    }
    expect(missingOf(document)).toEqual([]);
  });

  it('already shows its assumptions', () => {
    const assumptions = assumptionsOf(withZone(emptyBuild('Europe/Lisbon', []), 0));
    expect(assumedAt(assumptions, 'room.temperatureC.day')?.value).toBe(20);
    expect(assumedAt(assumptions, 'mould.release')?.reason).not.toBe('');
    expect(assumedAt(assumptions, 'name')).toBeNull();
  });
});

describe('lists', () => {
  it('give out an id that is not taken, also by place', () => {
    expect(freeId({ crew: [{ name: 'A' }, { id: 'person-3', name: 'B' }] }, 'crew', 'person')).toBe(
      'person-4',
    );
  });

  it('hold one pin a stage, and every record', () => {
    let document: Draft = pinStage({}, 'trim', '2027-05-01T08:00', 'Trim').document;
    document = pinStage(document, 'trim', '2027-05-02T08:00', 'Trim').document;
    expect(document.pins).toEqual([{ stage: 'trim', start: '2027-05-02T08:00' }]);
    expect(unpinStage(document, 'trim', 'Trim').document.pins).toEqual([]);
    for (const end of [null, '2027-05-02T09:00']) {
      const record = { stage: 'trim', start: '2027-05-02T08:00', end };
      document = recordStage(document, record, 'Trim', null).document;
    }
    expect(document.records).toHaveLength(2);
  });

  it('settle the route with the first layup that is written down, and not before', () => {
    const joints = { 'skin-core': 'apart' } as const;
    const at = { start: '2027-03-02T08:00', end: null };
    const trimmed = recordStage({}, { stage: 'trim', ...at }, 'Trim', joints).document;
    expect(trimmed.route).toBeUndefined();
    const laid = recordStage(
      trimmed,
      { stage: 'layup:skin', ...at },
      'Outer skin',
      joints,
    ).document;
    expect(laid.route).toEqual({ joints });
    const other = { 'skin-core': 'one-bag' } as const;
    const later = recordStage(laid, { stage: 'layup:core', ...at }, 'Core bond', other).document;
    expect(later.route).toEqual({ joints });
  });

  it('find the painter among the outside jobs', () => {
    const document: Draft = { outside: [{ name: 'Van', kind: 'transport', workingDays: 1 }] };
    expect(painterIndex(document)).toBe(1);
    expect(withPainter(document).outside).toHaveLength(2);
    expect(withPainter(withPainter(document)).outside).toHaveLength(2);
  });

  it('keep the resin of one pot-life row as typed', () => {
    const row = { name: 'Tin', massG: 200, temperatureC: 20, minutes: 35, partsPer100ByMass: 30 };
    const document = ownResin(emptyBuild('UTC', []), row).document;
    expect(ownRow(document)).toEqual(row);
    const again = ownResin(document, { ...row, minutes: 40 }).document;
    expect(again.library?.resins).toHaveLength(1);
  });
});

describe('working hours as text', () => {
  it.each([
    ['07:30-12:00, 12:30-16:30', '07:30-12:00, 12:30-16:30'],
    ['7:30-12, 1230-16:30', '07:30-12:00, 12:30-16:30'],
    ['13 to 17, 8 to 12', '08:00-12:00, 13:00-17:00'],
    ['', ''],
  ])('%s', (text, said) => {
    const read = readSpans(text);
    expect(read.ok && formatSpans(read.spans)).toBe(said);
  });

  it.each([
    ['7-25', '"7-25": write hours as 07:30-16:30, from 00:00 to 24:00.'],
    ['12:00-08:00', '"12:00-08:00" ends before it begins.'],
    ['08:00-12:00, 11:00-13:00', '11:00-13:00 overlaps the span before it.'],
    ['mornings', '"mornings": write hours as 07:30-16:30, from 00:00 to 24:00.'],
  ])('%s is refused with a reason', (text, why) => {
    const read = readSpans(text);
    expect(!read.ok && spansFaultWords(read.fault)).toBe(why);
  });
});
