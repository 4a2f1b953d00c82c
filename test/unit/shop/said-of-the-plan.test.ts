/** Words of the paper that hang on what is planned: who sees a gel, where heat is, how many hands. */
import { describe, expect, it } from 'vitest';
import { massInState } from '../../../app/part/weight.ts';
import { textOf } from '../../../app/shop/tree.ts';
import type { SheetKind } from '../../../app/shop/parts.ts';
import { buildSheets } from '../../support/sheets.ts';
import type { Build } from '../../../app/document/schema.ts';
import { LIBRARY, NOW, planFor, ROOMY, withPart, withZone } from '../judge/builds.ts';

/** A large one: the last batch gels hours after the first, when everybody has gone. */
const SLOW: Build = withZone(
  { ...ROOMY, resin: { system: 'orrin-40', hardener: 'slow' } },
  { areaM2: 8 },
);
const HEATED: Build = {
  ...ROOMY,
  room: { ...ROOMY.room, tent: { maxC: 60 } },
  heat: [{ layup: 'inner', steps: [{ temperatureC: 40, rampKPerHour: 10, holdHours: 6 }] }],
};
const CLOSED = withZone(ROOMY, { closeout: { plies: [{ cloth: 'glass-twill-300' }] } });

const papers = (document: Build, kind: SheetKind) =>
  new Map(
    buildSheets(planFor(document), kind).sheets.map(({ id, body }) => [id, textOf(body)] as const),
  );
const HEATER = 'Heaters and tent stay watched';

describe('a gel', () => {
  const { result, detail } = planFor(SLOW);
  const holds = papers(SLOW, 'holds').get('holds')!;
  const [skin] = result.cures;

  it('is signed as it is manned: who looks and when, and what runs alone after hours', () => {
    const look = result.stages.find(({ id }) => id === 'gel-look:skin')!;
    const name = detail.build.crew.find(({ id }) => id === look.people[0])!.name.split(' ')[0]!;
    expect(holds).toContain(`${look.end!.slice(11, 16)} (${name})`);
    expect(holds).toMatch(
      /latest gel \d\d:\d\d with nobody in the shop: pump, logger and alarm on, smear read \w+ \d+ \w+ 07:30/,
    );
    expect(holds).not.toMatch(/watched and pumped|watched until/);
  });

  it('has people in the shop to its latest where the hours reach that far', () => {
    const fast: Build = { ...ROOMY, resin: { system: 'orrin-40', hardener: 'fast' } };
    expect(papers(fast, 'holds').get('holds')).toMatch(/people in the shop till then/);
  });

  it('is told so on the log and before the first mix as well', () => {
    const card = papers(SLOW, 'cure').get(`cure-${skin!.id}`)!;
    expect(card).toContain(
      'Latest gel. Nobody in the shop: pump, logger and alarm stay on; smear read',
    );
    const go = papers(SLOW, 'go').get(`go-${skin!.id}`)!;
    expect(go).toMatch(
      /Gel .*: looked at .*; after hours the pump runs alone: alarm on, who answers it/,
    );
  });
});

describe('a caution', () => {
  it('about heaters stands where a cure is heated, and nowhere else', () => {
    const cold = [...papers(ROOMY, 'cure').values(), ...papers(ROOMY, 'day').values()];
    expect(cold.length).toBeGreaterThan(5);
    expect(cold.filter((text) => text.includes(HEATER))).toEqual([]);
    const cards = papers(HEATED, 'cure');
    const of = (layup: string) => planFor(HEATED).result.cures.find(({ id }) => id === layup)!.id;
    expect(cards.get(`cure-${of('inner')}`)).toContain(HEATER);
    expect(cards.get(`cure-${of('skin')}`)).not.toContain(HEATER);
  });

  it('about isocyanate stands at the round that is sprayed and not at one that is sanded', () => {
    const { result } = planFor(ROOMY);
    const days = papers(ROOMY, 'day');
    let sprayed = 0;
    let sanded = 0;
    for (const { name, kind, start } of result.stages) {
      if (kind !== 'prime' || start === null) continue;
      const text = days.get(`day-${start.slice(0, 10)}`)!;
      const own = text.slice(text.indexOf(name));
      const sprays = name.includes('primer');
      const all = result.stages.filter((one) => one.start?.slice(0, 10) === start.slice(0, 10));
      if (sprays) {
        sprayed += 1;
        expect(text).toContain('Isocyanate paint');
      } else if (all.every((one) => !one.name.includes('primer'))) {
        sanded += 1;
        expect(own).not.toContain('Isocyanate paint');
      }
    }
    expect(sprayed).toBe(2);
    expect(sanded).toBeGreaterThan(0);
  });

  it('of mixing stands on the first mix card, and the others say where', () => {
    const [first, ...others] = [...papers(ROOMY, 'mix').values()];
    expect(first).toContain('can make you allergic for life');
    expect(others.length).toBeGreaterThan(0);
    for (const card of others) {
      expect(card).not.toContain('can make you allergic for life');
      expect(card).toContain('take care, as on the mix card “Outer skin”');
    }
    for (const card of [...papers(ROOMY, 'cure').values()].slice(1, 1 + others.length)) {
      expect(card).not.toContain('can make you allergic for life');
    }
  });

  it('of carbon dust is said only where carbon is laid', () => {
    const of = (cloth: string): string => {
      const ply = [{ cloth, angleDeg: 0 }];
      const laid = withZone(ROOMY, { outer: ply, inner: ply, local: [] });
      return [...papers(laid, 'day').values()].join(' ');
    };
    expect(of('carbon-twill-200')).toContain('Carbon dust conducts');
    const glass = of('glass-twill-300');
    expect(glass).toContain('Dust: extraction at the tool');
    expect(glass).not.toContain('Carbon dust');
  });

  it('for one who works alone does not say that nobody does', () => {
    const lone: Build = withZone({ ...ROOMY, crew: [{ name: 'Ida Moss' }] }, { areaM2: 0.3 });
    const texts = ['go', 'mix', 'day'].flatMap((kind) => [
      ...papers(lone, kind as SheetKind).values(),
    ]);
    // Three go or no-go sheets, and the first mix card, to which the others point.
    expect(texts.filter((text) => text.includes('within call'))).toHaveLength(4);
    expect(texts.filter((text) => /Never wet out alone|nobody works alone/.test(text))).toEqual([]);
    expect([...papers(ROOMY, 'go').values()].join(' ')).toContain('nobody works alone');
  });
});

