/** Words of the paste of a phone's ticks. */
export const PHONE_WORDS = {
  title: 'Ticks of a phone',
  intro:
    'Paste the text from the end of a phone pack. Each tick is shown with its moment and what it would write down; nothing is written down before you say so.',
  text: 'Text of the phone',
  none: 'Paste the text here',
  take: 'Use',
  wasSo: 'Yes, it happened like this',
  olderAgreed: 'They were done all the same',
  implied: 'Before these comes what is not written down yet. It is written down with them:',
  write: (count: number): string =>
    count === 1 ? 'Write one stage down' : `Write ${count} stages down`,
  written: (count: number): string =>
    count === 1 ? 'one stage written down' : `${count} stages written down`,
  label: 'Ticks of a phone',
  nothing: 'Nothing of this can be written down.',
} as const;
