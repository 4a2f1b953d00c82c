/** The part of the independent integrator (odex, after Hairer & Wanner) that the checks use. */
export class Solver {
  constructor(dimension: number);
  relativeTolerance: number;
  absoluteTolerance: number;
  initialStepSize: number;
  maxSteps: number;
  solve(
    derivative: (x: number, y: number[]) => number[],
    x: number,
    y: number[],
    xEnd: number,
  ): { y: number[]; xEnd: number };
}
