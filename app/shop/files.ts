/** Files that are made of a plan beside its paper: one table for the command and the screen. */
import { orderCsv } from '../part/order.ts';
import type { PlanOutcome } from '../plan/outcome.ts';
import { calendarIcs } from './calendar.ts';
import { batchesCsv, stagesCsv } from './csv.ts';
import type { PhonePick } from './phone/content.ts';
import { phonePage } from './phone/page.ts';
import { shoppingList } from './shopping.ts';
import { PLAIN_FORMATS, wordedAs } from '../units/formats.ts';

export const FILE_KINDS = ['phone', 'ics', 'csv', 'kit', 'batches'] as const;
export type FileKind = (typeof FILE_KINDS)[number];

interface FileSort {
  /** What the chooser calls it. */
  readonly name: string;
  /** After the build's name, with its ending. */
  readonly ending: string;
  readonly text: (outcome: PlanOutcome, pick: PhonePick) => string;
}

/** For machines: the same whatever the place. */
const plainly =
  (text: (outcome: PlanOutcome) => string) =>
  (outcome: PlanOutcome): string =>
    wordedAs(PLAIN_FORMATS, () => text(outcome));

export const FILES: Readonly<Record<FileKind, FileSort>> = {
  phone: { name: 'Phone pack', ending: ' phone pack.html', text: phonePage },
  ics: { name: 'Calendar with alarms', ending: ' calendar.ics', text: plainly(calendarIcs) },
  csv: { name: 'Stages as CSV', ending: ' stages.csv', text: plainly(stagesCsv) },
  kit: {
    name: 'Kit as CSV',
    ending: ' kit.csv',
    text: plainly((outcome) => orderCsv(shoppingList(outcome), outcome.result.build.currency)),
  },
  batches: { name: 'Batches as CSV', ending: ' batches.csv', text: plainly(batchesCsv) },
};
