/** Titles of axes and names of lines in the drawings. */

export const CHART_WORDS = {
  fromFirstContact: 'Time from first contact',
  room: 'Room, °C',
  partAndMould: 'Part and mould, °C',
  toDemould: '% to demould',
  progressOf: (cure: string): string => `${cure}, %`,
  momentsOf: (cure: string): string => `${cure} moments`,
  inVessel: 'In the vessel, °C',
  tooHot: 'too hot',
  roomLine: 'room',
  logLine: 'log',
  partLine: 'part',
  tgLine: 'Tg',
  tgNeeded: 'Tg needed',
  tgAt: (tgC: string, moment: string): string => `Tg ${tgC} °C, ${moment}`,
  temperatureAt: (temperatureC: string, moment: string): string => `${temperatureC} °C, ${moment}`,
  temperatureAfter: (temperatureC: string, time: string): string =>
    `${temperatureC} °C after ${time}`,
  potLifeEnds: (after: string): string => `pot life ends, ${after}`,
  frontAxis: 'Front, m',
  frontLine: 'front',
  frontAt: (place: string, after: string): string => `${place} after ${after}`,
  toFill: 'to fill',
  tooThick: 'too thick',
  gel: 'gel',
  sheetRow: (row: string, time: string): string => `${row}, ${time} on the sheet`,
  timeAt: (time: string, roomC: string): string => `${time} at ${roomC} °C`,
  doneByDay: 'Done by the end of the day, %',
  doneBy: 'done by then, %',
} as const;

/** The ticks of an axis of times drawn by their logarithm, by minutes. */
export const TIME_TICK_WORDS: ReadonlyMap<number, string> = new Map([
  [5, '5 min'],
  [15, '15 min'],
  [60, '1 h'],
  [240, '4 h'],
  [1440, '1 day'],
  [10_080, '1 week'],
  [40_320, '4 weeks'],
]);

/** The figures of a cure's curve in words. */
export const CURVE_WORDS = {
  gelFrom: 'Gel from',
  debagFrom: 'Bag off from',
  demouldFrom: 'Demould from',
  part: 'Part',
  span: (coldestC: string, hottestC: string): string => `${coldestC} to ${hottestC} °C`,
  firstMix: 'First mix',
  gel: 'Gel',
  never: 'never ready',
  tg: 'Tg',
} as const;
