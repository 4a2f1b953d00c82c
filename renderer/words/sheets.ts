/** The words of the print sheets. */
import type { Shown } from './shown.ts';

export const sheetsWords = {
  printSheets: {
    sheetsPrint: 'Sheets to print',
    sheets: (name: Shown) => `Sheets of ${name}`,
    printedMomentsKept: (printedAt: Shown) =>
      `Printed ${printedAt}. The plan keeps to the moments on these sheets.`,
    planAgainWithoutPrint: 'Plan again, without the print',
    sheetKindLabel: 'Sheets',
    all: 'All sheets',
    pack: 'Pack',
    allPacks: 'All packs',
    days: 'Days',
    allDays: 'All days',
    person: 'Person',
    everybody: 'Everybody',
    mixes: 'Mix cards',
    mixLines: 'One mix card a cure',
    mixSmall: 'Four small mix cards to a side',
    paper: 'Paper',
    paperNames: { a4: 'A4', letter: 'Letter' },
    paperOfPlace: (paper: Shown) => `Paper: ${paper}`,
    changedOnly: 'Only what changed since the print',
    sides: (count: Shown) => `${count} ${count === 1 ? 'side' : 'sides'}`,
    print: 'Print',
    savePdf: 'Save as PDF',
    files: 'Files',
    saveFile: 'Save as file …',
    pasteTicks: 'Ticks of a phone …',
    back: 'Back to the plan',
    pages: 'Pages',
  },
};
