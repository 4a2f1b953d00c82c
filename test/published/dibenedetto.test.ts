/**
 * Tg = Tg0 + (Tg1 - Tg0) lambda a / (1 - (1 - lambda) a) (DiBenedetto; Pascault & Williams 1990, form
 * from memory). The end points and the straight line at lambda 1 are exact; the set -19, 164, 0.38
 * for an amine-cured epoxy is from memory and doubtful, its values computed apart from this code.
 */
import { expect, it } from 'vitest';
import { degreeAtTg, tgAtDegreeC } from '../../app/cure/kinetics.ts';

const glass = (tg0C: number, tgFullC: number, lambda: number) => ({
  tg0C,
  tgFullC,
  lambda,
  slowsOverC: 10,
  halfOverC: 20,
  widthC: 2.5,
});

it.each([
  [-19, 164, 0.38],
  [-35, 82, 0.3],
  [-50, 62, 1],
])('runs from %d to %d C at lambda %d', (tg0C, tgFullC, lambda) => {
  expect(tgAtDegreeC(glass(tg0C, tgFullC, lambda), 0)).toBe(tg0C);
  expect(tgAtDegreeC(glass(tg0C, tgFullC, lambda), 1)).toBeCloseTo(tgFullC, 10);
});

it('is a straight line at lambda 1', () => {
  expect(tgAtDegreeC(glass(0, 100, 1), 0.37)).toBeCloseTo(37, 10);
});

it('has 31.39 C at half cure and 122.60 C at 0.9 for -19, 164, 0.38', () => {
  const set = glass(-19, 164, 0.38);
  expect(tgAtDegreeC(set, 0.5)).toBeCloseTo(31.39, 2);
  expect(tgAtDegreeC(set, 0.9)).toBeCloseTo(122.6, 2);
});

it.each([0, 0.2, 0.58, 0.9, 1])('is inverted at %d', (degree) => {
  const set = glass(-35, 82, 0.3);
  expect(degreeAtTg(set, tgAtDegreeC(set, degree))).toBeCloseTo(degree, 10);
});

it('holds outside Tg0 and Tg1', () => {
  const set = glass(-35, 82, 0.3);
  expect(degreeAtTg(set, -60)).toBe(0);
  expect(degreeAtTg(set, 120)).toBe(1);
});
