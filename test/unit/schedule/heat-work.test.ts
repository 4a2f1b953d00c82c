/** Heat as work: hands up and down, somebody there at first, not alone through a closed day. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../../../app/document/schema.ts';
import { closedDays, staffedHours } from '../../../app/plan/heatHours.ts';
import { buildSheets } from '../../support/sheets.ts';
import { toHtml } from '../../../app/shop/tree.ts';
import { isoToMinute } from '../../../app/time/zone.ts';
import { LIBRARY, NOW, planFor, ROOMY, withZone } from '../judge/builds.ts';

const GLASS = { cloth: 'glass-twill-300' };
const TENT = { ...ROOMY.room, tent: { maxC: 70 } };
const BAKED: Build = withZone(
  {
    ...ROOMY,
    room: TENT,
    outside: [{ id: 'paint', name: 'Alder sprayers', workingDays: 2, bakeC: 60 }],
  },
  { closeout: { plies: [GLASS] } },
);
const stageOf = (document: Build, id: string) => {
  const stage = planFor(document).result.stages.find((one) => one.id === id);
  if (!stage?.start || !stage.end) throw new Error(`${id} has no place`);
  return { ...stage, from: isoToMinute(stage.start)!, to: isoToMinute(stage.end)! };
};

/** The post-cure, and the day on which it ends. */
function postCureOn(document: Build) {
  const heat = stageOf(document, 'post-cure');
  return { heat, day: heat.end!.slice(0, 10) };
}

describe('a post-cure', () => {
  const [up, heat, down] = ['post-cure-setup', 'post-cure', 'post-cure-takedown'].map((id) =>
    stageOf(BAKED, id),
  ) as [ReturnType<typeof stageOf>, ReturnType<typeof stageOf>, ReturnType<typeof stageOf>];

  it('is set up and taken down by hands, in that order', () => {
    expect(up.people.length).toBeGreaterThan(0);
    expect(down.people.length).toBeGreaterThan(0);
    expect([up.kind, heat.kind, down.kind]).toEqual(['heat-setup', 'post-cure', 'heat-takedown']);
    expect(heat.from).toBeGreaterThanOrEqual(up.to);
    expect(down.from).toBeGreaterThanOrEqual(heat.to);
    for (const { gear } of [up, heat, down]) expect(gear).toContain('tent');
  });

  it('has somebody in the shop on its first ramp', () => {
    const [attended] = heat.attended;
    expect(attended!.start).toBe(heat.start);
    const until = isoToMinute(attended!.end)!;
    expect(until - heat.from).toBe(4 * 60);
    const staffed = staffedHours(planFor(BAKED).detail.shopHours);
    expect(staffed.some(({ start, end }) => start <= heat.from && until <= end)).toBe(true);
  });

  it('does not run alone through a closed weekend unless the shop allows it', () => {
    // A sheet that asks for three days: what begins on Thursday or Friday runs into the weekend.
    const resins = LIBRARY.resins.map((resin) => ({
      ...resin,
      hardeners: resin.hardeners.map((row) => ({
        ...row,
        postCure: [{ temperatureC: 55, hours: 60 }],
      })),
    }));
    const library = { ...LIBRARY, resins };
    const days = [20, 21, 22, 23, 26, 27].map((day) => NOW + (day - 19) * 1440);
    const through = { nights: 0, weekends: 0 };
    for (const heatAlone of ['nights', 'weekends'] as const) {
      for (const now of days) {
        const document: Build = { ...BAKED, room: { ...TENT, heatAlone } };
        const { result } = planFor(document, 'first', now, library);
        const { start, end } = result.stages.find(({ id }) => id === 'post-cure')!;
        const [from, to] = [isoToMinute(start!)!, isoToMinute(end!)!];
        expect(to - from).toBeGreaterThan(60 * 60);
        const weekends = closedDays(
          planFor(document).detail.shopHours,
          ROOMY.zone,
          from,
          to,
          7 * 60,
        );
        if (weekends.some((closed) => from < closed.end && closed.start < to)) {
          through[heatAlone] += 1;
        }
      }
    }
    expect(through.nights).toBe(0);
    expect(through.weekends).toBeGreaterThan(0);
  });

  it('does not run alone through a holiday either', () => {
    const { heat, day } = postCureOn(BAKED);
    const off = BAKED.crew.map((one) => ({ ...one, off: [...(one.off ?? []), day] }));
    const closed: Build = { ...BAKED, crew: off };
    const free = postCureOn(closed);
    expect(heat.to).toBeGreaterThan(isoToMinute(`${day}T07:00+01:00`)!);
    const [from, to] = [`${day}T07:00+01:00`, `${day}T23:59+01:00`].map((iso) => isoToMinute(iso)!);
    expect(free.heat.from > to! || free.heat.to <= from!).toBe(true);
    const allowed = { ...closed, room: { ...TENT, heatAlone: 'weekends' as const } };
    expect(postCureOn(allowed).heat.from).toBe(heat.from);
  });

  it('is not planned where the shop lets no heat run alone, and the reason is said', () => {
    const { result, detail } = planFor({ ...BAKED, room: { ...TENT, heatAlone: 'never' } });
    expect(detail.tg!.blocked).toEqual({ why: 'hours' });
    const stop = result.findings.find(({ code }) => code === 'paint-over-tg')!;
    expect(stop.severity).toBe('stop');
    expect(stop.message).toContain('the shop’s rule for heat that runs alone');
  });

  it('carries its hands into the hours of the build', () => {
    const cool: Build = { ...BAKED, outside: [{ ...BAKED.outside![0]!, bakeC: null }] };
    const hours = (document: Build) => planFor(document).result.totals.labourHours;
    expect(hours(BAKED) - hours(cool)).toBeCloseTo(2, 1);
  });

  it('has a card with clock times, limits, probes, what to do and signatures', () => {
    const sheets = buildSheets(planFor(BAKED), 'cure').sheets;
    const card = sheets.find(({ id }) => id === 'cure-post-cure')!;
    const html = toHtml(card.body);
    const clock = heat.start!.slice(11, 16);
    for (const words of [
      clock,
      heat.end!.slice(11, 16),
      'core of',
      'Coldest',
      'Hottest',
      'cut-out',
      'Extinguisher',
      'When it runs away',
      'Somebody stays in the shop',
      'Taken down by',
    ]) {
      expect(html).toContain(words);
    }
    expect(html).not.toContain('mould of');
  });
});

