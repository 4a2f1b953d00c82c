/**
 * One-dimensional transient conduction with reaction heat, implicit in time:
 *
 *   rho cp dT/dt = 1/r^p d/dr (r^p k dT/dr) + rho w H d(alpha)/dt
 *
 * by finite volumes and backward Euler, solved by Newton's method at every step. The heat of a step
 * is exactly that of the reaction it makes, so that energy is kept and the degree of cure stays
 * within 0 to 1 at any step length.
 */
import { GAS_CONSTANT, rateFactor, ZERO_C_IN_K } from './arrhenius.ts';
import { cureCurveTable, shapeRate, type CureCurveTable, type CureKinetics } from './kinetics.ts';

export interface ConductionLayer {
  readonly name: string;
  readonly thicknessMm: number;
  readonly conductivityWMK: number;
  readonly densityKgM3: number;
  readonly heatCapacityJKgK: number;
  /** Mixed resin that reacts, as a share of the layer's mass; null where nothing reacts. */
  readonly resin: { readonly kinetics: CureKinetics; readonly massShare: number } | null;
}

/** Face of the stack: shut, held at a temperature, or losing heat to air. C over hours. */
export type Face =
  | { readonly kind: 'insulated' }
  | { readonly kind: 'held'; readonly temperatureC: (hours: number) => number }
  | {
      readonly kind: 'air';
      readonly temperatureC: (hours: number) => number;
      readonly lossWM2K: number;
    };

export interface ConductionCase {
  /** Slab: from one face to the other. Cylinder and sphere: from the centre out, `first` unused. */
  readonly form: 'slab' | 'cylinder' | 'sphere';
  readonly layers: readonly ConductionLayer[];
  readonly first: Face;
  readonly last: Face;
  readonly startC: number;
  readonly hours: number;
  /** Cells over all layers, at least two in each. */
  readonly cells: number;
  /** Longest step, h. */
  readonly longestStepH: number;
  /** A step that moves any cell further than this is taken again at half the length, K. */
  readonly stepK: number;
  /** Ends the run once any cell is this hot, C. */
  readonly stopAtC?: number;
}

export interface LayerPeak {
  readonly name: string;
  readonly peakC: number;
  readonly peakHours: number;
  /** Degree of cure at the end, least and greatest; null where nothing reacts. */
  readonly degree: { readonly least: number; readonly greatest: number } | null;
}

export interface ConductionResult {
  readonly layers: readonly LayerPeak[];
  readonly peakC: number;
  readonly steps: number;
  /** Temperature of every cell at the end, C, and the place of its middle from the first face, mm. */
  readonly endC: readonly number[];
  readonly placeMm: readonly number[];
  /** Hottest cell of every layer over time. */
  readonly curve: readonly { readonly hours: number; readonly hottestC: readonly number[] }[];
}

interface Grid {
  readonly count: number;
  readonly layerOf: Int32Array;
  readonly placeM: Float64Array;
  /** J/K of every cell and W/K between cell i and i + 1, for the unit of face area (or angle). */
  readonly capacity: Float64Array;
  readonly between: Float64Array;
  /** W/K from the first and last cell's middle to its face, and the area of that face. */
  readonly firstToFace: number;
  readonly lastToFace: number;
  readonly firstArea: number;
  readonly lastArea: number;
  /** J released in a cell by its whole reaction. */
  readonly heat: Float64Array;
}

/**
 * Temperature and degree of cure of every cell over time.
 * @param conduction layers with thickness, conductivity and heat capacity, faces, start temperature, C, and
 * duration, h
 * @throws Error when a case holds no layer
 */
