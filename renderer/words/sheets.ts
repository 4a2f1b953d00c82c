/** The words of the print sheets. */
import type { Shown } from './shown.ts';

export const sheetsWords = {
  printSheets: {
    sheetsPrint: 'Sheets to print',
    sheets: (name: Shown) => `Sheets of ${name}`,
    printedMomentsKept: (printedAt: Shown) =>
      `Printed ${printedAt}. The plan keeps to the moments on these sheets.`,
    planAgainWithoutPrint: 'Plan again, without the print',
    sheets2: 'Sheets',
    all: 'All',
    print: 'Print',
    savePdf: 'Save as PDF',
    back: 'Back to the plan',
    pages: 'Pages',
  },
};
