/** Simple shapes and the measures that each asks for. */
import type { Shape } from '../../../app/part/shapes.ts';
import { SHAPE_WORDS } from '../../words/shapes.ts';

export interface ShapeMeasure {
  readonly key: string;
  readonly label: string;
  readonly degrees: boolean;
}

export interface ShapeKind {
  readonly kind: Shape['kind'];
  readonly label: string;
  readonly measures: readonly ShapeMeasure[];
}

const KINDS = Object.keys(SHAPE_WORDS) as Shape['kind'][];

export const SHAPE_KINDS: readonly ShapeKind[] = KINDS.map((kind) => {
  const { name, measures } = SHAPE_WORDS[kind];
  return {
    kind,
    label: name,
    measures: Object.entries(measures).map(([key, label]) => ({
      key,
      label,
      degrees: key.endsWith('Deg'),
    })),
  };
});