export function conduct(conduction: ConductionCase): ConductionResult {
  const grid = gridOf(conduction);
  const { layers, startC, hours, longestStepH, stepK } = conduction;
  const { count, layerOf } = grid;
  const tables = new Map<CureKinetics, CureCurveTable>();
  for (const { resin } of layers) {
    if (!resin || tables.has(resin.kinetics)) continue;
    tables.set(resin.kinetics, cureCurveTable(resin.kinetics.shape, resin.kinetics.glass));
  }
  let temperature = new Float64Array(count).fill(startC);
  let dose = new Float64Array(count);
  let degree = new Float64Array(count);
  const peaks = layers.map(() => ({ peakC: startC, peakHours: 0 }));
  const curve: { hours: number; hottestC: number[] }[] = [
    { hours: 0, hottestC: layers.map(() => startC) },
  ];
  const solver = stepSolver(conduction, grid, tables);
  let now = 0;
  let step = Math.min(longestStepH, hours / 1000);
  let steps = 0;
  while (now < hours - 1e-12) {
    step = Math.min(step, hours - now);
    const next = solver(temperature, dose, degree, now + step, step);
    if (next.movedK > stepK && step > 1e-7) {
      step /= 2;
      continue;
    }
    now += step;
    steps++;
    ({ temperature, dose, degree } = next);
    const hottestC = layers.map(() => -Infinity);
    for (let i = 0; i < count; i++) {
      const layer = layerOf[i]!;
      hottestC[layer] = Math.max(hottestC[layer]!, temperature[i]!);
    }
    hottestC.forEach((hottest, layer) => {
      const peak = peaks[layer]!;
      if (hottest > peak.peakC) peaks[layer] = { peakC: hottest, peakHours: now };
    });
    curve.push({ hours: now, hottestC });
    if (Math.max(...hottestC) >= (conduction.stopAtC ?? Infinity)) break;
    if (next.movedK < stepK / 2) step = Math.min(longestStepH, step * 1.5);
  }
  return {
    layers: layers.map((layer, i) => ({
      name: layer.name,
      ...peaks[i]!,
      degree: layer.resin ? degreesOf(degree, layerOf, i) : null,
    })),
    peakC: Math.max(...peaks.map((peak) => peak.peakC)),
    steps,
    endC: [...temperature],
    placeMm: [...grid.placeM].map((place) => place * 1000),
    curve,
  };
}

function degreesOf(degree: Float64Array, layerOf: Int32Array, layer: number) {
  let [least, greatest] = [Infinity, -Infinity];
  degree.forEach((value, i) => {
    if (layerOf[i] !== layer) return;
    least = Math.min(least, value);
    greatest = Math.max(greatest, value);
  });
  return { least, greatest };
}

function gridOf({ form, layers, cells }: ConductionCase): Grid {
  if (layers.length === 0) throw new Error('There is no layer to conduct through.');
  const power = { slab: 0, cylinder: 1, sphere: 2 }[form];
  const totalMm = layers.reduce((sum, layer) => sum + layer.thicknessMm, 0);
  const counts = layers.map((layer) =>
    Math.max(2, Math.round((cells * layer.thicknessMm) / totalMm)),
  );
  const count = counts.reduce((sum, n) => sum + n, 0);
  const layerOf = new Int32Array(count);
  const placeM = new Float64Array(count);
  const capacity = new Float64Array(count);
  const heat = new Float64Array(count);
  const between = new Float64Array(Math.max(0, count - 1));
  const halfResistance = { left: new Float64Array(count), right: new Float64Array(count) };
  const area = (r: number): number => r ** power;
  let face = 0;
  let i = 0;
  layers.forEach((layer, which) => {
    const width = layer.thicknessMm / 1000 / counts[which]!;
    for (let n = 0; n < counts[which]!; n++, i++) {
      const [inner, outer] = [face, face + width];
      const middle = (inner + outer) / 2;
      const volume = (outer ** (power + 1) - inner ** (power + 1)) / (power + 1);
      layerOf[i] = which;
      placeM[i] = middle;
      capacity[i] = volume * layer.densityKgM3 * layer.heatCapacityJKgK;
      if (layer.resin) {
        const { kinetics, massShare } = layer.resin;
        heat[i] = volume * layer.densityKgM3 * massShare * kinetics.heatJG * 1000;
      }
      halfResistance.left[i] = width / 2 / layer.conductivityWMK;
      halfResistance.right[i] = width / 2 / layer.conductivityWMK;
      if (i > 0) {
        between[i - 1] = area(inner) / (halfResistance.right[i - 1]! + halfResistance.left[i]!);
      }
      face = outer;
    }
  });
  return {
    count,
    layerOf,
    placeM,
    capacity,
    between,
    heat,
    firstToFace: area(0) / halfResistance.left[0]!,
    lastToFace: area(face) / halfResistance.right[count - 1]!,
    firstArea: area(0),
    lastArea: area(face),
  };
}

