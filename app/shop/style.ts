/**
 * The sheets' one style, for paper and for the preview: sizes from the table of boxes, and here what
 * they look like. Light colours only, meaning never by colour alone.
 */
import { BODY_LINE, BODY_PT, RULES, type Box, type Rule } from './flow/boxes.ts';
import { BETWEEN_DAYS_MM, BETWEEN_MM } from './flow/sides.ts';
import {
  MARGIN_MM,
  SIDE_FOOT_MM,
  SIDE_HEAD_GAP_MM,
  SIDE_HEAD_MM,
  SIDE_HEAD_PT,
  SIDE_HEAD_TWO_LINES_PT,
  sizeOf,
  type Paper,
} from './flow/paper.ts';

/** Page boxes of both directions of the paper. The sides bring their own margins. */
export function pageStyle(paper: Paper): string {
  const page = (name: string, landscape: boolean): string => {
    const { widthMm, heightMm } = sizeOf(paper, landscape);
    return `@page ${name} { size: ${widthMm}mm ${heightMm}mm; margin: 0; }
.shop-sheets .${name} { page: ${name}; width: ${widthMm}mm; min-height: ${heightMm - 0.3}mm; }
`;
  };
  return page('upright', false) + page('level', true);
}

function boxStyle({ what, inside, box }: Rule): string {
  const selector = inside === undefined ? what : `${holder(inside)} ${what}`;
  const lines = declarations(box, what === 'td' || what === 'th');
  return lines.length === 0 ? '' : `.shop-sheets :where(${selector}) { ${lines.join(' ')} }\n`;
}

const holder = (inside: string): string => (inside === 'thead' ? inside : `.${inside}`);

function declarations(box: Box, isCell: boolean): string[] {
  const lines: string[] = [];
  const say = (name: string, value: number | undefined, unit: string): void => {
    if (value !== undefined) lines.push(`${name}: ${value}${unit};`);
  };
  say('font-size', box.pt, 'pt');
  say('line-height', box.line, '');
  if (box.bold) lines.push('font-weight: 700;');
  say('margin-top', box.above, 'mm');
  say('margin-bottom', box.below, 'mm');
  say('padding-top', box.padY, 'mm');
  say('padding-bottom', box.padY, 'mm');
  say('padding-left', box.indent ?? box.padX, 'mm');
  say('padding-right', box.padX, 'mm');
  if (box.border !== undefined) lines.push(`border: ${box.border}mm solid #111;`);
  // In a cell of a table the height is the least one.
  say(isCell ? 'height' : 'min-height', box.least, 'mm');
  if (box.children === 'across' || box.children === 'on one line') lines.push('display: flex;');
  if (box.children === 'two columns')
    lines.push('display: grid; grid-template-columns: 1fr 1fr; align-items: start;');
  if (box.children !== undefined) say('column-gap', box.gap, 'mm');
  return lines;
}

export const sheetStyle = (): string => `${BASE}${RULES.map(boxStyle).join('')}${LOOK}`;

