/** The printed document read back: its sheets by id, their text and the rows of their tables. */
const ENTITIES: Readonly<Record<string, string>> = {
  '&amp;': '&',
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
};

const textIn = (html: string): string =>
  html
    .replace(/<[^>]*>/g, ' ')
    .replace(/&(?:amp|lt|gt|quot|#39);/g, (entity) => ENTITIES[entity]!)
    .replace(/\s+/g, ' ')
    .trim();

export interface PrintedSheet {
  readonly id: string;
  readonly text: string;
  /** Text of every cell, row after row, of all tables in order. */
  readonly rows: readonly (readonly string[])[];
}

/** Sheets of a printed HTML document in order. */
export function printedSheets(html: string): PrintedSheet[] {
  const sheets: PrintedSheet[] = [];
  for (const chunk of html.split('<article').slice(1)) {
    const body = chunk.split('</article>')[0]!;
    const rows = [...body.matchAll(/<tr[^>]*>(.*?)<\/tr>/gs)].map(([, row]) =>
      [...row!.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map(([, cell]) => textIn(cell!)),
    );
    const id = /^[^>]* id="([^"]*)"/.exec(body)?.[1] ?? '';
    const text = textIn(`<${body}`);
    const last = sheets.at(-1);
    // What goes on from the side before has no id of its own.
    if (id === '' && last) {
      const joined = { ...last, text: `${last.text} ${text}`, rows: [...last.rows, ...rows] };
      sheets[sheets.length - 1] = joined;
    } else sheets.push({ id, text, rows });
  }
  return sheets;
}