/** Conductance from the outermost cell to what lies outside a face, W/K, and that temperature. */
function outside(face: Face, toFace: number, area: number, hours: number) {
  if (face.kind === 'insulated' || area === 0) return { conductance: 0, temperatureC: 0 };
  const temperatureC = face.temperatureC(hours);
  if (face.kind === 'held') return { conductance: toFace, temperatureC };
  const film = face.lossWM2K * area;
  return { conductance: (toFace * film) / (toFace + film), temperatureC };
}

const SECONDS_PER_HOUR = 3600;
const MOST_ROUNDS = 12;
const SETTLED_K = 1e-4;

/** One implicit step: Newton on the temperatures, a tridiagonal system at every round. */
function stepSolver(
  { layers, first, last }: ConductionCase,
  grid: Grid,
  tables: ReadonlyMap<CureKinetics, CureCurveTable>,
) {
  const { count, capacity, between, heat, layerOf } = grid;
  const [lower, diagonal, right] = [0, 0, 0].map(() => new Float64Array(count)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const resins = layers.map(({ resin }) =>
    resin ? { kinetics: resin.kinetics, table: tables.get(resin.kinetics)! } : null,
  );

  return (
    before: Float64Array,
    doseBefore: Float64Array,
    degreeBefore: Float64Array,
    hours: number,
    stepH: number,
  ) => {
    const seconds = stepH * SECONDS_PER_HOUR;
    const start = outside(first, grid.firstToFace, grid.firstArea, hours);
    const end = outside(last, grid.lastToFace, grid.lastArea, hours);
    const temperature = Float64Array.from(before);
    const dose = Float64Array.from(doseBefore);
    const degree = Float64Array.from(degreeBefore);
    let changeK = Infinity;
    for (let round = 0; round < MOST_ROUNDS && changeK > SETTLED_K; round++) {
      for (let i = 0; i < count; i++) {
        const store = capacity[i]! / seconds;
        let slope = store;
        let miss = store * (temperature[i]! - before[i]!);
        if (i > 0) {
          slope += between[i - 1]!;
          miss += between[i - 1]! * (temperature[i]! - temperature[i - 1]!);
        } else {
          slope += start.conductance;
          miss += start.conductance * (temperature[0]! - start.temperatureC);
        }
        if (i < count - 1) {
          slope += between[i]!;
          miss += between[i]! * (temperature[i]! - temperature[i + 1]!);
        } else {
          slope += end.conductance;
          miss += end.conductance * (temperature[i]! - end.temperatureC);
        }
        const resin = resins[layerOf[i]!];
        if (resin) {
          const { kinetics, table } = resin;
          const speed =
            kinetics.ratePerHour *
            rateFactor(kinetics.activationEnergyJMol, temperature[i]!, kinetics.referenceC) *
            stepH;
          dose[i] = doseBefore[i]! + speed;
          degree[i] = table.degreeAt(dose[i]!);
          const kelvin = temperature[i]! + ZERO_C_IN_K;
          const perK =
            (shapeRate(kinetics.shape, degree[i]!) * speed * kinetics.activationEnergyJMol) /
            (GAS_CONSTANT * kelvin * kelvin);
          miss -= (heat[i]! * (degree[i]! - degreeBefore[i]!)) / seconds;
          // Held above zero: heat that grows faster with temperature than the cell loses it would give
          // the Newton step the wrong sign.
          slope = Math.max(0.2 * slope, slope - (heat[i]! * perK) / seconds);
        }
        diagonal[i] = slope;
        right[i] = -miss;
      }
      // Thomas' elimination; the off-diagonals are -between.
      for (let i = 1; i < count; i++) {
        lower[i] = -between[i - 1]! / diagonal[i - 1]!;
        diagonal[i] = diagonal[i]! + lower[i]! * between[i - 1]!;
        right[i] = right[i]! - lower[i]! * right[i - 1]!;
      }
      changeK = 0;
      for (let i = count - 1; i >= 0; i--) {
        const above = i < count - 1 ? between[i]! * right[i + 1]! : 0;
        right[i] = (right[i]! + above) / diagonal[i]!;
        temperature[i] = temperature[i]! + right[i]!;
        changeK = Math.max(changeK, Math.abs(right[i]!));
      }
    }
    let movedK = changeK > 1e-3 ? Infinity : 0;
    for (let i = 0; i < count; i++) {
      movedK = Math.max(movedK, Math.abs(temperature[i]! - before[i]!));
    }
    return { temperature, dose, degree, movedK };
  };
}
