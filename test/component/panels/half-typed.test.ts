/** Whatever the page has to type in: half a text stands there again when the page was closed and opened. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fireEvent } from '@testing-library/svelte';
import { tick } from 'svelte';
import { afterEach, expect, it } from 'vitest';
import { PANELS } from '../../../renderer/state/desk.svelte.ts';
import { V1 } from '../../fixtures/read.ts';
import { openScreen, type Screen } from '../agreement/screen.ts';

const NOW = '2027-04-19T08:00+01:00';
const LESSONS = {
  events: [{ event: 'joint-one-bag', areaM2: 1, fairMinutes: 0, extraHours: 0, fillerKg: 0 }],
};
const QUESTIONS = [
  {
    id: 'who-carries',
    text: 'Who carries it?',
    answer: 'A van — by M. Ferris',
    before: 'hand-over',
  },
  { id: 'which-hinge', text: 'Which hinge?', answer: null, before: 'cutting' },
];
interface Document {
  readonly part: object;
}
const read = (file: string): Document => JSON.parse(readFileSync(file, 'utf8')) as Document;
const own = read(join(V1, 'documents/own-resin-of-one-row.build.json'));
const BUILDS = [
  ['a resin of its own', { ...own, part: { ...own.part, questions: QUESTIONS }, lessons: LESSONS }],
  ['a polyester', read(join(V1, 'documents/styrene.build.json'))],
] as const;

/** Everywhere that something can be typed: sections of the build, trays with their tabs, dialogs. */
const TABS: readonly (readonly [
  tray: Parameters<Screen['tray']>[0],
  key: string,
  tabs: readonly string[],
])[] = [
  ['part', 'partTab', ['laminate', 'kit', 'hours', 'plies', 'bags']],
  [
    'chemistry',
    'chemistryTab',
    ['cure', 'batch', 'bench', 'infusion', 'sheet', 'log', 'initiator'],
  ],
  ['decide', 'decideTab', ['choices', 'later', 'taught']],
];

type Field = HTMLInputElement | HTMLTextAreaElement;
const TYPES: Readonly<Record<string, string>> = {
  text: 'half',
  number: '7',
  date: '2027-05-10',
  'datetime-local': '2027-05-10T08:15',
};
/** What is searched for is no part of a build; a picker of the system takes a whole moment at once. */
const isTypedIn = (field: Field): boolean =>
  (field.tagName === 'TEXTAREA' || field.type in TYPES) &&
  field.getAttribute('aria-hidden') !== 'true' &&
  !/^(find-text|words-find)$/.test(field.id);

/** Shows one place after the other, and gives the fields of each. */
async function everywhere(
  screen: Screen,
  visit: (place: string, fields: readonly Field[]) => Promise<void>,
) {
  const fieldsIn = (root: ParentNode | null): Field[] =>
    [...(root?.querySelectorAll<Field>('input, textarea') ?? [])].filter(isTypedIn);
  for (const panel of PANELS) {
    screen.planner.setView({ panel, panelOpen: true });
    await tick();
    await visit(panel, fieldsIn(screen.find('#panel')));
  }
  for (const [tray, key, tabs] of TABS) {
    for (const tab of tabs)
      await visit(`${tray}, ${tab}`, fieldsIn(await screen.tray(tray, { [key]: tab })));
  }
  const sheet = await screen.tray('chemistry', { chemistryTab: 'sheet' });
  const makes = [...sheet.querySelectorAll('button')].find(({ textContent }) =>
    /^New resin/.test(textContent.trim()),
  );
  await fireEvent.click(makes!);
  await visit('new resin', fieldsIn(screen.find('dialog')));
  screen.planner.selected = 'demould';
  await visit('stage', fieldsIn(await screen.tray('stage')));
}

const HALF = /^(half \d+|7|2027-05-10(T08:15)?)$/;

async function whatStands(screen: Screen): Promise<Record<string, string>> {
  const stands: Record<string, string> = {};
  await everywhere(screen, async (place, fields) => {
    for (const [i, { id, value }] of fields.entries()) stands[`${place}: ${i} ${id}`] = value;
  });
  return stands;
}

let screen: Screen | null = null;
afterEach(() => {
  screen?.close();
  screen = null;
});

it.each(BUILDS)(
  'in a build with %s every field keeps what was half typed in it',
  async (_, build) => {
    screen = await openScreen(build, NOW);
    let count = 0;
    await everywhere(screen, async (_place, fields) => {
      for (const field of fields) {
        count += 1;
        const value = field.type === 'text' ? `half ${count}` : TYPES[field.type];
        await fireEvent.input(field, { target: { value: value ?? `half ${count}` } });
      }
    });
    expect(count).toBeGreaterThan(300);
    const typed = await whatStands(screen);
    const inDialog = Object.keys(typed).filter((place) => place.startsWith('new resin'));
    expect(inDialog).toHaveLength(6);
    const half = Object.values(typed).filter((text) => text.startsWith('half '));
    // Some fields stand at two places.
    expect(new Set(half).size).toBeGreaterThan(300);
    expect(Object.values(typed).filter((text) => !HALF.test(text))).toEqual([]);
    const { view } = screen.planner;
    screen.close();
    screen = await openScreen(
      build,
      NOW,
      JSON.parse(JSON.stringify(view)) as Record<string, unknown>,
    );
    expect(await whatStands(screen)).toEqual(typed);
  },
);
