/** The words of the fields. */
import type { Shown } from './shown.ts';

export const fieldsWords = {
  choices: {
    take: (label: Shown) => `Take ${label}`,
  },
  daysOff: {
    remove: (off: Shown) => `Remove ${off}`,
    removed: (off: Shown) => `${off} removed`,
    dayAdd: (label: Shown) => `${label}: day to add`,
    addDay: 'Add day',
  },
  field: {
    needed: 'needed',
    assumed: 'assumed',
  },
  moment: {
    clocksSkipPickAnother: (zone: Shown, next: Shown) =>
      `The clocks of ${zone} skip ${next}: pick another hour.`,
    as: (sample: string) => `as ${sample}`,
    pickDay: (label: Shown) => `${label}: pick from a calendar`,
    dayNeededHere: 'A day is needed here.',
    notKnown: 'not known',
  },
  names: {
    how: 'Several names with commas between become several people.',
    people: (count: Shown) => `${count} people. Hours and days off: Dates & people.`,
    nobody: 'Somebody has to work on it: write a name.',
    twice: (name: Shown) => `${name} is there twice: give each person a different name.`,
  },
  pick: {
    pickOne: 'Pick one',
    assumed: 'As assumed',
  },
  plies: {
    xCarbonMouldSide: 'As in “2 x Carbon 200 @ 0/45”, mould side first.',
    pickPlies: 'Pick plies',
    cloth: (label: Shown) => `${label}: cloth`,
    clothPlaceholder: 'Cloth',
    angle: (label: Shown) => `${label}: angle`,
    addPly: 'Add ply',
    removeLast: 'Remove the last',
  },
  quantity: {
    less: (label: Shown) => `${label}: less`,
    more: (label: Shown) => `${label}: more`,
    notKnown: 'not known',
  },
  text: {
    writeCharacters: (longest: Shown) => `Write 1 to ${longest} characters.`,
    charactersMost: (length: Shown, longest: Shown) => `${length} characters: at most ${longest}.`,
  },
  tick: {
    assumed: 'assumed',
  },
  weekHours: {
    assumed: '(assumed)',
  },
};