const BASE = `.shop-sheets {
  color-scheme: light;
  color: #111;
  background: #fff;
  font: ${BODY_PT}pt/${BODY_LINE} Arial, "Helvetica Neue", "Liberation Sans", "DejaVu Sans Condensed", sans-serif;
  font-variant-numeric: tabular-nums;
}
.shop-sheets * { box-sizing: border-box; }
.shop-sheets :where(h1, h2, p, ul, section) { margin: 0; padding: 0; }
.shop-sheets .side { position: relative; padding: ${MARGIN_MM}mm ${MARGIN_MM}mm ${MARGIN_MM + SIDE_FOOT_MM - 2}mm; background: #fff; }
.shop-sheets .side-foot { position: absolute; left: ${MARGIN_MM}mm; right: ${MARGIN_MM}mm; bottom: ${MARGIN_MM - 2}mm; font-size: 7.5pt; line-height: 1.2; border-top: 0.2mm solid #888; padding-top: 0.6mm; }
.shop-sheets .side-head { height: ${SIDE_HEAD_MM}mm; display: flex; gap: ${SIDE_HEAD_GAP_MM}mm; justify-content: space-between; align-items: start; font-size: ${SIDE_HEAD_PT}pt; line-height: 1.15; }
.shop-sheets .side-head > :first-child { font-weight: 700; overflow: hidden; text-overflow: ellipsis; white-space: nowrap; }
.shop-sheets .side-head > .two-lines { font-size: ${SIDE_HEAD_TWO_LINES_PT}pt; line-height: 1.1; white-space: normal; }
.shop-sheets .side-head > :last-child { flex: none; text-align: right; white-space: nowrap; }
.shop-sheets .sheet + .sheet { margin-top: ${BETWEEN_MM}mm; }
.shop-sheets .sheet-day + .sheet-day { margin-top: ${BETWEEN_DAYS_MM}mm; }
.shop-sheets table { width: 100%; border-collapse: collapse; table-layout: fixed; }
.shop-sheets caption { text-align: left; }
.shop-sheets :where(th, td) { text-align: left; vertical-align: top; overflow-wrap: anywhere; }
`;

