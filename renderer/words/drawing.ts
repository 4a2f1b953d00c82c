/** The words of charts and parts that several rooms share. */
import type { Shown } from './shown.ts';

export const drawingWords = {
  formula: {
    showWhereComes: (label: Shown, value: Shown) => `${label}: ${value}. Show where it comes from`,
    whereComes: (label: Shown) => `Where ${label} comes from`,
    close: 'Close',
    whatWent: 'What went in',
  },
  modal: {
    close: 'Close',
  },
  cureChart: {
    temperatureCure: 'Temperature and cure',
    cure: 'Cure',
    all: 'all',
    partMouldC: 'Part and mould, °C',
    noCurePlaceTime: 'No cure has a place in time yet.',
  },
};
