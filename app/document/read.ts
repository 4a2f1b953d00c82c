/** Reads a Build from text or from an untrusted object: everything wrong with it, or the document. */
import { localToMinute } from '../time/zone.ts';
import { describe, faultsOf, type Fault } from './faults.ts';
import { EXPECTED, FOUND } from './faultWords.ts';
import { mergeLibraries } from './library.ts';
import { migrate, versionOf } from './migrate/migrate.ts';
import {
  buildSchema,
  DOCUMENT_VERSION,
  type Build,
  type FullBuild,
  type Library,
} from './schema.ts';

/** Largest build file that is read, in characters: a build is a few kilobytes. */
export const MAX_BUILD_CHARACTERS = 8_000_000;

export type ReadBuild =
  | { readonly ok: true; readonly document: Build; readonly build: FullBuild }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/**
 * Reads a build file's text.
 * @param library the rows that the build may name besides those it carries itself
 */
export function readBuild(text: string, library: Library): ReadBuild {
  if (text.length > MAX_BUILD_CHARACTERS) {
    const expected = EXPECTED.atMostCharacters({ most: MAX_BUILD_CHARACTERS });
    return refused(FOUND.characters({ count: text.length }), expected);
  }
  let raw: unknown;
  try {
    raw = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const why = error instanceof Error ? error.message : 'unreadable text';
    return refused(oneLine(why), EXPECTED.buildFile());
  }
  return readDocument(raw, library);
}

/** The same for a value that was parsed already. */
export function readDocument(raw: unknown, library: Library): ReadBuild {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
    return refused(describe(raw), EXPECTED.oneObject());
  }
  const typed = raw as Record<string, unknown>;
  if (versionOf(typed) > DOCUMENT_VERSION) {
    const fault = {
      path: 'formatVersion',
      found: describe(typed['formatVersion']),
      expected: EXPECTED.version({ newest: DOCUMENT_VERSION }),
    };
    return { ok: false, faults: [fault] };
  }
  const document = migrate(typed);
  const parsed = buildSchema.safeParse(document);
  if (!parsed.success) return { ok: false, faults: faultsOf(parsed.error.issues, document) };
  const faults = [
    ...timeFaults(parsed.data),
    ...doubledIds(parsed.data),
    ...unknownRows(parsed.data, mergeLibraries(parsed.data.library, library)),
    ...linkCycle(parsed.data),
    ...closeoutVisit(parsed.data),
    ...unknownHolders(parsed.data),
  ];
  if (faults.length > 0) return { ok: false, faults };
  return { ok: true, document: document as Build, build: parsed.data };
}

const refused = (found: string, expected: string): ReadBuild => ({
  ok: false,
  faults: [{ path: '(file)', found, expected }],
});

/** Parser messages quote the text, which may hold anything: control and line-break characters go. */
const oneLine = (message: string): string =>
  // eslint-disable-next-line no-control-regex -- removing control characters is the purpose
  message.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ').slice(0, 160);

/** A wall-clock time that the zone skips (clocks going forward) is a fault. */
function timeFaults(build: FullBuild): Fault[] {
  const times: [string, string | null][] = [
    ['unveiling', build.unveiling],
    ['earliestStart', build.earliestStart],
    ['part.frame.from', build.part.frame?.from ?? null],
    ['part.frame.until', build.part.frame?.until ?? null],
    ...build.pins.map((pin, i): [string, string] => [`pins[${i}].start`, pin.start]),
    ...build.records.flatMap((record, i): [string, string | null][] => [
      [`records[${i}].start`, record.start],
      [`records[${i}].end`, record.end],
    ]),
    ...build.busy.flatMap((block, i): [string, string][] => [
      [`busy[${i}].from`, block.from],
      [`busy[${i}].until`, block.until],
    ]),
  ];
  return times.flatMap(([path, value]) => {
    if (value === null || value.length < 16 || localToMinute(value, build.zone)) return [];
    const expected = EXPECTED.timeThatExists({ zone: build.zone });
    return [{ path, found: describe(value), expected }];
  });
}

function doubledIds(build: FullBuild): Fault[] {
  const lists: [string, readonly { id: string }[]][] = [
    ['part.zones', build.part.zones],
    ['part.questions', build.part.questions],
    ['crew', build.crew],
    ['outside', build.outside],
    ['suppliers', build.suppliers],
    ['busy', build.busy],
  ];
  return lists.flatMap(([path, list]) =>
    list.flatMap((item, i) =>
      list.findIndex((other) => other.id === item.id) === i
        ? []
        : [{ path: `${path}[${i}].id`, found: describe(item.id), expected: EXPECTED.idUsedOnce() }],
    ),
  );
}

