/** The words of the temperature log. */
import { plural } from '../../app/units/words.ts';
import type { LogCompare } from '../../app/plan/logCompare.ts';
import type { Shown } from './shown.ts';

export const LOG_MILESTONES: Readonly<
  Record<LogCompare['milestones'][number]['milestone'], string>
> = {
  gel: 'Gel',
  debag: 'Bag off',
  demould: 'Demould',
};

export const logWords = {
  loggedCures: {
    cure: 'The log was beside',
    correct: 'Correct the laminate',
    gel: (logged: string, planned: string, filmTimes: Shown) =>
      `By the log it gels ${logged} after first mix, by the plan ${planned}: the laminate needs ${filmTimes} the time of the data sheet.`,
    said: (filmTimes: Shown, name: string) =>
      `times of the laminate ${filmTimes} those of the data sheet, by ${name}`,
  },
  log: {
    log: 'The log',
    temperatureLogTableTimes: 'Temperature log, a table of times and °C',
    coldestSpotPartMould: (zone: Shown) =>
      `From the coldest spot of part and mould where you have it. Times without a zone are read by the clock of ${zone}.`,
    reading: (fileName: Shown, share: Shown) => `Reading ${fileName}, ${share} %`,
    stop: 'Stop',
    roomGoes: 'The temperature of the room comes from',
    remove: 'Remove this log',
    logSpan: (
      readings: number,
      lines: number,
      start: Shown,
      end: Shown,
      coldestC: Shown,
      hottestC: Shown,
    ) =>
      `: ${plural(readings, 'reading')} in ${plural(lines, 'line')}, ${start} to ${end}, ${coldestC} to ${hottestC}.`,
    coldestCounts: (columns: Shown) => `The coldest of ${columns} counts.`,
    whatMendedLeftOut: 'What was mended or left out',
    nothingHadMended: 'Nothing had to be mended.',
    logAgainstRoom: 'The log against the room',
    temperatureLogRoomBuild: 'Temperature of the log and of the room in the build over time',
    firstMix: (mixed: Shown) => `From first mix ${mixed}`,
    logColumn: 'In the log',
    buildsRoom: 'In the build’s room',
    notWithin: 'not within it',
    dayMean: 'By day, mean',
    nightMean: 'By night, mean',
    ofCures: (names: string) => `It was there for: ${names}.`,
    ofOtherDays:
      'No cure of this plan lies within this log: it is of other days. As the room of this build it counts only if those days say what this room does.',
    otherDaysAgreed: 'It is of other days. Use it all the same',
    loggerLay: 'Where the logger was',
    airRoom: 'in the air of the room',
    coldestSpotOption: 'on the coldest spot of part and mould',
    useRoomsTemperature: 'Use as the room’s temperature',
    keptMinPlaceDay: (
      length: number,
      stepMinutes: Shown,
      readings: number,
      start: Shown,
      end: Shown,
    ) =>
      `Kept as ${plural(length, 'mean')} of ${stepMinutes} min from ${plural(readings, 'reading')}, in place of day and night from ${start} to ${end}.`,
    takeDayNightRoom: 'Use its day and night for the room',
  },
};