describe('what is ticked before the first mix', () => {
  it('is bare core under the inner skin and peel ply under the core and the closeout', () => {
    const go = papers(CLOSED, 'go');
    expect(go.get('go-inner')).toContain('Bare core vacuumed');
    expect(go.get('go-inner')).not.toContain('Peel ply stripped');
    for (const id of ['go-core', 'go-closeout'])
      expect(go.get(id), id).toContain('Peel ply stripped');
  });

  it('is a surface abraded again where the plan strips it the day before, in the words of the finding', () => {
    const library = {
      ...LIBRARY,
      practice: LIBRARY.practice.map((row) =>
        row.id === 'strip-to-bond-hours' ? { ...row, value: 0 } : row,
      ),
    };
    const stale: Build = withPart(
      withZone(
        {
          ...ROOMY,
          unveiling: '2027-09-30T18:00',
          room: { temperatureC: { day: 20, night: 20 }, humidityPct: 50 },
          crew: [{ name: 'Ida Moss' }, { name: 'Per Lunde' }],
          route: { joints: {} },
        },
        { areaM2: 0.6 },
      ),
      { structural: true },
    );
    const outcome = planFor(stale, 'first', NOW, library);
    const told = outcome.result.findings.filter(({ code }) => code === 'bond-window-missed');
    const go = new Map(
      buildSheets(outcome, 'go').sheets.map(({ id, body }) => [id, textOf(body)] as const),
    );
    const of = (layup: string) => told.find(({ stage }) => stage === `prepare:${layup}`);
    expect(of('core')!.message).toContain('a stripped surface keeps, so it is abraded');
    expect(go.get('go-core')).toContain('surface abraded again P80 to P120, washed, wiped, dry');
    const inner = of('inner');
    if (inner)
      expect(inner.message).toContain('cannot vacuum the bare core and lay on it on one day');
    expect(go.get('go-inner')).toContain(
      inner ? 'Bare core vacuumed again; overlaps' : 'Bare core vacuumed, overlaps',
    );
  });

  it('an edge whose filler the plan does not wait for is taped wet, or hard and sanded', () => {
    const tick = 'Filled edge: taped while wet or tacky, or hard after a night and sanded flush';
    expect(papers(CLOSED, 'go').get('go-closeout')).toContain(tick);
    const planned = withPart(CLOSED, { edge: { tape: 'after-night' } });
    expect(papers(planned, 'go').get('go-closeout')).not.toContain(tick);
    expect(papers(CLOSED, 'go').get('go-skin')).not.toContain(tick);
  });

  it('the smear of a closeout lies beside its strips, where there is no flange', () => {
    const stacks = [...papers(CLOSED, 'bags').values()].join(' ');
    expect(stacks.match(/on released film on the flange/g)?.length).toBe(3);
    expect(stacks.match(/on released film beside the strips/g)?.length).toBe(1);
  });
});

