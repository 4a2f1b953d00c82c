/** The usual questions in words. Once asked, the text stands in the build's list and may be changed there. */

export const USUAL_QUESTIONS = {
  'length-and-trim': 'Overall sizes and trim line signed, and by whom?',
  'frame-measured': 'Has the frame that it goes on been measured, and who signed the figures?',
  'trim-line': 'Trim line confirmed, and by whom?',
  'features-and-holes': 'Which features and holes, and are local plies wanted under them?',
  'stiff-for-paint': 'Does the painter need a stiffer surface to block out on?',
  'colour-and-bake':
    'Finish, colour and sheen, and how hot is it baked? A dark part in the sun needs more Tg.',
  'who-carries': 'Who carries the part, in what, and who signs for it?',
} as const;

export type UsualQuestionCode = keyof typeof USUAL_QUESTIONS;
