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

const STYLE = `.shop-sheets {
  color-scheme: light;
  color: #111;
  background: #fff;
  font: 10.5pt/1.35 system-ui, "Segoe UI", "Helvetica Neue", Arial, sans-serif;
  font-variant-numeric: tabular-nums;
}
.shop-sheets * { box-sizing: border-box; }
.shop-sheets .sheet { max-width: 186mm; margin: 0 auto 10mm; }
.shop-sheets h1, .shop-sheets h2, .shop-sheets p, .shop-sheets ul, .shop-sheets ol, .shop-sheets dl { margin: 0; padding: 0; }
.shop-sheets .head {
  display: grid;
  grid-template-columns: 1fr auto;
  gap: 1mm 6mm;
  align-items: end;
  border-bottom: 1mm solid #111;
  padding-bottom: 2mm;
  margin-bottom: 4mm;
}
.shop-sheets h1 { font-size: 19pt; line-height: 1.1; }
.shop-sheets h2 { font-size: 11.5pt; margin: 0 0 1.5mm; }
.shop-sheets .head-build { display: grid; text-align: right; font-size: 10pt; max-width: 72mm; }
.shop-sheets .head-build small { font-size: 7.5pt; color: #333; }
.shop-sheets .head-sub { grid-column: 1 / -1; font-size: 11pt; }
.shop-sheets section { margin: 0 0 4mm; break-inside: avoid; }
.shop-sheets small { font-size: 8.5pt; }

.shop-sheets table { width: 100%; border-collapse: collapse; margin: 0 0 4mm; }
.shop-sheets caption { text-align: left; font-weight: 700; font-size: 11.5pt; padding-bottom: 1.5mm; }
.shop-sheets thead { display: table-header-group; }
.shop-sheets tr { break-inside: avoid; }
.shop-sheets th, .shop-sheets td {
  border: 0.25mm solid #555;
  padding: 1.2mm 1.6mm;
  text-align: left;
  vertical-align: top;
}
.shop-sheets thead th { background: #e4e4e4; font-size: 9.5pt; }
.shop-sheets tbody th[scope="row"] { white-space: nowrap; font-weight: 700; }
.shop-sheets .number { text-align: right; white-space: nowrap; }

.shop-sheets .agenda .day th { background: #111; color: #fff; font-size: 11.5pt; border-color: #111; }
.shop-sheets .week tbody { break-inside: avoid; }
.shop-sheets .week .day th { break-after: avoid; }
.shop-sheets .agenda .run td, .shop-sheets .agenda .run th { color: #333; font-weight: 400; }
.shop-sheets .agenda .run strong { font-weight: 700; }
.shop-sheets .agenda .mark td, .shop-sheets .agenda .mark th { background: #f1f1f1; }
.shop-sheets .agenda .quiet td { color: #444; }
.shop-sheets .week td, .shop-sheets .week th { padding-top: 0.7mm; padding-bottom: 0.7mm; font-size: 9.5pt; }
.shop-sheets .week th[scope="row"] { width: 25mm; white-space: nowrap; }
.shop-sheets .week td:nth-child(3) { min-width: 26mm; }
.shop-sheets .week .float { white-space: nowrap; }
.shop-sheets .week .latest { white-space: nowrap; }
.shop-sheets .critical { font-weight: 800; }
.shop-sheets .daily th[scope="row"] { font-size: 12pt; width: 28mm; white-space: nowrap; }
.shop-sheets .daily td strong { font-size: 12pt; }
.shop-sheets .daily .write { width: 16mm; min-width: 16mm; height: 10mm; }
.shop-sheets .daily .mark .write { height: 8mm; }
.shop-sheets .limits { font-size: 9.5pt; }
.shop-sheets .withheld { color: #333; }
.shop-sheets section.withheld { color: #111; }
.shop-sheets .withheld s { font-weight: 700; }
.shop-sheets .together th, .shop-sheets .together td { font-weight: 700; }
.shop-sheets .trouble ul { padding-left: 4mm; font-size: 9.5pt; }
.shop-sheets .caution { font-size: 8.5pt; margin-top: 0.6mm; padding-left: 2mm; border-left: 0.8mm solid #111; }
.shop-sheets .write { min-width: 14mm; }

.shop-sheets .strip { display: block; width: 100%; height: auto; margin: 0 0 4mm; break-inside: avoid; }
.shop-sheets .strip text { font: 10px system-ui, "Segoe UI", Arial, sans-serif; fill: #111; }
.shop-sheets .strip .day { font-weight: 700; }
.shop-sheets .strip .night { fill: #ececec; }
.shop-sheets .strip .rule { stroke: #999; stroke-width: 0.6; }
.shop-sheets .strip .bar rect { fill: #444; stroke: #111; stroke-width: 0.8; }
.shop-sheets .strip .run rect { fill: #fff; stroke-dasharray: 3 1.5; }
.shop-sheets .strip .critical rect { stroke-width: 2; }
.shop-sheets .strip .critical text { font-weight: 700; }
.shop-sheets .strip .deadline { stroke: #111; stroke-width: 2.5; }

.shop-sheets .verdict { border: 1mm solid #111; padding: 3mm; }
.shop-sheets .verdict ul { padding-left: 5mm; }
.shop-sheets .abort { border: 1mm solid #111; padding: 2mm 3mm; margin: 0 0 4mm; font-size: 11.5pt; break-inside: avoid; }
.shop-sheets .abort strong { font-size: 13pt; }
.shop-sheets .cautions { border-left: 1.6mm solid #111; padding-left: 3mm; font-size: 9.5pt; }
.shop-sheets .cautions ul { padding-left: 4mm; }
.shop-sheets .caution-line, .shop-sheets .defer { font-size: 8.5pt; margin: 0 0 3mm; }

.shop-sheets .blanks { display: flex; gap: 3mm; margin: 0 0 3mm; align-items: end; break-inside: avoid; }
.shop-sheets .blanks-head { flex: 0 0 18mm; font-size: 10pt; padding-bottom: 1mm; }
.shop-sheets .blank { flex: 1 1 0; min-width: 0; display: flex; flex-direction: column; }
.shop-sheets .blank-label { font-size: 8.5pt; line-height: 1.2; }
.shop-sheets .blank-planned { font-size: 8.5pt; font-weight: 700; line-height: 1.2; }
.shop-sheets .blank-line { border-bottom: 0.4mm solid #111; height: 8mm; display: flex; align-items: end; justify-content: flex-end; }
.shop-sheets .blank-unit { font-size: 9pt; color: #333; padding-bottom: 0.5mm; }

.shop-sheets .ticks { list-style: none; }
.shop-sheets .ticks li { display: flex; gap: 3mm; align-items: center; font-size: 11pt; padding: 0.9mm 0; break-inside: avoid; }
.shop-sheets .box { flex: none; width: 5.5mm; height: 5.5mm; border: 0.5mm solid #111; }

.shop-sheets .moments { display: flex; flex-wrap: wrap; gap: 2mm; margin: 0 0 4mm; }
.shop-sheets .moment { flex: 1 1 24mm; display: flex; flex-direction: column; border: 0.4mm solid #111; padding: 1.2mm 1.8mm; min-width: 24mm; break-inside: avoid; }
.shop-sheets .moment-label { font-size: 8.5pt; }
.shop-sheets .moment-time { font-size: 17pt; font-weight: 800; line-height: 1.05; white-space: nowrap; }
.shop-sheets .moment-missing .moment-time { font-size: 10.5pt; line-height: 1.7; white-space: normal; }
.shop-sheets .moment-day { font-size: 9pt; min-height: 1.2em; }
.shop-sheets .moment-actual { font-size: 8pt; color: #333; border-top: 0.25mm dotted #555; margin-top: 1mm; padding-bottom: 5mm; }

.shop-sheets .mix-main { display: grid; grid-template-columns: 1.25fr 1fr; gap: 5mm; margin-bottom: 3mm; }
.shop-sheets .scale { display: grid; grid-template-columns: 1fr auto; gap: 1mm 3mm; align-items: baseline; border: 0.6mm solid #111; padding: 2.5mm 3mm; }
.shop-sheets .scale dd { margin: 0; text-align: right; font-size: 12pt; white-space: nowrap; }
.shop-sheets .scale dd strong { font-size: 19pt; }
.shop-sheets .scale .scale-sum { border-top: 0.4mm solid #111; padding-top: 1.5mm; font-weight: 700; }
.shop-sheets .scale dd.scale-sum strong { font-size: 32pt; line-height: 1; }
.shop-sheets .scale dd small { display: block; font-weight: 400; }
.shop-sheets .mix-clock ul { padding-left: 4mm; font-size: 9.5pt; }
.shop-sheets .sheet-mix { break-inside: avoid; border: 0.4mm solid #111; padding: 3mm 4mm; }
.shop-sheets .sheet-mix h1 { font-size: 13.5pt; }
.shop-sheets .sheet-mix .head { padding-bottom: 1mm; margin-bottom: 2mm; border-bottom-width: 0.6mm; gap: 0 6mm; }
.shop-sheets .sheet-mix .head-build { display: block; max-width: none; font-size: 9pt; }
.shop-sheets .sheet-mix .head-build small { margin-left: 2mm; }
.shop-sheets .sheet-mix .head-sub { font-size: 10.5pt; }
.shop-sheets .sheet-mix .mix-main { margin-bottom: 2mm; }
.shop-sheets .sheet-mix .scale { padding: 1.5mm 3mm; row-gap: 0.5mm; }
.shop-sheets .sheet-mix .scale dt { font-size: 9.5pt; line-height: 1.15; }
.shop-sheets .sheet-mix .scale dd { line-height: 1.1; }
.shop-sheets .sheet-mix .blank-line { height: 6mm; }
.shop-sheets .sheet-mix .blanks { margin-bottom: 1.5mm; }
.shop-sheets .sheet-mix .moments { margin-bottom: 1.5mm; }
.shop-sheets .sheet-mix .moment-actual { display: none; }
.shop-sheets .sheet-mix .abort { font-size: 9pt; line-height: 1.25; margin-bottom: 0; padding: 1.2mm 2.5mm; }
.shop-sheets .sheet-mix .abort strong { font-size: 10.5pt; }
.shop-sheets .sheet-mix .caution-line { font-size: 7.5pt; line-height: 1.2; margin-bottom: 1.5mm; }

.shop-sheets .log td { height: 7.5mm; }
.shop-sheets .log td, .shop-sheets .log th { padding-top: 0.8mm; padding-bottom: 0.8mm; font-size: 9.5pt; }
.shop-sheets .log .strong th, .shop-sheets .log .strong td:nth-child(2) { font-weight: 800; }
.shop-sheets .log .alone td { background: #f1f1f1; }
.shop-sheets .room { max-width: 130mm; }
.shop-sheets .room td, .shop-sheets .room th { height: 7.5mm; padding-top: 0.8mm; padding-bottom: 0.8mm; }
.shop-sheets .room td { min-width: 22mm; }
.shop-sheets .later { margin: -2mm 0 3mm; font-size: 9.5pt; }
.shop-sheets .holds td:nth-child(2) { white-space: nowrap; }
.shop-sheets .holds td:nth-child(5), .shop-sheets .holds td:nth-child(6) { min-width: 20mm; }
.shop-sheets .plies td, .shop-sheets .plies th, .shop-sheets .batches td, .shop-sheets .batches th { padding-top: 0.8mm; padding-bottom: 0.8mm; font-size: 9.5pt; }

.shop-sheets .book, .shop-sheets .shopping { table-layout: fixed; }
.shop-sheets .book th:nth-child(1), .shop-sheets .book th:nth-child(8), .shop-sheets .book th:nth-child(9) { width: 11mm; }
.shop-sheets .book th:nth-child(3) { width: 38mm; }
.shop-sheets .book th:nth-child(4) { width: 19mm; }
.shop-sheets .book th:nth-child(5) { width: 15mm; }
.shop-sheets .book th:nth-child(6) { width: 23mm; }
.shop-sheets .book th:nth-child(7) { width: 40mm; }
.shop-sheets .book small, .shop-sheets .shopping small { display: block; font-weight: 400; }
.shop-sheets .book small, .shop-sheets .shopping small { color: #333; }
.shop-sheets .book td:nth-last-child(-n + 2), .shop-sheets .shopping td:nth-last-child(-n + 2) { width: 11mm; text-align: center; }
.shop-sheets .book .angle { display: inline-flex; align-items: center; gap: 1mm; white-space: nowrap; }
.shop-sheets .angle-mark { width: 6mm; height: 6mm; flex: none; }
.shop-sheets .zero-box { display: flex; gap: 6mm; align-items: center; }
.shop-sheets .zero-line { width: 62mm; flex: none; }
.shop-sheets .zero-line text, .shop-sheets .bag-drawing text { font: 12px system-ui, "Segoe UI", Arial, sans-serif; fill: #111; }
.shop-sheets .zero { stroke: #111; stroke-width: 1; stroke-dasharray: 5 3; }
.shop-sheets .warp { stroke: #111; stroke-width: 2.4; }
.shop-sheets .arrow { fill: #111; }
.shop-sheets .shopping th[scope="row"] { white-space: normal; }
.shop-sheets .shopping td, .shop-sheets .shopping th { padding-top: 0.8mm; padding-bottom: 0.8mm; font-size: 9pt; }
.shop-sheets .shopping th:nth-child(2), .shop-sheets .shopping th:nth-child(4) { width: 30mm; }
.shop-sheets .shopping th:nth-child(3) { width: 16mm; }
.shop-sheets .shopping th:nth-child(5) { width: 22mm; }
.shop-sheets .shopping th:nth-child(6) { width: 19mm; }
.shop-sheets .shopping th:nth-child(7) { width: 15mm; }
.shop-sheets .shopping th:nth-child(8) { width: 11mm; }
.shop-sheets .bag-drawing { display: block; width: 100%; max-width: 170mm; height: auto; }
.shop-sheets .bag-drawing .layer { fill: #fff; stroke: #111; stroke-width: 0.8; }
.shop-sheets .bag-drawing .layer-mould, .shop-sheets .bag-drawing .layer-cured { fill: #bbb; }
.shop-sheets .bag-drawing .layer-ply { fill: #555; }
.shop-sheets .bag-drawing .layer-core { fill: #e4e4e4; }
.shop-sheets .bag-drawing .layer-peel-ply, .shop-sheets .bag-drawing .layer-film { stroke-dasharray: 5 3; }
.shop-sheets .bag-drawing .lead { stroke: #777; stroke-width: 0.7; }
.shop-sheets .bag-drawing .bag-film, .shop-sheets .bag-drawing .wire { fill: none; stroke: #111; stroke-width: 1.6; }
.shop-sheets .bag-drawing .tape, .shop-sheets .bag-drawing .port { fill: #111; }

@media print {
  .shop-sheets .sheet { max-width: none; margin: 0; break-before: page; }
  .shop-sheets .sheet:first-child { break-before: auto; }
  .shop-sheets .sheet-mix + .sheet-mix { break-before: auto; margin-top: 5mm; }
  .shop-sheets, .shop-sheets * { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
}
`;
