/** Paper and files: by the shell where there is one, by the browser otherwise. */
import type { Build } from '../../app/document/schema.ts';
import type { PlanOutcome } from '../../app/plan/outcome.ts';
import { acceptedRecord, isSamePrintedPlan, printedRecord } from '../../app/plan/replanPrinted.ts';
import { printedSheets } from '../../app/shop/changedSheets.ts';
import { tellsWhen, type Picked } from '../../app/shop/packs.ts';
import { paperwork } from '../../app/shop/sheets.ts';
import type { Minute } from '../../app/time/instant.ts';
import type { Call } from './bridge.ts';
import type { Change } from '../../app/document/edit/change.ts';
import type { Draft } from '../../app/document/edit/path.ts';
import type { Announcer } from './announcer.svelte.ts';
import { EDIT_NAMES, NEWS } from '../words/news.ts';

export interface PrintingMeans {
  readonly call: Call;
  /** The page's own print dialog. */
  readonly printPage: () => void;
  /** The sheets as a page of their own, for the shell's printer. */
  readonly sheetsHtml: (outcome: PlanOutcome, picked: Picked) => string;
  /** Hands a text to the browser as a file to keep. */
  readonly downloadText: (fileName: string, text: string) => void;
}

/** What is printed, and where it is noted. */
export interface Printed {
  readonly runtime: 'electron' | 'browser';
  readonly outcome: PlanOutcome | null;
  readonly document: Draft;
  readonly now: Minute;
  apply(change: Change): void;
}

const LONGEST_NAME = 120;

export class PrintingState {
  readonly #means: PrintingMeans;
  readonly #desk: Printed;
  readonly #news: Announcer;

  /** @param desk read again for every print */
  constructor(means: PrintingMeans, desk: Printed, news: Announcer) {
    this.#means = means;
    this.#desk = desk;
    this.#news = news;
  }

  async print(to: 'dialog' | 'pdf', picked: Picked = {}): Promise<void> {
    const shown = this.#desk.outcome;
    if (!shown) return;
    if (this.#desk.runtime === 'browser') {
      this.#means.printPage();
      this.#keepPrinted(shown, picked);
      return;
    }
    const name = shown.result.build.name.slice(0, LONGEST_NAME);
    const html = this.#means.sheetsHtml(shown, picked);
    const answer = await this.#means.call('print-sheets', { html, to, name });
    this.#news.say(
      answer.ok ? (answer.value.done ? NEWS.printed : NEWS.notPrinted) : answer.detail,
    );
    if (answer.ok && answer.value.done) this.#keepPrinted(shown, picked);
  }

  /**
   * Notes in the build what was printed: the schedule where the sheets say when, and the lines of each
   * sheet. The paper of one person or of some days is part of a print, not the schedule.
   */
  #keepPrinted(shown: PlanOutcome, picked: Picked): void {
    const { outcome, document, now } = this.#desk;
    if (shown.result.build.id !== outcome?.result.build.id) return;
    const before = document.printed ? (document.printed as NonNullable<Build['printed']>) : null;
    const sheets = paperwork(shown, picked).packs.flatMap((pack) => pack.sheets);
    const schedule = tellsWhen(sheets) ? printedRecord(shown, now) : before;
    if (!schedule) return;
    const printed = { ...schedule, sheets: printedSheets(sheets, before?.sheets) };
    if (before && isSamePrintedPlan(before, printed)) return;
    this.#desk.apply({ label: EDIT_NAMES.printed, document: { ...document, printed } });
  }

  /** Forgets the printed schedule: the next plan is the best one again, whatever was printed. */
  planAfresh(): void {
    const { document } = this.#desk;
    if (!document.printed) return;
    this.#desk.apply({
      label: EDIT_NAMES.planAgain,
      document: { ...document, printed: null },
    });
  }

  /** The plan on screen is worked by from now on. */
  accept(): void {
    const { outcome, document, now } = this.#desk;
    const printed = outcome && acceptedRecord(outcome, now);
    if (!printed) return;
    this.#desk.apply({ label: EDIT_NAMES.acceptPlan, document: { ...document, printed } });
  }

  /** Keeps a text as a file: through the shell's dialog where there is one, as a download otherwise. */
  async saveText(fileName: string, text: string): Promise<void> {
    if (this.#desk.runtime === 'browser') {
      this.#means.downloadText(fileName, text);
      this.#news.say(`${fileName} saved.`);
      return;
    }
    const name = fileName.slice(0, LONGEST_NAME);
    const answer = await this.#means.call('text-save', { name, text });
    this.#news.say(answer.ok ? (answer.value.done ? NEWS.saved : NEWS.notSaved) : answer.detail);
  }
}
