/** The usual questions in words. Once asked, the text stands in the build's list and may be changed there. */

export const USUAL_QUESTIONS = {
  'length-and-trim': 'Overall length and trim line confirmed, and by whom?',
  'trim-line': 'Trim line confirmed, and by whom?',
  'features-and-holes': 'Which features and holes, and are local plies wanted under them?',
  'stiff-for-paint': 'Does the painter need a stiffer surface to block out on?',
  'finish-and-sheen': 'Finish, colour and sheen?',
  'who-carries': 'Who carries the part, in what, and who signs for it?',
} as const;

export type UsualQuestionCode = keyof typeof USUAL_QUESTIONS;
