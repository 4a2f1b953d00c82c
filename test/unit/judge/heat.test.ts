/** Reaction heat: told where it matters, hidden where it does not. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { planFor, ROOMY, withZone } from './builds.ts';

const GLASS = { cloth: 'glass-twill-300' };
const told = (document: Build, code: string) =>
  planFor(document, 'full').result.findings.filter((finding) => finding.code === code);

describe('reaction heat', () => {
  it('is not told of thin skins in batches that are spread in time', () => {
    expect(told(ROOMY, 'stack-too-hot')).toEqual([]);
    expect(told(ROOMY, 'pot-runaway')).toEqual([]);
  });
  it('stops a thick fast stack on a mould that does not take it', () => {
    const fast: Build = { ...ROOMY, resin: { system: 'orrin-40', hardener: 'fast' } };
    const thick = withZone(fast, { areaM2: 0.2, outer: Array.from({ length: 40 }, () => GLASS) });
    const [finding] = told(thick, 'stack-too-hot');
    expect(finding!.severity).toBe('stop');
    const { peakC, limitC } = finding!.numbers as { peakC: number; limitC: number };
    expect(peakC).toBeGreaterThan(limitC);
    // Forty plies of 300 g/m2 heat by tens of degrees over a room at 21 C, and what is said is what is meant.
    expect(peakC).toBeGreaterThan(21 + 20);
    expect(finding!.message).toContain(
      `to ${peakC.toFixed(0)} °C; it takes ${limitC.toFixed(0)} °C at most`,
    );
  });
  it('speaks against the route that lays it all wet, and not against separate cures', () => {
    const plies = Array.from({ length: 18 }, () => GLASS);
    const core = { material: 'eps-20', thicknessMm: 3 };
    const warm = { ...ROOMY, room: { temperatureC: { day: 25, night: 24 } } };
    const thick = withZone(warm, { areaM2: 0.1, outer: plies, inner: plies, core });
    const { routes } = planFor(thick, 'full').result;
    const codes = (id: string) =>
      routes.find((one) => one.id === id)!.findings.map((one) => one.code);
    expect(codes('skin+core+inner')).toContain('stack-too-hot');
    expect(routes.find((one) => one.id === 'skin+core+inner')!.possible).toBe(false);
    expect(codes('skin/core/inner')).not.toContain('stack-too-hot');
  });
  it('warns of a batch that outlasts its pot life on the way to the mould', () => {
    const alone: Build = { ...ROOMY, crew: [{ name: 'Ida Moss' }] };
    const hot = { ...alone, room: { temperatureC: { day: 32, night: 30 } } };
    const hurried = withZone(
      { ...hot, resin: { system: 'orrin-40', hardener: 'fast' } },
      { areaM2: 3 },
    );
    const [finding] = told(hurried, 'pot-runaway');
    expect(finding!.message).toMatch(/stays workable \d+ min and takes \d+ min to spread/);
  });
});
