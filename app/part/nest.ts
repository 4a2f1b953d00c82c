/**
 * Pieces on a roll of cloth. x runs across the roll, y along it; all in mm. Cloth is never turned: its
 * angle is part of the laminate.
 */

export interface Rectangle {
  readonly id: string;
  readonly acrossMm: number;
  readonly alongMm: number;
}

export interface PlacedRectangle extends Rectangle {
  readonly xMm: number;
  readonly yMm: number;
}

export interface RollUse {
  /** Length taken off the roll. */
  readonly lengthMm: number;
  readonly placed: readonly PlacedRectangle[];
  /** Ids of pieces wider than the roll, left out. */
  readonly tooWide: readonly string[];
}

/**
 * Lays rectangles on a roll in shelves across it: longest first, each on the first shelf with room, short
 * ones stacked where a shelf leaves a slot. Several orders are tried and the shortest kept.
 * First-fit decreasing height stays within 1.7 times the shortest plus one piece: Coffman, Garey,
 * Johnson and Tarjan, SIAM J. Comput. 9 (1980) 808 (from memory).
 */
export function packOnRoll(pieces: readonly Rectangle[], rollWidthMm: number): RollUse {
  const fitting = pieces.filter((piece) => piece.acrossMm <= rollWidthMm + SLACK_MM);
  const tooWide = pieces.filter((p) => !fitting.includes(p)).map((piece) => piece.id);
  const orders = [
    (a: Rectangle, b: Rectangle) => b.alongMm - a.alongMm || b.acrossMm - a.acrossMm,
    (a: Rectangle, b: Rectangle) => b.acrossMm - a.acrossMm || b.alongMm - a.alongMm,
    (a: Rectangle, b: Rectangle) => b.acrossMm * b.alongMm - a.acrossMm * a.alongMm,
  ];
  let best: { lengthMm: number; placed: PlacedRectangle[] } | null = null;
  for (const order of orders) {
    const candidate = shelves(fitting.toSorted(order), rollWidthMm);
    if (!best || candidate.lengthMm < best.lengthMm - SLACK_MM) best = candidate;
  }
  return { ...best!, tooWide };
}

/** Rounding of sizes in mm never pushes a piece off the roll. */
const SLACK_MM = 1e-6;

/** A slot of one shelf, filled along the roll. */
interface Slot {
  readonly xMm: number;
  readonly acrossMm: number;
  filledMm: number;
}

interface Shelf {
  readonly yMm: number;
  readonly alongMm: number;
  readonly slots: Slot[];
  usedMm: number;
}

function shelves(
  pieces: readonly Rectangle[],
  rollWidthMm: number,
): { lengthMm: number; placed: PlacedRectangle[] } {
  const list: Shelf[] = [];
  let lengthMm = 0;
  const placed = pieces.map((piece): PlacedRectangle => {
    for (const shelf of list) {
      const slot = slotFor(shelf, piece, rollWidthMm);
      if (slot) return put(piece, slot, shelf);
    }
    const shelf: Shelf = { yMm: lengthMm, alongMm: piece.alongMm, slots: [], usedMm: 0 };
    lengthMm += piece.alongMm;
    list.push(shelf);
    return put(piece, slotFor(shelf, piece, rollWidthMm)!, shelf);
  });
  return { lengthMm, placed };
}

function slotFor(shelf: Shelf, piece: Rectangle, rollWidthMm: number): Slot | null {
  for (const slot of shelf.slots) {
    const fits =
      piece.acrossMm <= slot.acrossMm + SLACK_MM &&
      slot.filledMm + piece.alongMm <= shelf.alongMm + SLACK_MM;
    if (fits) return slot;
  }
  const room = rollWidthMm - shelf.usedMm;
  if (piece.acrossMm > room + SLACK_MM || piece.alongMm > shelf.alongMm + SLACK_MM) return null;
  const slot = { xMm: shelf.usedMm, acrossMm: piece.acrossMm, filledMm: 0 };
  shelf.usedMm += piece.acrossMm;
  shelf.slots.push(slot);
  return slot;
}

function put(piece: Rectangle, slot: Slot, shelf: Shelf): PlacedRectangle {
  const yMm = shelf.yMm + slot.filledMm;
  slot.filledMm += piece.alongMm;
  return { ...piece, xMm: slot.xMm, yMm };
}

