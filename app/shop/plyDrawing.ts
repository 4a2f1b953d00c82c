/** Drawings of plies and bags as trees, for paper and for the screen. */
import type { BagLayer, BagStack } from '../part/bag-stack.ts';
import type { CutPly } from '../part/cuts.ts';
import { fixed } from './words.ts';
import { h, type SheetNode } from './tree.ts';

/** `+45°`, `0°`, `−30°` */
export function angleWords(angleDeg: number): string {
  const digits = Number.isInteger(angleDeg) ? 0 : 1;
  return `${angleDeg > 0 && angleDeg < 90 ? '+' : ''}${fixed(angleDeg, digits)}°`;
}

/** The warp against the 0 line, which lies level; anticlockwise is plus. */
export function angleMark(angleDeg: number): SheetNode {
  return h(
    'svg',
    { class: 'angle-mark', viewBox: '0 0 24 24', width: 24, height: 24, 'aria-hidden': 'true' },
    h('line', { class: 'zero', x1: 0, x2: 24, y1: 12, y2: 12 }),
    h('line', {
      class: 'warp',
      x1: 2,
      x2: 22,
      y1: 12,
      y2: 12,
      transform: `rotate(${-angleDeg} 12 12)`,
    }),
  );
}

const AROUND = { cx: 96, cy: 78, reach: 58 };

/** The 0 line with every angle of the part against it. */
export function zeroLineDrawing(angles: readonly number[]): SheetNode {
  const { cx, cy, reach } = AROUND;
  const unique = [...new Set(angles)].sort((a, b) => a - b);
  const ends = unique.map((angleDeg) => {
    const turn = (angleDeg * Math.PI) / 180;
    return { angleDeg, x: Math.cos(turn), y: -Math.sin(turn) };
  });
  return h(
    'svg',
    {
      class: 'zero-line',
      viewBox: '0 0 230 156',
      width: '46mm',
      height: '31mm',
      role: 'img',
      'aria-label': zeroWords(unique),
    },
    h('line', { class: 'zero', x1: 4, x2: 188, y1: cy, y2: cy }),
    h('path', { class: 'arrow', d: `M188 ${cy} l-9 -4 v8 z` }),
    ends.map(({ angleDeg, x, y }) => [
      h('line', {
        class: 'warp',
        x1: cx - x * reach,
        x2: cx + x * reach,
        y1: cy - y * reach,
        y2: cy + y * reach,
      }),
      angleDeg !== 0 &&
        h(
          'text',
          { x: cx + x * (reach + 13), y: cy + y * (reach + 13) + 4, 'text-anchor': 'middle' },
          angleWords(angleDeg),
        ),
    ]),
    h('text', { x: 192, y: cy + 4 }, '0 line'),
  );
}

const zeroWords = (angles: readonly number[]): string =>
  `Plies lie at ${angles.map(angleWords).join(', ')} to the 0 line, plus anticlockwise, seen from the open side of the mould.`;

/** Pieces of a ply as they are cut: `2 of 1270 × 2050`, across by along the roll, mm. */
export function pieceWords(cut: CutPly): string {
  const groups = new Map<string, number>();
  for (const { acrossMm, alongMm } of cut.pieces) {
    const size = `${fixed(acrossMm, 0)} × ${fixed(alongMm, 0)}`;
    groups.set(size, (groups.get(size) ?? 0) + 1);
  }
  const said = [...groups].map(([size, count]) => (count === 1 ? size : `${count} of ${size}`));
  return `${said.join(', ')}${cut.laneDeg === null ? '' : ` on the bias at ${fixed(cut.laneDeg, 0)}°`}`;
}

/** Overlap of the pieces and how far the joint stands from the first one's; what lies over the section before. */
export function jointWords(cut: CutPly): string {
  const pieces = piecesJoined(cut);
  return cut.lapsMm === 0 ? pieces : `${pieces}, ${fixed(cut.lapsMm, 0)} over the section before`;
}

function piecesJoined(cut: CutPly): string {
  if (cut.overlapMm === 0) return 'one piece';
  const overlap = `overlap ${fixed(cut.overlapMm, 0)}`;
  return cut.staggerMm === 0 ? overlap : `${overlap}, joints ${fixed(cut.staggerMm, 0)} on`;
}

const THIN = 19;
const LEAST_HEIGHTS: Readonly<Record<BagLayer['kind'], number>> = {
  mould: 34,
  release: THIN,
  cured: 26,
  ply: THIN,
  core: 34,
  'peel-ply': THIN,
  film: THIN,
  mesh: THIN,
  breather: THIN,
  bag: THIN,
};
const LINE = 15;
const LEFT = 64;
const RIGHT = 300;
const TOP = 46;
const WIDTH = 640;