describe('the card of a post-cure', () => {
  const cardOf = (document: Build) => {
    const sheet = buildSheets(planFor(document), 'cure').sheets.find(
      ({ id }) => id === 'cure-post-cure',
    )!;
    return toHtml(sheet.body);
  };

  it('says from which Tg its rise is reckoned: bags off, and gel well past', () => {
    expect(cardOf(BAKED)).toMatch(
      /The rise is reckoned from a Tg of about \d+ °C at heat on, the earliest that any plan may heat: bags off by their own time, gel 12 h past/,
    );
  });

  it('has no hold before the rise, and says of a wait that the part is too soft', () => {
    expect(cardOf(BAKED)).not.toMatch(/Slower from here<.*Slower from here</);
    expect(cardOf(BAKED)).not.toContain('too soft');
    const outcome = planFor(BAKED);
    const tg = outcome.detail.tg!;
    const [run] = tg.choice!.runs;
    const wait = { kind: 'hold', fromC: 21, toC: 21, minutes: 60 } as const;
    const plan = { ...run!.plan, steps: [wait, ...run!.plan.steps] };
    const choice = { ...tg.choice!, runs: [{ ...run!, plan }] };
    const softer = { ...outcome, detail: { ...outcome.detail, tg: { ...tg, choice } } };
    const card = buildSheets(softer, 'cure').sheets.find(({ id }) => id === 'cure-post-cure')!;
    const html = toHtml(card.body);
    expect(html).toContain('Wait, the part is too soft for more');
    expect(html).toContain('Rise begins');
    expect(html).toContain('from heat on');
    expect(html.split('>Hold<')).toHaveLength(2);
  });

  it('on the mould says that the bag is off and the pump free, as the plan has it', () => {
    const open = withZone(BAKED, { closeout: null });
    const stages = planFor(open).result.stages;
    const heat = stages.find(({ id }) => id === 'post-cure')!;
    expect(heat.gear).toEqual(['mould', 'tent']);
    expect(cardOf(open)).toContain('Bag off, pump free: no vacuum is planned.');
    expect(cardOf(open)).not.toContain('old bag left on');
  });

  it('has a sheet for every day on which it runs, and says until when somebody stays', () => {
    // A sheet that asks for 60 hours: the days between have no other work.
    const resins = LIBRARY.resins.map((resin) => ({
      ...resin,
      hardeners: resin.hardeners.map((row) => ({
        ...row,
        postCure: [{ temperatureC: 55, hours: 60 }],
      })),
    }));
    const outcome = planFor(BAKED, 'first', NOW, { ...LIBRARY, resins });
    const { stages } = outcome.result;
    const heat = stages.find(({ id }) => id === 'post-cure')!;
    const sheets = buildSheets(outcome, 'day').sheets;
    const first = Date.parse(heat.start!.slice(0, 10));
    const last = Date.parse(heat.end!.slice(0, 10));
    let withoutHands = 0;
    for (let at = first; at <= last; at += 86_400_000) {
      const day = new Date(at).toISOString().slice(0, 10);
      expect(sheets.map(({ id }) => id)).toContain(`day-${day}`);
      const hands = stages.filter(
        ({ people, start, end }) =>
          people.length > 0 && start!.slice(0, 10) <= day && end!.slice(0, 10) >= day,
      );
      withoutHands += Number(hands.length === 0);
    }
    expect(withoutHands).toBeGreaterThan(0);
    const until = heat.attended[0]!.end.slice(11, 16);
    const begins = sheets.find(({ id }) => id === `day-${heat.start!.slice(0, 10)}`)!;
    const crew = outcome.detail.build.crew.map(({ name }) => name);
    const said = crew.filter((name) =>
      toHtml(begins.body).includes(`${name} stays in the shop until ${until}: heat is on`),
    );
    expect(said).toHaveLength(1);
    // The card names the same person.
    const card = buildSheets(outcome, 'cure').sheets.find(({ id }) => id === 'cure-post-cure')!;
    const row = toHtml(card.body).split('Somebody stays in the shop')[1]!.split('</tr>')[0]!;
    expect(row).toContain(said[0]!);
  });

  it('asks only who bakes to agree the bake', () => {
    const haul = { id: 'haul', name: 'Haulage', kind: 'transport' as const, workingDays: 1 };
    const hauled: Build = { ...BAKED, outside: [...BAKED.outside!, haul] };
    const html = toHtml(buildSheets(planFor(hauled), 'holds').sheets[0]!.body);
    const rows = html.split('<tr').filter((row) => row.includes('Leaves: '));
    expect(rows.filter((row) => row.includes('bake 60 °C agreed in writing'))).toHaveLength(1);
    expect(rows).toHaveLength(2);
  });

  it('is withheld where its cure is', () => {
    const PLY = { cloth: 'glass-twill-300' };
    const merged: Build = withZone(
      { ...BAKED, route: { joints: { 'skin-core': 'apart', 'core-inner': 'one-bag' } } },
      { areaM2: 4, outer: [PLY], inner: [PLY, PLY, PLY] },
    );
    const card = cardOf(merged);
    expect(card).toContain('NOT TO BE BUILT');
    expect(card).not.toMatch(/Go or no-go|Heat on/);
  });
});

