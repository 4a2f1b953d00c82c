/** Findings about the choice of route. */
import type { Build } from '../../../../app/document/schema.ts';
import { ROOMY, withPart } from '../../judge/builds.ts';
import { crewOf, weekdays, type FindingCase } from './case.ts';

const BUILD: Build = {
  ...ROOMY,
  crew: crewOf(weekdays(['07:00', '19:00']), 'Ida Moss', 'Per Lunde'),
  outside: [{ id: 'paint', name: 'Spray shop', workingDays: 4 }],
  unveiling: '2027-05-24T18:00',
};
const APART: Build = { ...BUILD, route: { joints: {} } };
const ONE_BAG: Build = { ...ROOMY, route: { joints: { 'skin-core': 'one-bag' } } };
const BEGUN = {
  records: [
    { stage: 'layup:skin', start: '2027-04-16T08:00', end: '2027-04-16T10:00' },
    { stage: 'cure:skin', start: '2027-04-16T10:00', end: null },
  ],
};

export const ROUTE_CASES: readonly FindingCase[] = [
  {
    code: 'merge-forced',
    has: { ...BUILD, unveiling: '2027-05-12T18:00' },
    hasNot: BUILD,
    scope: 'full',
    severity: 'warn',
    message:
      'The date forces the core bond onto the tacky outer skin and the inner skin into one bag with the core bond. Separate cures closed Thursday 15 April, 16:59, when the material had to be ordered. It costs 0.34 kg of filler and saves about 2.4 h of work. The best finish left is painted.',
    numbers: {
      closed: 'Thursday 15 April, 16:59',
      hoursLate: 42.3,
      extraHours: -2.4,
      extraKg: 0.34,
    },
  },
  {
    code: 'route-closed',
    has: APART,
    hasNot: BUILD,
    now: '2027-05-05T08:00+01:00',
    scope: 'full',
    severity: 'warn',
    message:
      'Separate cures closed Wednesday 28 April, 16:59. That was when the material had to be ordered. Since then the inner skin has had to be laid onto the tacky core bond.',
    numbers: { closes: 'Wednesday 28 April, 16:59' },
  },
  {
    code: 'route-closing',
    has: APART,
    hasNot: { ...APART, unveiling: '2027-06-24T18:00' },
    now: '2027-04-28T08:00+01:00',
    scope: 'full',
    severity: 'warn',
    message:
      'Separate cures close Wednesday 28 April, 16:59, in 9 h. By then the material has to be ordered. After that the inner skin has to be laid onto the tacky core bond.',
    numbers: { closes: 'Wednesday 28 April, 16:59' },
  },
  {
    code: 'route-begun-otherwise',
    has: { ...APART, ...BEGUN },
    hasNot: APART,
    scope: 'full',
    severity: 'stop',
    message: 'Core bond and outer skin have already been laid apart.',
    numbers: { before: 'skin', after: 'core' },
  },
  {
    code: 'finish-not-reachable',
    has: withPart(ONE_BAG, { finish: 'clear' }),
    hasNot: ONE_BAG,
    severity: 'stop',
    message:
      'A clear finish shows the fibre, and fibre cured wet under core moves: outer skin + core bond gives painted at best.',
    numbers: { best: 'painted' },
  },
];
