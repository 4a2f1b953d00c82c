/** A build that has a finding, with the very words and numbers that are told of it. */
import type { Build, Finding, Library } from '../../../../app/document/schema.ts';
import type { FindingCode } from '../../../../app/messages/findings.ts';
import { ROOMY } from '../../judge/builds.ts';

export interface FindingCase {
  readonly code: FindingCode;
  readonly has: Build;
  /** A build near it that has the finding not. */
  readonly hasNot: Build;
  readonly library?: Library;
  /** When it is planned, ISO 8601 with offset. */
  readonly now?: string;
  /** 'full' for what a first answer does not look into. */
  readonly scope?: 'full';
  readonly severity: Finding['severity'];
  readonly message: string;
  readonly numbers: Finding['numbers'];
}

export const room = (given: Build['room'], document: Build = ROOMY): Build => ({
  ...document,
  room: given,
});
export const DAY = { temperatureC: { day: 21, night: 19 }, humidityPct: 50 };
export const WARM_TENT = room({ ...DAY, tent: { maxC: 60 } });

type Week = NonNullable<Build['crew'][number]['hours']>;
/** The same hours from Monday to Friday. */
export const weekdays = (...spans: [string, string][]): Week => ({
  mon: spans,
  tue: spans,
  wed: spans,
  thu: spans,
  fri: spans,
});
export const crewOf = (hours: Week, ...names: string[]): Build['crew'] =>
  (names.length > 0 ? names : ['Ida Moss']).map((name) => ({ name, hours }));

/** Heat under the bag of the outer skin, C and C an hour. */
export const under = (temperatureC: number, rampKPerHour = 10) => ({
  layup: 'skin',
  steps: [{ temperatureC, rampKPerHour, holdHours: 6 }],
});
