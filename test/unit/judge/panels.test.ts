/** Zones that give under the painter, and what holds them. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { applyLever } from '../../../app/judge/levers.ts';
import { LOOKUPS } from '../../../app/plan/lookups.ts';
import { LIBRARY, NOW, planFor, ROOMY, withPart, withRow, withZone } from './builds.ts';

/** A wide flat panel with a thin core. */
const SOFT: Build = withZone(ROOMY, {
  name: 'Wide panel',
  areaM2: 0.6,
  sizeM: [1, 0.6],
  shape: 'flat',
  core: { material: 'pvc-80', thicknessMm: 8 },
});
const told = (document: Build, library = LIBRARY) =>
  planFor(document, 'full', NOW, library).result.findings.find((one) => one.code === 'panel-soft');

describe('a panel that gives', () => {
  const finding = told(SOFT)!;

  it('is told with millimetres, limit and the plies that hold it', () => {
    expect(finding.message).toMatch(
      /^Wide panel gives [\d.]+ mm under a (sanding block|hand); 3 mm is the limit\. \d+ local pl(y|ies) of .* between the skins would hold it: [\d.]+ h and [\d.]+ kg more, after demould [\d.]+ h\.$/,
    );
  });
  it('is cheapest to hold between the skins, and after demould where the table pays for it', () => {
    const { betweenHours, afterHours, betweenKg } = finding.numbers;
    expect(betweenHours as number).toBeLessThan(afterHours as number);
    expect(betweenKg as number).toBeGreaterThan(0);
    const paid = withRow(LIBRARY, 'consequences', 'local-after', { extraHours: -40 });
    expect(told(SOFT, paid)!.message).toContain('after demould would hold it');
  });
  it('is cleared by its lever', () => {
    const [lever] = finding.levers;
    expect(lever!.clears).toEqual(['panel-soft']);
    expect(told(applyLever(SOFT, lever!.id, LIBRARY, LOOKUPS)!)).toBeUndefined();
  });
  it('is not told of a stiff panel, nor of a hidden one', () => {
    expect(told(ROOMY)).toBeUndefined();
    expect(told(withPart(SOFT, { finish: 'hidden' }))).toBeUndefined();
  });
  it('gets a bound and no figure where it goes beyond its thickness', () => {
    const thin = withZone(SOFT, { shape: 'double', sizeM: [2, 1.6], core: null });
    const beyond = told(thin)!;
    expect(beyond.message).toMatch(
      /^Wide panel cannot be calculated as a flat panel: under a (sanding block|hand) it would go beyond [\d.]+ mm, its own thickness, where plate theory ends\./,
    );
    expect(beyond.numbers).toMatchObject({ handMm: null, blockMm: null });
  });
  it('says what skins laid askew cost it', () => {
    const plies = [{ cloth: 'carbon-ud-150', angleDeg: 30 }];
    const askew = told(withZone(SOFT, { outer: plies, inner: plies }))!;
    expect(askew.message).toMatch(
      /Its skins are not balanced and twist as they bend: [\d.]+ times softer is counted/,
    );
    expect(askew.numbers['coupling']).toBeGreaterThan(1.4);
  });
  it('depends on the limit of the library', () => {
    expect(
      told(SOFT, withRow(LIBRARY, 'practice', 'deflection-limit-mm', { value: 50 })),
    ).toBeUndefined();
  });
});
