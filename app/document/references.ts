/** What of a document names something else: ids used once, rows and holders that there are, orders with an end. */
import { describe, type Fault } from './faults.ts';
import { EXPECTED, FOUND } from './faultWords.ts';
import type { FullBuild, Library } from './schema.ts';

/** Each list is gone through once, whatever its length. */
export const referenceFaults = (build: FullBuild, library: Library): Fault[] => [
  ...doubledIds(build),
  ...unknownRows(build, library),
  ...linkCircle(build),
  ...closeoutVisit(build),
  ...unknownHolders(build),
];

interface Named {
  readonly id: string;
}

/** The fault of a name that is none of a list's ids; what is expected instead is worded once. */
type Choice = (path: string, id: string) => Fault[];

function choiceOf(list: readonly Named[], words: (known: readonly string[]) => string): Choice {
  const ids = new Set(list.map(({ id }) => id));
  let expected: string | undefined;
  return (path, id) => {
    if (ids.has(id)) return [];
    expected ??= words(list.map((one) => one.id));
    return [{ path, found: describe(id), expected }];
  };
}

function doubledIds(build: FullBuild): Fault[] {
  const lists: [string, readonly Named[]][] = [
    ['part.zones', build.part.zones],
    ['part.questions', build.part.questions],
    ['crew', build.crew],
    ['outside', build.outside],
    ['suppliers', build.suppliers],
    ['busy', build.busy],
  ];
  return lists.flatMap(([path, list]) => {
    const seen = new Set<string>();
    return list.flatMap(({ id }, i) => {
      if (seen.size < seen.add(id).size) return [];
      return [{ path: `${path}[${i}].id`, found: describe(id), expected: EXPECTED.idUsedOnce() }];
    });
  });
}

function unknownRows(build: FullBuild, library: Library): Fault[] {
  const faults: Fault[] = [];
  const choices = new Map<readonly Named[], Choice>();
  const check = (path: string, id: string, rows: readonly Named[], what: string) => {
    const choice =
      choices.get(rows) ?? choiceOf(rows, (known) => EXPECTED.knownRow({ what, known }));
    choices.set(rows, choice);
    faults.push(...choice(path, id));
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
  const person = choiceOf(crew, (known) => EXPECTED.someone({ what: PERSON, known }));
  const someParty = (known: readonly string[]) => EXPECTED.someone({ what: PARTY, known });
  const party = choiceOf(outside, someParty);
  const closing = choiceOf([...outside, ...suppliers], someParty);
  return [
    ...busy.flatMap(({ who }, i) => {
      if (who.kind === 'person') return person(`busy[${i}].who.id`, who.id);
      return who.kind === 'outside' ? party(`busy[${i}].who.id`, who.id) : [];
    }),
    ...holidays.flatMap((day, i) =>
      typeof day.for === 'string' ? [] : closing(`holidays[${i}].for.party`, day.for.party),
    ),
  ];
}

const PERSON = 'a person of the crew';
const PARTY = 'an outside party';

type After = ReadonlyMap<string, readonly { readonly to: string; readonly index: number }[]>;

/** The shop's own order between stages must not run in a circle. */
function linkCircle(build: FullBuild): Fault[] {
  const after = new Map<string, { to: string; index: number }[]>();
  build.links.forEach((link, index) => {
    const found = after.get(link.before);
    if (found) found.push({ to: link.after, index });
    else after.set(link.before, [{ to: link.after, index }]);
  });
  const done = new Set<string>();
  for (const stage of after.keys()) {
    const fault = circleFrom(stage, after, done);
    if (fault) return [fault];
  }
  return [];
}

/** Goes along every order once; `done` are stages that lead into no circle. */
function circleFrom(first: string, after: After, done: Set<string>): Fault | null {
  const trail: string[] = [];
  const open = new Set<string>();
  const visit = (stage: string): Fault | null => {
    if (done.has(stage)) return null;
    trail.push(stage);
    open.add(stage);
    for (const { to, index } of after.get(stage) ?? []) {
      const fault = open.has(to) ? circle(trail, to, index) : visit(to);
      if (fault) return fault;
    }
    trail.pop();
    open.delete(stage);
    done.add(stage);
    return null;
  };
  return visit(first);
}

const circle = (trail: readonly string[], to: string, index: number): Fault => ({
  path: `links[${index}]`,
  found: FOUND.circle({ stages: [...trail.slice(trail.indexOf(to)), to] }),
  expected: EXPECTED.orderWithEnd(),
});
