/** The consequence table and the lessons of a build, as edits of its document. */
import { describe, expect, it } from 'vitest';
import { buildSchema, type Build } from '../../../app/document/schema.ts';
import type { FinishedBuild } from '../../../app/contract/channels.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { plan } from '../../../app/answer/plan.ts';
import {
  differs,
  putConsequence,
  setConsequence,
  setBasis,
} from '../../../app/document/edit/consequences.ts';
import { effectOf } from '../../../app/answer/effect.ts';
import { learnedOf } from '../../../app/judge/shopTable.ts';
import {
  addEvent,
  closeBuild,
  eventsOf,
  removeEvent,
  setDemould,
  setEvent,
} from '../../../app/document/edit/lessons.ts';
import type { Draft } from '../../../app/document/edit/path.ts';
import { library } from '../../library.ts';
import canopy from '../../../samples/low-water-canopy.build.json' with { type: 'json' };

const NOW = Math.floor(Date.parse('2027-04-12T06:00Z') / 60_000);
/** A small part of which outer skin and core go into one bag. */
const BAGGED: Draft = {
  ...(canopy as unknown as Draft),
  part: {
    zones: [
      {
        areaM2: 0.6,
        outer: [{ cloth: 'carbon-twill-200' }],
        core: { material: 'pvc-80', thicknessMm: 10 },
        inner: [{ cloth: 'carbon-twill-200' }],
      },
    ],
  },
  route: { joints: { 'skin-core': 'one-bag' } },
};
const totals = (document: Draft) =>
  plan(document as Build, library, NOW, FIRST_ANSWER).result.totals;
const shipped = library.consequences.find((row) => row.id === 'joint-one-bag')!;

describe('the consequence table', () => {
  const { document, label } = setConsequence(
    BAGGED,
    library,
    'joint-one-bag',
    { extraHours: 11.5 },
    'work 11.5',
  );
  const row = document.library!.consequences!.find((one) => one.id === 'joint-one-bag')!;

  it('set by hand is the build’s own, assumed until it is said to be measured', () => {
    expect(label).toBe('Two layups in one bag: work 11.5');
    expect(row).toMatchObject({ extraHours: 11.5, provenance: { kind: 'assumed' } });
    expect(row.revision).toBe(shipped.revision + 1);
    expect(document.library!.consequences).toHaveLength(library.consequences.length);
    const rows = { ...library, consequences: document.library!.consequences as never };
    const measured = setBasis(document, rows, 'joint-one-bag', 'measured').document;
    const kind = measured.library!.consequences!.find((one) => one.id === 'joint-one-bag')!
      .provenance.kind;
    expect(kind).toBe('measured');
    expect(buildSchema.safeParse(measured).success).toBe(true);
  });

  it('moves the hours of the plan by what was typed', () => {
    const more = totals(document).labourHours - totals(BAGGED).labourHours;
    expect(more).toBeCloseTo(11.5 - shipped.extraHours, 1);
    const effect = effectOf(BAGGED, document, library, NOW);
    expect(effect.hours).toBeCloseTo(more, 6);
    expect(effect.endMinutes).toBeGreaterThanOrEqual(0);
  });

  it('goes back to the library’s row', () => {
    const rows = { ...library, consequences: document.library!.consequences as never };
    const back = putConsequence(document, rows, shipped, 'as in the library').document;
    const again = back.library!.consequences!.find((one) => one.id === shipped.id)!;
    expect(differs(row as never, shipped)).toBe(true);
    expect(differs(again as never, shipped)).toBe(false);
    expect(totals(back).labourHours).toBe(totals(BAGGED).labourHours);
  });
});

describe('what finished builds taught', () => {
  const finished = (id: string, fairMinutes: number): FinishedBuild => ({
    id,
    name: id,
    release: 'semi-permanent',
    resin: { system: 'orrin-40', hardener: 'slow' },
    lessons: {
      finished: true,
      hardDemould: true,
      events: [{ event: 'joint-one-bag', areaM2: 2, fairMinutes, extraHours: 2, fillerKg: 0.4 }],
    },
  });
  const three = [finished('a', 120), finished('b', 160), finished('c', 200)];

  it('is offered with what changes once there are enough builds, and not before', () => {
    expect(learnedOf(BAGGED, library, library, three.slice(0, 2))).toEqual([]);
    const offers = learnedOf(BAGGED, library, library, three);
    expect(offers.map((one) => one.id)).toEqual(['joint-one-bag', 'semi-permanent']);
    expect(offers[0]!.words).toContain('fairing 42 → 80 min/m²');
    expect(offers[0]!.source).toBe("3 of the shop's own builds");
  });

  it('taken over counts in the plan, and is not offered again', () => {
    const [row, release] = learnedOf(BAGGED, library, library, three);
    const taken = row!.change.document;
    expect(totals(taken).labourHours).toBeGreaterThan(totals(BAGGED).labourHours);
    const rows = { ...library, consequences: taken.library!.consequences as never };
    expect(learnedOf(taken, rows, library, three).map((one) => one.id)).toEqual(['semi-permanent']);
    const risky = release!.change.document;
    expect(totals(risky).labourHours).toBeGreaterThan(totals(BAGGED).labourHours);
    expect(buildSchema.safeParse(risky).success).toBe(true);
  });
});

describe('closing a build', () => {
  it('writes down what struck it, one edit at a time', () => {
    let document = closeBuild(BAGGED, true).document;
    document = setDemould(document, false).document;
    document = addEvent(document, { event: 'hard-demould', name: 'Hard demould' }, 7).document;
    document = setEvent(document, 0, { fairMinutes: 240 }, 'fairing').document;
    expect(document.lessons).toEqual({
      finished: true,
      hardDemould: false,
      events: [{ event: 'hard-demould', areaM2: 7, fairMinutes: 240, extraHours: 0, fillerKg: 0 }],
    });
    expect(buildSchema.safeParse(document).success).toBe(true);
    expect(eventsOf(removeEvent(document, 0, 'Hard demould').document)).toEqual([]);
    expect(totals(document)).toEqual(totals(BAGGED));
  });
});