/** What a layer is, with the numbers of its plies. */
export function layerWords({ name, plies }: BagLayer): string {
  const said = name.replace(/-(?=\d)/g, '−');
  if (plies.length === 0) return said;
  return `${said}: ${plies.length === 1 ? 'ply' : 'plies'} ${numberRuns(plies).join(', ')}`;
}

/** `7 to 10, 12` of numbers in order. */
export function numberRuns(numbers: readonly number[]): string[] {
  const said: string[] = [];
  let from = 0;
  numbers.forEach((number, i) => {
    if (numbers[i + 1] === number + 1) return;
    const [first, count] = [numbers[from]!, i - from + 1];
    if (count <= 2) said.push(...numbers.slice(from, i + 1).map(String));
    else said.push(`${first} to ${number}`);
    from = i + 1;
  });
  return said;
}

/** One drawn band: cores of several zones lie beside each other, not one on the other. */
interface Band {
  readonly kind: BagLayer['kind'];
  readonly words: readonly string[];
  readonly height: number;
}

function bandsOf(layers: readonly BagLayer[]): Band[] {
  const groups: BagLayer[][] = [];
  for (const layer of layers) {
    const last = groups.at(-1);
    if (layer.kind === 'core' && last?.[0]?.kind === 'core') last.push(layer);
    else groups.push([layer]);
  }
  return groups.map((group) => {
    const kind = group[0]!.kind;
    const words = group.map(layerWords);
    return {
      kind,
      words,
      height: Math.max(LEAST_HEIGHTS[kind], LINE * words.length + 4),
    };
  });
}

/** The bag from the mould up, not to scale: film over all, port on top, thermocouple on the flange. */
export function bagDrawing(stack: BagStack, title: string): SheetNode {
  const bands = bandsOf(stack.layers);
  const total = bands.reduce((sum, { height }) => sum + height, 0);
  let bottom = TOP + total;
  const drawn = bands.map((band, i) => {
    bottom -= band.height;
    return drawBand(band, bottom, i === 0);
  });
  const flange = TOP + total - (bands[0]?.height ?? 0);
  const spoken = `${title}, from below: ${bands.map(({ words }) => words.join(' beside ')).join('; ')}.`;
  return h(
    'svg',
    {
      class: 'bag-drawing',
      viewBox: `0 0 ${WIDTH} ${TOP + total + 8}`,
      role: 'img',
      'aria-label': spoken,
    },
    drawn,
    fittings(flange),
  );
}

function drawBand({ kind, words, height }: Band, y: number, lowest: boolean): SheetNode[] {
  const [x, width] = lowest ? [8, 348] : [LEFT, RIGHT - LEFT];
  const middle = y + height / 2;
  const firstLine = middle + 4 - (LINE * (words.length - 1)) / 2;
  const parts = words.length;
  return [
    ...words.map((_, i) =>
      h('rect', {
        class: `layer layer-${kind}`,
        x: x + (width * i) / parts,
        y,
        width: width / parts,
        height,
      }),
    ),
    h('line', { class: 'lead', x1: x + width, x2: 372, y1: middle, y2: middle }),
    ...words.map((line, i) => h('text', { x: 377, y: firstLine + LINE * i }, line)),
  ];
}

/** Film down to the flange on tape at both sides, port, gauge and thermocouple. */
function fittings(flange: number): SheetNode[] {
  const top = TOP - 4;
  const film = `M26 ${flange - 3} H44 Q${LEFT - 8} ${top} ${LEFT + 10} ${top} H${RIGHT - 10} Q${RIGHT + 8} ${top} 320 ${flange - 3} H338`;
  return [
    h('path', { class: 'bag-film', d: film }),
    h('rect', { class: 'tape', x: 24, y: flange - 7, width: 14, height: 7 }),
    h('rect', { class: 'tape', x: 326, y: flange - 7, width: 14, height: 7 }),
    h('path', { class: 'port', d: `M172 ${top} v-14 h20 v14 z` }),
    h('text', { x: 198, y: top - 16 }, 'vacuum port'),
    h('line', { class: 'lead', x1: 192, x2: 198, y1: top - 14, y2: top - 19 }),
    h('path', { class: 'wire', d: `M48 ${flange - 3} C34 ${flange - 30} 22 40 18 26` }),
    h('text', { x: 4, y: 18 }, 'thermocouple'),
  ];
}