describe('a tent', () => {
  const others: Build = BAKED;
  const block = (from: string, until: string): Build => ({
    ...others,
    busy: [{ id: 'other', what: 'Dinghy rudder', who: { kind: 'tent' }, from, until }],
  });

  it('that stands is kept over the night between set-up and heat', () => {
    let nights = 0;
    for (let later = 0; later < 8; later++) {
      const now = NOW + later * 6 * 60;
      const spans = (document: Build) => {
        const { stages } = planFor(document, 'first', now).result;
        return ['post-cure-setup', 'post-cure-takedown'].map((id) => {
          const { start, end, gear } = stages.find((one) => one.id === id)!;
          expect(gear).toContain('tent');
          return { from: isoToMinute(start!)!, to: isoToMinute(end!)!, end: end! };
        }) as [{ from: number; to: number; end: string }, { from: number; to: number }];
      };
      const [up] = spans(others);
      // Between the two no stage uses it; another job may not have it all the same.
      const day = up.end.slice(0, 10);
      const job = { from: `${day}T20:00`, until: `${day}T22:00` };
      const [free, taken] = [up.to, spans(block(job.from, job.until))] as const;
      const busyFrom = isoToMinute(`${job.from}+01:00`)!;
      const busyTo = isoToMinute(`${job.until}+01:00`)!;
      if (free > busyFrom) continue;
      nights += 1;
      expect(taken[0].from >= busyTo || taken[1].to <= busyFrom).toBe(true);
    }
    expect(nights).toBeGreaterThan(3);
  });
});

