/** Zones of one part that are seen differently: each gets its own rounds, coats and promise. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { consequencesOf } from '../../../app/plan/consequences.ts';
import { routeOf } from '../../../app/route/routes.ts';
import { ROOMY, contextFor, planFor, withPart } from '../judge/builds.ts';

type Zone = Build['part']['zones'][number];
const [ZONE] = ROOMY.part.zones;
const halves = (...finishes: Zone['finish'][]): Build =>
  withPart(ROOMY, {
    zones: finishes.map((finish) => ({
      ...ZONE!,
      areaM2: ZONE!.areaM2 / finishes.length,
      edgeM: 2,
      finish,
    })),
  });
const massOf = (document: Build) => contextFor(document).part.massKg;
const stagesOf = (document: Build) => planFor(document).result.stages;
const merged = (document: Build): Build => ({
  ...document,
  route: { joints: { 'skin-core': 'one-bag' } },
});
const codes = (document: Build) => {
  const { result } = planFor(merged(document));
  return [...result.findings, ...result.routes.flatMap((route) => route.findings)].map(
    (finding) => finding.code,
  );
};

describe('a finish for each zone', () => {
  it('is the finish of the part where a zone says nothing', () => {
    expect(massOf(halves(null, null))).toEqual(massOf(halves('painted', 'painted')));
  });

  it('fairs, primes and paints only the zones that are painted', () => {
    const [all, half] = [massOf(halves('painted', 'painted')), massOf(halves('painted', 'hidden'))];
    expect(half.fairing).toBeCloseTo(all.fairing / 2, 9);
    expect(half.paint).toBeCloseTo(all.paint / 2, 9);
    expect(half.resin).toBeCloseTo(all.resin, 9);
  });

  it('takes primer for the painted half and clear coat for the clear one', () => {
    const kit = contextFor(halves('painted', 'clear')).part.kitFor(3, 6);
    const whole = contextFor(halves('painted', 'painted')).part.kitFor(3, 6);
    const amount = (lines: typeof kit, id: string) =>
      lines.find((line) => line.id === id)?.quantity ?? 0;
    const primers = whole.filter((line) => /primer/i.test(line.name));
    expect(primers.length).toBeGreaterThan(0);
    for (const { id, quantity } of primers) {
      expect(amount(kit, id)).toBeGreaterThan(0);
      expect(amount(kit, id)).toBeLessThan(quantity);
    }
    const clear = kit.filter((line) => !whole.some((other) => other.id === line.id));
    expect(clear.map((line) => line.name).join()).toMatch(/clear/i);
  });

  it('promises what its most demanding zone asks: one clear zone refuses a merge', () => {
    expect(codes(halves('painted', 'painted'))).not.toContain('finish-not-reachable');
    expect(codes(halves('painted', 'clear'))).toContain('finish-not-reachable');
  });

  it('charges a merge by the area that is seen', () => {
    const filler = (document: Build) => {
      const context = contextFor(document);
      const route = routeOf(context.part.layups, { 'skin-core': 'one-bag' });
      const { lines } = consequencesOf({ ...context, route });
      return lines.find((line) => line.event === 'joint-one-bag')!.fillerKg;
    };
    expect(filler(halves('painted', null))).toBeGreaterThan(0);
    expect(filler(halves('painted', 'hidden'))).toBeCloseTo(filler(halves('painted', null)) / 2, 9);
  });

  it('lets a round wait only for those on its own zones, each stage under an id of its own', () => {
    const stages = stagesOf(halves('painted', 'clear'));
    expect(new Set(stages.map((stage) => stage.id)).size).toBe(stages.length);
    expect(stages.every((stage) => stage.start !== null)).toBe(true);
    const rounds = stages.filter((stage) => stage.kind === 'fair' || stage.kind === 'prime');
    expect(rounds.length).toBe(
      stagesOf(halves('painted')).filter((s) => s.kind === 'fair' || s.kind === 'prime').length +
        stagesOf(halves('clear')).filter((s) => s.kind === 'fair' || s.kind === 'prime').length,
    );
    // Drying times run beside each other: two finishes take less than one after the other.
    const days = (document: Build) => {
      const own = stagesOf(document).filter((s) => s.kind === 'fair' || s.kind === 'prime');
      const ends = own.map((stage) => Date.parse(stage.end!));
      const starts = own.map((stage) => Date.parse(stage.start!));
      return Math.max(...ends) - Math.min(...starts);
    };
    expect(days(halves('painted', 'clear'))).toBeLessThan(
      days(halves('painted')) + days(halves('clear')),
    );
    const over = Date.parse(stages.find((stage) => stage.kind === 'hand-over')!.start!);
    const dry = stages.filter((stage) => stage.id.startsWith('wait:finish'));
    expect(dry.length).toBeGreaterThan(0);
    for (const stage of dry) expect(Date.parse(stage.end!)).toBeLessThanOrEqual(over);
  });
});
