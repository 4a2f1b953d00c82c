/** The closing time of a problem, worked out in one go. */
import { closingSteps, type Closing } from '../../app/schedule/closing.ts';
import { runToEnd } from '../../app/schedule/generators.ts';
import type { Problem } from '../../app/schedule/problem.ts';

export const closingTime = (problem: Problem): Closing => runToEnd(closingSteps(problem));