const LOOK = `.shop-sheets .head { border-top: 0.9mm solid #111; }
.shop-sheets .head-line { align-items: baseline; }
.shop-sheets .head-line { justify-content: space-between; }
.shop-sheets .head-line > * { white-space: nowrap; }
.shop-sheets .head-line .head-sub { text-align: right; }
.shop-sheets .head h1 small { font-weight: 400; }
.shop-sheets th, .shop-sheets td { border-color: #666; }
.shop-sheets thead th { background: #e8e8e8; }
.shop-sheets .number { text-align: right; white-space: nowrap; }
.shop-sheets .mark th, .shop-sheets .mark td { background: #f1f1f1; }
.shop-sheets .run td, .shop-sheets .run th { color: #333; font-weight: 400; }
.shop-sheets .day-bar th, .shop-sheets .day-bar td { border-top: 0.9mm solid #111; }
.shop-sheets .day-bar small { color: #333; }
.shop-sheets .critical { font-weight: 800; }
.shop-sheets .withheld { color: #333; }
.shop-sheets section.withheld { color: #111; }
.shop-sheets .together th, .shop-sheets .together td { font-weight: 700; }
.shop-sheets .strong th, .shop-sheets .strong td:nth-child(2) { font-weight: 800; }
.shop-sheets .alone td { background: #f1f1f1; }
.shop-sheets .caution { border-left: 0.8mm solid #111; }
.shop-sheets .cautions { border-left: 1.4mm solid #111; }
.shop-sheets tr.changed > :first-child, .shop-sheets p.changed, .shop-sheets li.changed, .shop-sheets div.changed { border-left: 1.2mm solid #111; }
.shop-sheets p.changed, .shop-sheets li.changed, .shop-sheets div.changed { margin-left: -2.2mm; padding-left: 1mm; }
.shop-sheets .changed-note { font-weight: 700; }
.shop-sheets .blanks, .shop-sheets .side-by-side { align-items: end; }
.shop-sheets .side-by-side, .shop-sheets .wall-lines { align-items: start; }
.shop-sheets .blanks > *, .shop-sheets .side-by-side > *, .shop-sheets .wall-lines > *, .shop-sheets .moments > * { flex: 1 1 0; min-width: 0; }
.shop-sheets .blank { display: block; }
.shop-sheets .blank > * { display: block; }
.shop-sheets .blank-line { border-bottom: 0.35mm solid #111; display: flex !important; align-items: end; justify-content: flex-end; }
.shop-sheets .blank-unit { font-size: 8.5pt; color: #333; padding-bottom: 0.4mm; }
.shop-sheets .ticks { list-style: none; }
.shop-sheets .ticks li { position: relative; }
.shop-sheets .box { position: absolute; left: 0; top: 0.6mm; width: 4.4mm; height: 4.4mm; border: 0.4mm solid #111; }
.shop-sheets .moment > * { display: block; }
.shop-sheets .moment-time { white-space: nowrap; }
.shop-sheets .moment-missing .moment-time { font-size: 9pt; line-height: 1.7; }
.shop-sheets .moment-actual { color: #333; border-top: 0.2mm dotted #555; }
.shop-sheets .scales td { vertical-align: middle; }
.shop-sheets .scales .reading, .shop-sheets .scales .weigh { display: block; white-space: nowrap; }
.shop-sheets .shopping th small { font-weight: 400; }
.shop-sheets .book td:nth-last-child(-n + 2), .shop-sheets .shopping td:nth-last-child(-n + 2) { text-align: center; }
.shop-sheets .angle { display: inline-flex; align-items: center; gap: 1mm; white-space: nowrap; }
.shop-sheets .angle-mark { width: 4.6mm; height: 4.6mm; flex: none; }
.shop-sheets .zero-line text, .shop-sheets .bag-drawing text { font: 12px Arial, "Helvetica Neue", "Liberation Sans", "DejaVu Sans Condensed", sans-serif; fill: #111; }
.shop-sheets .zero { stroke: #111; stroke-width: 1; stroke-dasharray: 5 3; }
.shop-sheets .warp { stroke: #111; stroke-width: 2.4; }
.shop-sheets .arrow { fill: #111; }
.shop-sheets svg { display: block; }
.shop-sheets .bag-drawing { width: 100%; height: auto; }
.shop-sheets .zero-line { float: left; margin-right: 6mm; }
.shop-sheets .bag-drawing .layer { fill: #fff; stroke: #111; stroke-width: 0.8; }
.shop-sheets .bag-drawing .layer-mould, .shop-sheets .bag-drawing .layer-cured { fill: #bbb; }
.shop-sheets .bag-drawing .layer-ply { fill: #555; }
.shop-sheets .bag-drawing .layer-core { fill: #e4e4e4; }
.shop-sheets .bag-drawing .layer-peel-ply, .shop-sheets .bag-drawing .layer-film { stroke-dasharray: 5 3; }
.shop-sheets .bag-drawing .lead { stroke: #777; stroke-width: 0.7; }
.shop-sheets .bag-drawing .bag-film, .shop-sheets .bag-drawing .wire { fill: none; stroke: #111; stroke-width: 1.6; }
.shop-sheets .bag-drawing .tape, .shop-sheets .bag-drawing .port { fill: #111; }
.shop-sheets .wall text { font-family: Arial, "Helvetica Neue", "Liberation Sans", "DejaVu Sans Condensed", sans-serif; fill: #111; }
.shop-sheets .wall .bold { font-weight: 700; }
.shop-sheets .wall .rule { stroke: #888; stroke-width: 0.15; }
.shop-sheets .wall .hour { stroke: #bbb; stroke-width: 0.1; }
.shop-sheets .wall .shut { fill: #eee; }
.shop-sheets .wall .work { fill: #fff; stroke: #111; stroke-width: 0.35; }
.shop-sheets .wall .work.done { fill: #ccc; }
.shop-sheets .wall .work.running { fill: #eee; stroke-dasharray: 1.2 0.6; }
.shop-sheets .wall .tight { stroke-width: 0.9; }
.shop-sheets .wall .cure { fill: #d8d8d8; stroke: #111; stroke-width: 0.35; }
.shop-sheets .wall .gel { fill: #111; stroke: #111; stroke-width: 0.2; }
.shop-sheets .wall .light { fill: #fff; }
.shop-sheets .wall .mark { stroke: #111; stroke-width: 0.5; fill: none; }

@media print {
  .shop-sheets .side { break-after: page; break-inside: avoid; }
  .shop-sheets .side:last-child { break-after: auto; }
  .shop-sheets, .shop-sheets * { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
}
`;