function unknownRows(build: FullBuild, library: Library): Fault[] {
  const faults: Fault[] = [];
  const check = (path: string, id: string, rows: readonly { id: string }[], what: string) => {
    if (rows.some((row) => row.id === id)) return;
    const known = rows.map((row) => row.id);
    faults.push({ path, found: describe(id), expected: EXPECTED.knownRow({ what, known }) });
  };
  build.part.zones.forEach((zone, i) => {
    const at = `part.zones[${i}]`;
    const lists = { outer: zone.outer, inner: zone.inner, local: zone.local };
    for (const [name, plies] of Object.entries(lists)) {
      plies.forEach((ply, j) =>
        check(`${at}.${name}[${j}].cloth`, ply.cloth, library.cloths, 'cloth'),
      );
    }
    zone.closeout?.plies.forEach((ply, j) =>
      check(`${at}.closeout.plies[${j}].cloth`, ply.cloth, library.cloths, 'cloth'),
    );
    if (zone.core) check(`${at}.core.material`, zone.core.material, library.cores, 'core');
  });
  build.part.inserts.forEach((insert, i) =>
    check(`part.inserts[${i}].cloth`, insert.cloth, library.cloths, 'cloth'),
  );
  check('mould.material', build.mould.material, library.moulds, 'mould material');
  check('mould.release', build.mould.release, library.releases, 'release system');
  check('resin.system', build.resin.system, library.resins, 'resin');
  const resin = library.resins.find((row) => row.id === build.resin.system);
  if (resin) {
    check('resin.hardener', build.resin.hardener, resin.hardeners, 'hardener');
    for (const [layup, hardener] of Object.entries(build.resin.hardenerFor)) {
      check(`resin.hardenerFor.${layup}`, hardener, resin.hardeners, 'hardener');
    }
  }
  return faults;
}

/** The edge can be closed after a visit of the part only: the mould's machining is none. */
function closeoutVisit({ closeoutAfter, outside }: FullBuild): Fault[] {
  const visits = outside.filter((party) => party.kind !== 'machining').map((party) => party.id);
  if (closeoutAfter === null || visits.includes(closeoutAfter)) return [];
  const expected = EXPECTED.visit({ visits });
  return [{ path: 'closeoutAfter', found: describe(closeoutAfter), expected }];
}

/** Busy blocks and holidays name people and parties of this build. */
function unknownHolders({ busy, holidays, crew, outside, suppliers }: FullBuild): Fault[] {
  const people = crew.map((person) => person.id);
  const parties = outside.map((party) => party.id);
  const closing = [...parties, ...suppliers.map((supplier) => supplier.id)];
  const check = (path: string, id: string, known: readonly string[], what: string): Fault[] =>
    known.includes(id)
      ? []
      : [{ path, found: describe(id), expected: EXPECTED.someone({ what, known }) }];
  return [
    ...busy.flatMap(({ who }, i) => {
      if (who.kind === 'person') return check(`busy[${i}].who.id`, who.id, people, PERSON);
      return who.kind === 'outside' ? check(`busy[${i}].who.id`, who.id, parties, PARTY) : [];
    }),
    ...holidays.flatMap((day, i) =>
      typeof day.for === 'string'
        ? []
        : check(`holidays[${i}].for.party`, day.for.party, closing, PARTY),
    ),
  ];
}

const PERSON = 'a person of the crew';
const PARTY = 'an outside party';

/** The shop's own order between stages must not run in a circle. */
function linkCycle(build: FullBuild): Fault[] {
  const after = new Map<string, { to: string; index: number }[]>();
  build.links.forEach((link, index) => {
    after.set(link.before, [...(after.get(link.before) ?? []), { to: link.after, index }]);
  });
  const state = new Map<string, 'open' | 'done'>();
  const visit = (stage: string, trail: readonly string[]): Fault[] => {
    state.set(stage, 'open');
    for (const { to, index } of after.get(stage) ?? []) {
      if (state.get(to) === 'open') {
        const stages = [...trail.slice(trail.indexOf(to)), to];
        return [
          {
            path: `links[${index}]`,
            found: FOUND.circle({ stages }),
            expected: EXPECTED.orderWithEnd(),
          },
        ];
      }
      if (!state.has(to)) {
        const fault = visit(to, [...trail, to]);
        if (fault.length > 0) return fault;
      }
    }
    state.set(stage, 'done');
    return [];
  };
  for (const stage of after.keys()) {
    const fault = state.has(stage) ? [] : visit(stage, [stage]);
    if (fault.length > 0) return fault;
  }
  return [];
}