describe('vacuum', () => {
  it('is full, but for styrene and for a light core no more than they take', () => {
    const holds = (document: Build) => papers(document, 'holds').get('holds')!;
    expect(holds(ROOMY).match(/Full vacuum; lose 40 mbar/g)?.length).toBe(3);
    const eps = withZone(ROOMY, { core: { material: 'eps-20', thicknessMm: 20 } });
    expect(holds(eps).match(/Full vacuum; lose/g)?.length).toBe(1);
    expect(holds(eps).match(/Vacuum 250 mbar below atmosphere and no more/g)?.length).toBe(2);
    const logs = [...papers(eps, 'cure').values()].join(' ');
    expect(logs).toContain('Bag down, vacuum 250 mbar below atmosphere and no more');
  });

  it('of a polyester is less than that at which its styrene boils', () => {
    const polyester: Build = { ...ROOMY, resin: { system: 'marl-7', hardener: 'slow' } };
    const text = papers(polyester, 'holds').get('holds')!;
    expect(text.match(/Vacuum 650 mbar below atmosphere and no more; lose/g)?.length).toBe(3);
    expect(text).not.toContain('Full vacuum');
  });
});

describe('what a bag-off is late for', () => {
  const soon = { ...ROOMY, resin: { system: 'orrin-40', hardener: 'fast' } } as const;
  const days = [0, 1, 2, 3].map((day) => planFor(soon, 'first', NOW + day * 1440));

  it('a surface whose time to bond is past by then is abraded, and not bonded before', () => {
    let past = 0;
    let open = 0;
    for (const outcome of days) {
      const cards = new Map(
        buildSheets(outcome, 'cure').sheets.map(({ id, body }) => [id, textOf(body)]),
      );
      for (const { id, bondUntil } of outcome.result.cures) {
        const layup = id.split('~')[0]!;
        const off = outcome.result.stages.find((stage) => stage.id === `bag-off:${layup}`)!.end!;
        const late = Date.parse(off) >= Date.parse(bondUntil!);
        const text = cards.get(`cure-${id}`)!;
        expect(text.includes('its time to bond is past when the bag comes off; abrade')).toBe(late);
        expect(text.includes('Bare surface without peel ply: bond before')).toBe(!late);
        if (late) past += 1;
        else open += 1;
      }
    }
    expect(past).toBeGreaterThan(0);
    expect(open).toBeGreaterThan(0);
  });

  it('the pump of a closed day is told in the week, with who answers it', () => {
    let told = 0;
    for (const day of [0, 1, 2, 3, 4]) {
      const outcome = planFor(ROOMY, 'first', NOW + day * 1440);
      const weekend = outcome.result.cures.filter(({ id }) => {
        const layup = id.split('~')[0]!;
        const at = (what: string) =>
          outcome.result.stages.find((stage) => stage.id === `${what}:${layup}`)!;
        const weekday = (iso: string) => new Date(iso.slice(0, 10)).getUTCDay();
        return weekday(at('layup').start!) === 5 && weekday(at('bag-off').start!) === 1;
      });
      if (weekend.length === 0) continue;
      told += 1;
      const text = [...buildSheets(outcome, 'week').sheets]
        .map(({ body }) => textOf(body))
        .join(' ');
      // Saturday as well, on which the plan has a moment of the cure and nobody to work.
      expect(text.match(/No work; the pump runs/g)?.length).toBe(2);
      expect(text).toMatch(
        /Sat \d+ \w+ and Sun \d+ \w+: Nobody is in the shop today: alarm and logger on/,
      );
    }
    expect(told).toBeGreaterThan(0);
  });
});

describe('full cure', () => {
  it('is that of the post-cure where one comes before it, and of the room where none does', () => {
    const heated: Build = {
      ...ROOMY,
      room: { ...ROOMY.room, tent: { maxC: 70 } },
      outside: [{ id: 'paint', name: 'Alder sprayers', workingDays: 2, bakeC: 60 }],
    };
    const full = (document: Build) =>
      [...papers(document, 'cure')]
        .filter(([, text]) => text.includes('Full cure'))
        .map(([, text]) => text);
    expect(full(ROOMY).length).toBe(3);
    for (const text of full(ROOMY)) expect(text).toMatch(/Full cure from \w+ \d+/);
    expect(full(heated).length).toBe(3);
    for (const text of full(heated))
      expect(text).toMatch(
        /Full cure with the post-cure; in the room alone from \w+ \d+|Full cure is not reached/,
      );
    expect(full(heated).join(' ')).toContain('Full cure with the post-cure');
  });
});

describe('what the painter lifts', () => {
  it('is the part with its filler, and painted on the way back, not the bare shell', () => {
    const painted: Build = {
      ...ROOMY,
      outside: [{ id: 'paint', name: 'Alder sprayers', workingDays: 2, carriedBy: 'shop' }],
    };
    const { weight, part } = planFor(painted).detail;
    const [there, back] = [massInState(weight, 'faired'), massInState(weight, 'painted')];
    expect(there).toBeGreaterThan(part.lift.massKg + 0.2);
    const text = [...papers(painted, 'painter').values()].join(' ');
    expect(text).toContain(
      `about ${there.toFixed(1)} kg without primer, ${back.toFixed(1)} kg painted`,
    );
  });
});
