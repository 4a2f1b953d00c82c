/** The words of the print sheets. */
import type { Shown } from './shown.ts';

export const sheetsWords = {
  printSheets: {
    sheetsPrint: 'Sheets to print',
    sheets: (name: Shown) => `Sheets of ${name}`,
    wallPrintedMomentsKept: (printedAt: Shown) =>
      `On the wall: printed ${printedAt}. Its moments are kept.`,
    planAfreshWhateverPrinted: 'Plan afresh, whatever is printed',
    sheets2: 'Sheets',
    all: 'All',
    print: 'Print',
    savePdf: 'Save as PDF',
    backBoard: 'Back to the board',
    pages: 'Pages',
  },
};
