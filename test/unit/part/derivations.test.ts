import { describe, expect, it } from 'vitest';
import { explainPanel, explainWork, type Derivation } from '../../../app/part/derivations.ts';
import { measurePart } from '../../../app/part/measure.ts';
import { build, library, zone } from './fixtures.ts';

const full = build([zone(), zone({ id: 'b', areaM2: 0.5, shape: 'double' })]);
const part = measurePart(full, library);
const input = (derivation: Derivation, name: string): number =>
  derivation.inputs.find((one) => one.name === name)!.value;

describe('a figure opened up', () => {
  it('work: rounds and layups add up to their stage, coats are named', () => {
    const sum = (kind: 'fair' | 'layup'): number =>
      explainWork(kind, full, library, part).inputs.reduce((total, one) => total + one.value, 0);
    expect(sum('fair')).toBeCloseTo(part.workFor('fair').personMinutes, 9);
    expect(sum('layup')).toBeCloseTo(part.workFor('layup').personMinutes, 9);
    const release = explainWork('release', full, library, part);
    const mouldM2 = 1.5 + 0.12 * part.edgeM;
    expect(
      input(release, 'Set-up') +
        input(release, 'Coats of release') * input(release, 'Per square metre of coat') * mouldM2,
    ).toBeCloseTo(release.results[0]!.value, 9);
  });

  it('work and deflection: every rate names where it comes from', () => {
    const work = explainWork('demould', full, library, part);
    expect(work.results[0]!.value).toBe(part.workFor('demould').personMinutes);
    const panel = explainPanel(full.part.zones[0]!, full, library)!;
    for (const derivation of [work, panel]) {
      expect(derivation.source).not.toBe('');
      for (const { value, provenance } of derivation.inputs) {
        expect(Number.isFinite(value)).toBe(true);
        if (provenance) expect(provenance.source).not.toBe('');
      }
    }
  });
});
