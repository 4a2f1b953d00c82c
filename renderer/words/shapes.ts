/** Simple shapes and their measures, as a person with a tape measure is asked for them. */
import type { Shape } from '../../app/part/shapes.ts';

type MeasuresOf<Kind> = Exclude<keyof Extract<Shape, { kind: Kind }>, 'kind'>;

type ShapeWords = {
  readonly [Kind in Shape['kind']]: {
    readonly name: string;
    readonly measures: Readonly<Record<MeasuresOf<Kind>, string>>;
  };
};

export const SHAPE_WORDS: ShapeWords = {
  rectangle: {
    name: 'Length × girth',
    measures: { lengthM: 'Length along the 0 line', girthM: 'Girth across it' },
  },
  triangle: { name: 'Triangle', measures: { baseM: 'Base', heightM: 'Height' } },
  disc: { name: 'Disc', measures: { diameterM: 'Diameter' } },
  ellipse: { name: 'Ellipse', measures: { lengthM: 'Length', widthM: 'Width' } },
  cylinder: {
    name: 'Tube or part of one',
    measures: { diameterM: 'Diameter', lengthM: 'Length', arcDeg: 'How far round, degrees' },
  },
  cone: {
    name: 'Cone, open at both ends',
    measures: { baseM: 'Diameter at the base', topM: 'Diameter at the top', heightM: 'Height' },
  },
  dome: { name: 'Dome', measures: { rimM: 'Diameter at the rim', riseM: 'Rise' } },
};
