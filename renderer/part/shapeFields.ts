/** Simple shapes and the measures that each asks for. */
import type { Shape } from '../../app/part/shapes.ts';

export interface ShapeKind {
  readonly kind: Shape['kind'];
  readonly label: string;
  readonly measures: readonly {
    readonly key: string;
    readonly label: string;
    readonly degrees?: true;
  }[];
  /** How such a surface curves. */
  readonly curves: 'flat' | 'single' | 'double';
}

export const SHAPE_KINDS: readonly ShapeKind[] = [
  {
    kind: 'rectangle',
    label: 'Length × girth',
    measures: [
      { key: 'lengthM', label: 'Length along the 0 line' },
      { key: 'girthM', label: 'Girth across it' },
    ],
    curves: 'single',
  },
  {
    kind: 'triangle',
    label: 'Triangle',
    measures: [
      { key: 'baseM', label: 'Base' },
      { key: 'heightM', label: 'Height' },
    ],
    curves: 'flat',
  },
  {
    kind: 'disc',
    label: 'Disc',
    measures: [{ key: 'diameterM', label: 'Diameter' }],
    curves: 'flat',
  },
  {
    kind: 'ellipse',
    label: 'Ellipse',
    measures: [
      { key: 'lengthM', label: 'Length' },
      { key: 'widthM', label: 'Width' },
    ],
    curves: 'flat',
  },
  {
    kind: 'cylinder',
    label: 'Tube or part of one',
    measures: [
      { key: 'diameterM', label: 'Diameter' },
      { key: 'lengthM', label: 'Length' },
      { key: 'arcDeg', label: 'How far round, degrees', degrees: true },
    ],
    curves: 'single',
  },
  {
    kind: 'cone',
    label: 'Cone, open at both ends',
    measures: [
      { key: 'baseM', label: 'Diameter at the base' },
      { key: 'topM', label: 'Diameter at the top' },
      { key: 'heightM', label: 'Height' },
    ],
    curves: 'single',
  },
  {
    kind: 'dome',
    label: 'Dome',
    measures: [
      { key: 'rimM', label: 'Diameter at the rim' },
      { key: 'riseM', label: 'Rise' },
    ],
    curves: 'double',
  },
];