/** Strips of one width cut at an angle to the roll, lane by lane. */
export interface StripNest {
  /** Longest piece that the roll gives at this angle. */
  readonly laneMm: number;
  /** Lengths in each lane, end to end. */
  readonly lanes: readonly (readonly number[])[];
  /** Length taken off the roll. */
  readonly lengthMm: number;
  /** Share of the cloth that becomes strips. */
  readonly used: number;
  /** False when there were too many strips to prove that no fewer lanes would do. */
  readonly proven: boolean;
}

/** Strips up to this count are packed to proven fewest lanes. */
const MOST_PROVEN = 14;

/**
 * Nests strips cut at an angle across the roll. A lane is a strip-wide diagonal from selvage to selvage;
 * neighbouring lanes shift along the roll by width / sin(angle).
 * @param angleDeg angle of the strip to the roll, 0 < angle <= 90 by size
 * @returns null when a strip is longer than a lane, or wider than the roll gives
 */
export function nestStrips(
  lengthsMm: readonly number[],
  widthMm: number,
  angleDeg: number,
  rollWidthMm: number,
): StripNest | null {
  const angle = (Math.abs(angleDeg) * Math.PI) / 180;
  const laneMm = laneLengthMm(widthMm, angleDeg, rollWidthMm);
  if (laneMm <= 0 || lengthsMm.some((length) => length > laneMm + SLACK_MM)) return null;
  if (lengthsMm.length === 0) return { laneMm, lanes: [], lengthMm: 0, used: 0, proven: true };
  const { bins: lanes, proven } = fewestBins(lengthsMm, laneMm);
  const shift = widthMm / Math.sin(angle);
  const first = Math.max(...lanes.map(total)) * Math.cos(angle) + widthMm * Math.sin(angle);
  const lengthMm = (lanes.length - 1) * shift + first;
  const used = (total(lengthsMm) * widthMm) / (lengthMm * rollWidthMm);
  return { laneMm, lanes, lengthMm, used, proven };
}

/** Longest strip of a width that fits between the selvages at an angle, mm; 0 when none does. */
export function laneLengthMm(widthMm: number, angleDeg: number, rollWidthMm: number): number {
  const angle = (Math.abs(angleDeg) * Math.PI) / 180;
  return Math.max(0, (rollWidthMm - widthMm * Math.cos(angle)) / Math.sin(angle));
}

const total = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0);

/** Lengths into the fewest bins of one size: first-fit decreasing, then proof by search if few. */
function fewestBins(
  lengths: readonly number[],
  size: number,
): { bins: number[][]; proven: boolean } {
  const sorted = lengths.toSorted((a, b) => b - a);
  let best = firstFit(sorted, size);
  const least = Math.ceil(total(sorted) / size - 1e-9);
  if (best.length === least) return { bins: best, proven: true };
  if (sorted.length > MOST_PROVEN) return { bins: best, proven: false };

  const search = (next: number, bins: number[][], room: number[]): void => {
    if (bins.length >= best.length) return;
    if (next === sorted.length) {
      best = bins.map((bin) => [...bin]);
      return;
    }
    const length = sorted[next]!;
    const tried = new Set<number>();
    for (let i = 0; i < bins.length; i++) {
      // Bins with equal room are the same choice.
      if (length > room[i]! + SLACK_MM || tried.has(room[i]!)) continue;
      tried.add(room[i]!);
      bins[i]!.push(length);
      room[i]! -= length;
      search(next + 1, bins, room);
      room[i]! += length;
      bins[i]!.pop();
    }
    bins.push([length]);
    room.push(size - length);
    search(next + 1, bins, room);
    bins.pop();
    room.pop();
  };
  search(0, [], []);
  return { bins: best, proven: true };
}

function firstFit(sorted: readonly number[], size: number): number[][] {
  const bins: number[][] = [];
  const room: number[] = [];
  for (const length of sorted) {
    const i = room.findIndex((left) => length <= left + SLACK_MM);
    if (i >= 0) {
      bins[i]!.push(length);
      room[i]! -= length;
    } else {
      bins.push([length]);
      room.push(size - length);
    }
  }
  return bins;
}