describe('heat over one cure', () => {
  const heat = [{ layup: 'inner', steps: [{ temperatureC: 40, rampKPerHour: 10, holdHours: 6 }] }];
  const heated: Build = { ...ROOMY, room: TENT, heat };

  it('is put up before its bag is down and taken down before the bag comes off', () => {
    const [up, cure, down, off] = [
      'tent-setup:inner',
      'cure:inner',
      'tent-takedown:inner',
      'bag-off:inner',
    ].map((id) => stageOf(heated, id));
    expect(up!.to).toBeLessThanOrEqual(cure!.from);
    expect(down!.from).toBeGreaterThanOrEqual(cure!.to);
    expect(off!.from).toBeGreaterThanOrEqual(down!.to);
    expect(up!.people.length * down!.people.length).toBeGreaterThan(0);
  });

  it('has its tent put up no sooner than the working day before, over a weekend as well', () => {
    for (const day of [19, 20, 21, 22, 23]) {
      const { result } = planFor(heated, 'first', NOW + (day - 19) * 1440);
      const [up, cure] = ['tent-setup:inner', 'cure:inner'].map((id) => {
        const { start, end } = result.stages.find((one) => one.id === id)!;
        return { from: isoToMinute(start!)!, to: isoToMinute(end!)! };
      }) as [{ from: number; to: number }, { from: number; to: number }];
      const days = Math.floor(cure.from / 1440) - Math.floor(up.to / 1440);
      const monday = new Date(cure.from * 60_000).getUTCDay() === 1;
      expect(days).toBeLessThanOrEqual(monday ? 3 : 1);
    }
  });

  it('does not begin where it would run through a closed weekend', () => {
    const through = { nights: 0, weekends: 0 };
    const long = [
      { layup: 'inner', steps: [{ temperatureC: 40, rampKPerHour: 10, holdHours: 120 }] },
    ];
    for (const heatAlone of ['nights', 'weekends'] as const) {
      for (const day of [20, 21, 22, 23, 26, 27]) {
        const document: Build = { ...ROOMY, room: { ...TENT, heatAlone }, heat: long };
        const { result, detail } = planFor(document, 'first', NOW + (day - 19) * 1440);
        const { start, end } = result.stages.find(({ id }) => id === 'cure:inner')!;
        const [from, to] = [isoToMinute(start!)!, isoToMinute(end!)!];
        const weekends = closedDays(detail.shopHours, ROOMY.zone, from, to, 7 * 60);
        const runs = from + 121 * 60;
        if (weekends.some((closed) => from < closed.end && closed.start < runs)) {
          through[heatAlone] += 1;
        }
      }
    }
    expect(through.nights).toBe(0);
    expect(through.weekends).toBeGreaterThan(0);
  });

  it('that was begun wants no tent put up any more', () => {
    const records = [{ stage: 'layup:inner', start: '2027-04-16T08:00', end: '2027-04-16T10:00' }];
    const { stages } = planFor({ ...heated, records }).result;
    expect(stages.map(({ id }) => id)).not.toContain('tent-setup:inner');
  });
});
