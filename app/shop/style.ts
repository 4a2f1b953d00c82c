/**
 * The sheets' one style, for paper and for the preview. Light colours only, meaning never by colour
 * alone, type that reads from an arm's length. Fits A4 and Letter: nothing is wider than either's
 * printable width, nothing that must stay whole is taller than Letter's height.
 */

/** Page boxes: margins, and a foot with build, plan and page number where the printer draws them. */
export function pageStyle(buildName: string, stamp: string): string {
  return `@page {
  margin: 12mm 12mm 15mm;
  @bottom-left { content: ${cssString(`${buildName} · ${stamp}`)}; font: 8pt sans-serif; color: #333; }
  @bottom-right { content: "Page " counter(page) " of " counter(pages); font: 8pt sans-serif; color: #333; white-space: nowrap; width: 26mm; text-align: right; }
}
`;
}

/** A CSS string literal that can neither end early nor close a style element. */
export function cssString(text: string): string {
  const escaped = text.replace(
    /[^\p{L}\p{N} .,:;()/·_-]/gu,
    (character) => `\\${character.codePointAt(0)!.toString(16)} `,
  );
  return `"${escaped}"`;
}

export const sheetStyle = (): string => STYLE;

const STYLE = `.sheets {
  color-scheme: light;
  color: #111;
  background: #fff;
  font: 10.5pt/1.35 system-ui, "Segoe UI", "Helvetica Neue", Arial, sans-serif;
  font-variant-numeric: tabular-nums;
}
.sheets * { box-sizing: border-box; }
.sheets .sheet { max-width: 186mm; margin: 0 auto 10mm; }
.sheets h1, .sheets h2, .sheets p, .sheets ul, .sheets ol, .sheets dl { margin: 0; padding: 0; }
.sheets .head {
  display: grid;
  grid-template-columns: 1fr auto;
  gap: 1mm 6mm;
  align-items: end;
  border-bottom: 1mm solid #111;
  padding-bottom: 2mm;
  margin-bottom: 4mm;
}
.sheets h1 { font-size: 19pt; line-height: 1.1; }
.sheets h2 { font-size: 11.5pt; margin: 0 0 1.5mm; }
.sheets .head-build { display: grid; text-align: right; font-size: 10pt; max-width: 72mm; }
.sheets .head-build small { font-size: 7.5pt; color: #333; }
.sheets .head-sub { grid-column: 1 / -1; font-size: 11pt; }
.sheets section { margin: 0 0 4mm; break-inside: avoid; }
.sheets small { font-size: 8.5pt; }

.sheets table { width: 100%; border-collapse: collapse; margin: 0 0 4mm; }
.sheets caption { text-align: left; font-weight: 700; font-size: 11.5pt; padding-bottom: 1.5mm; }
.sheets thead { display: table-header-group; }
.sheets tr { break-inside: avoid; }
.sheets th, .sheets td {
  border: 0.25mm solid #555;
  padding: 1.2mm 1.6mm;
  text-align: left;
  vertical-align: top;
}
.sheets thead th { background: #e4e4e4; font-size: 9.5pt; }
.sheets tbody th[scope="row"] { white-space: nowrap; font-weight: 700; }
.sheets .number { text-align: right; white-space: nowrap; }

.sheets .agenda .day th { background: #111; color: #fff; font-size: 11.5pt; border-color: #111; }
.sheets .week tbody { break-inside: avoid; }
.sheets .week .day th { break-after: avoid; }
.sheets .agenda .run td, .sheets .agenda .run th { color: #333; font-style: italic; font-weight: 400; }
.sheets .agenda .mark td, .sheets .agenda .mark th { background: #f1f1f1; }
.sheets .agenda .quiet td { color: #444; }
.sheets .week td, .sheets .week th { padding-top: 0.7mm; padding-bottom: 0.7mm; font-size: 9.5pt; }
.sheets .week th[scope="row"] { width: 33mm; white-space: normal; }
.sheets .week .float { white-space: nowrap; }
.sheets .week .latest { white-space: nowrap; }
.sheets .critical { font-weight: 800; }
.sheets .daily th[scope="row"] { font-size: 12.5pt; width: 30mm; white-space: normal; }
.sheets .daily td strong { font-size: 12pt; }
.sheets .daily .write { width: 17mm; min-width: 17mm; height: 11mm; }
.sheets .limits { font-size: 9.5pt; }
.sheets .caution { font-size: 8.5pt; margin-top: 0.6mm; padding-left: 2mm; border-left: 0.8mm solid #111; }
.sheets .write { min-width: 14mm; }

.sheets .strip { display: block; width: 100%; height: auto; margin: 0 0 4mm; break-inside: avoid; }
.sheets .strip text { font: 10px system-ui, "Segoe UI", Arial, sans-serif; fill: #111; }
.sheets .strip .day { font-weight: 700; }
.sheets .strip .night { fill: #ececec; }
.sheets .strip .rule { stroke: #999; stroke-width: 0.6; }
.sheets .strip .bar rect { fill: #444; stroke: #111; stroke-width: 0.8; }
.sheets .strip .run rect { fill: #fff; stroke-dasharray: 3 1.5; }
.sheets .strip .critical rect { stroke-width: 2; }
.sheets .strip .critical text { font-weight: 700; }
.sheets .strip .deadline { stroke: #111; stroke-width: 2.5; }

.sheets .verdict { border: 1mm solid #111; padding: 3mm; }
.sheets .verdict ul { padding-left: 5mm; }
.sheets .abort { border: 1mm solid #111; padding: 2mm 3mm; margin: 0 0 4mm; font-size: 11.5pt; break-inside: avoid; }
.sheets .abort strong { font-size: 13pt; }
.sheets .cautions { border-left: 1.6mm solid #111; padding-left: 3mm; font-size: 9.5pt; }
.sheets .cautions ul { padding-left: 4mm; }
.sheets .caution-line, .sheets .defer { font-size: 8.5pt; margin: 0 0 3mm; }

.sheets .blanks { display: flex; gap: 3mm; margin: 0 0 3mm; align-items: end; break-inside: avoid; }
.sheets .blanks-head { flex: 0 0 18mm; font-size: 10pt; padding-bottom: 1mm; }
.sheets .blank { flex: 1 1 0; min-width: 0; display: flex; flex-direction: column; }
.sheets .blank-label { font-size: 8.5pt; line-height: 1.2; }
.sheets .blank-planned { font-size: 8.5pt; font-weight: 700; line-height: 1.2; }
.sheets .blank-line { border-bottom: 0.4mm solid #111; height: 8mm; display: flex; align-items: end; justify-content: flex-end; }
.sheets .blank-unit { font-size: 9pt; color: #333; padding-bottom: 0.5mm; }

.sheets .ticks { list-style: none; }
.sheets .ticks li { display: flex; gap: 3mm; align-items: center; font-size: 11pt; padding: 0.9mm 0; break-inside: avoid; }
.sheets .box { flex: none; width: 5.5mm; height: 5.5mm; border: 0.5mm solid #111; }

.sheets .moments { display: flex; flex-wrap: wrap; gap: 2mm; margin: 0 0 4mm; }
.sheets .moment { flex: 1 1 24mm; display: flex; flex-direction: column; border: 0.4mm solid #111; padding: 1.2mm 1.8mm; min-width: 24mm; break-inside: avoid; }
.sheets .moment-label { font-size: 8.5pt; }
.sheets .moment-time { font-size: 17pt; font-weight: 800; line-height: 1.05; white-space: nowrap; }
.sheets .moment-missing .moment-time { font-size: 10.5pt; line-height: 1.7; white-space: normal; }
.sheets .moment-day { font-size: 9pt; min-height: 1.2em; }
.sheets .moment-actual { font-size: 8pt; color: #333; border-top: 0.25mm dotted #555; margin-top: 1mm; padding-bottom: 5mm; }

.sheets .mix-main { display: grid; grid-template-columns: 1.25fr 1fr; gap: 5mm; margin-bottom: 3mm; }
.sheets .scale { display: grid; grid-template-columns: 1fr auto; gap: 1mm 3mm; align-items: baseline; border: 0.6mm solid #111; padding: 2.5mm 3mm; }
.sheets .scale dd { margin: 0; text-align: right; font-size: 12pt; white-space: nowrap; }
.sheets .scale dd strong { font-size: 19pt; }
.sheets .scale .scale-sum { border-top: 0.4mm solid #111; padding-top: 1.5mm; font-weight: 700; }
.sheets .scale dd.scale-sum strong { font-size: 32pt; line-height: 1; }
.sheets .scale dd small { display: block; font-weight: 400; }
.sheets .mix-clock ul { padding-left: 4mm; font-size: 9.5pt; }
.sheets .sheet-mix { break-inside: avoid; border: 0.4mm solid #111; padding: 4mm; }
.sheets .sheet-mix h1 { font-size: 15pt; }
.sheets .sheet-mix .moments { margin-bottom: 2mm; }
.sheets .sheet-mix .moment-actual { display: none; }
.sheets .sheet-mix .abort { font-size: 9.5pt; margin-bottom: 0; }
.sheets .sheet-mix .abort strong { font-size: 11pt; }
.sheets .sheet-mix .caution-line { font-size: 7.5pt; margin-bottom: 2mm; }

.sheets .log td { height: 7.5mm; }
.sheets .log td, .sheets .log th { padding-top: 0.8mm; padding-bottom: 0.8mm; font-size: 9.5pt; }
.sheets .log .strong th, .sheets .log .strong td:nth-child(2) { font-weight: 800; }
.sheets .log .alone td { font-style: italic; background: #f1f1f1; }
.sheets .stack ol { columns: 2; padding-left: 6mm; font-size: 10pt; margin-bottom: 2mm; }
.sheets .holds td:nth-child(5), .sheets .holds td:nth-child(6) { min-width: 20mm; }
.sheets .plies td, .sheets .plies th, .sheets .batches td, .sheets .batches th { padding-top: 0.8mm; padding-bottom: 0.8mm; font-size: 9.5pt; }

@media print {
  .sheets .sheet { max-width: none; margin: 0; break-before: page; }
  .sheets .sheet:first-child { break-before: auto; }
  .sheets .sheet-mix + .sheet-mix { break-before: auto; margin-top: 6mm; }
  .sheets, .sheets * { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
}
`;
