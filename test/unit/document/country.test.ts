/** A new build writes numbers and dates as the country of its zone does. */
import { describe, expect, it } from 'vitest';
import { emptyBuild } from '../../../app/document/edit/start.ts';
import { COUNTRIES, formatsOf, wordedAs } from '../../../app/units/formats.ts';
import { dayClock } from '../../../app/shop/words.ts';
import { money, plain } from '../../../app/units/words.ts';

/** First two zones of each country, read off `zone.tab` of the IANA time zone database, release 2025b. */
const ZONES: Readonly<Record<string, readonly string[]>> = {
  AR: ['America/Argentina/Buenos_Aires', 'America/Argentina/Cordoba'],
  AT: ['Europe/Vienna'],
  AU: ['Australia/Lord_Howe', 'Antarctica/Macquarie'],
  BE: ['Europe/Brussels'],
  BG: ['Europe/Sofia'],
  BR: ['America/Noronha', 'America/Belem'],
  CA: ['America/St_Johns', 'America/Halifax'],
  CH: ['Europe/Zurich'],
  CL: ['America/Santiago'],
  CN: ['Asia/Shanghai', 'Asia/Urumqi'],
  CY: ['Asia/Nicosia', 'Asia/Famagusta'],
  CZ: ['Europe/Prague'],
  DE: ['Europe/Berlin', 'Europe/Busingen'],
  DK: ['Europe/Copenhagen'],
  EE: ['Europe/Tallinn'],
  ES: ['Europe/Madrid', 'Africa/Ceuta'],
  FI: ['Europe/Helsinki'],
  FR: ['Europe/Paris'],
  GB: ['Europe/London'],
  GR: ['Europe/Athens'],
  HR: ['Europe/Zagreb'],
  HU: ['Europe/Budapest'],
  ID: ['Asia/Jakarta', 'Asia/Pontianak'],
  IE: ['Europe/Dublin'],
  IN: ['Asia/Kolkata'],
  IS: ['Atlantic/Reykjavik'],
  IT: ['Europe/Rome'],
  JP: ['Asia/Tokyo'],
  KR: ['Asia/Seoul'],
  LI: ['Europe/Vaduz'],
  LT: ['Europe/Vilnius'],
  LU: ['Europe/Luxembourg'],
  LV: ['Europe/Riga'],
  MT: ['Europe/Malta'],
  MX: ['America/Mexico_City', 'America/Cancun'],
  NL: ['Europe/Amsterdam'],
  NO: ['Europe/Oslo'],
  NZ: ['Pacific/Auckland', 'Pacific/Chatham'],
  PH: ['Asia/Manila'],
  PL: ['Europe/Warsaw'],
  PT: ['Europe/Lisbon', 'Atlantic/Madeira'],
  RO: ['Europe/Bucharest'],
  RS: ['Europe/Belgrade'],
  SE: ['Europe/Stockholm'],
  SG: ['Asia/Singapore'],
  SI: ['Europe/Ljubljana'],
  SK: ['Europe/Bratislava'],
  TH: ['Asia/Bangkok'],
  TR: ['Europe/Istanbul'],
  TW: ['Asia/Taipei'],
  UA: ['Europe/Simferopol', 'Europe/Kyiv'],
  US: ['America/New_York', 'America/Detroit'],
  UY: ['America/Montevideo'],
  VN: ['Asia/Ho_Chi_Minh'],
  ZA: ['Africa/Johannesburg'],
};

const countryOf = (zone: string): unknown => emptyBuild(zone, [])['country'];

describe('the country of a new build', () => {
  it('is that of its zone, for every country whose way of writing is known', () => {
    const expected = Object.entries(ZONES).flatMap(([country, zones]) =>
      zones.map((zone) => [zone, country]),
    );
    expect(expected.map(([zone]) => [zone, countryOf(zone!)])).toEqual(expected);
    expect(Object.keys(ZONES).sort()).toEqual([...COUNTRIES].sort());
  });

  it('is found by every name of the zone', () => {
    // Links of the `backward` file of the same database.
    expect(countryOf('Asia/Calcutta')).toBe('IN');
    expect(countryOf('Europe/Kiev')).toBe('UA');
    expect(countryOf('US/Eastern')).toBe('US');
    expect(countryOf('Asia/Saigon')).toBe('VN');
  });

  it('is left open where the zone has none, or none that is known', () => {
    for (const zone of ['UTC', 'Etc/GMT+3', 'Africa/Nairobi', 'no/such']) {
      expect(emptyBuild(zone, [])).not.toHaveProperty('country');
    }
  });
});

describe('what is written in it', () => {
  const written = (zone: string) =>
    wordedAs(formatsOf(emptyBuild(zone, [])), () => [
      dayClock('2027-04-20T14:20+00:00'),
      plain(2.5),
      money(124050, 'EUR'),
    ]);

  it('has the order of day and month, the clock and the signs of the place', () => {
    // CLDR: short dates, decimal and grouping signs of these countries, from memory.
    expect(written('Europe/Lisbon')).toEqual(['Tue 20 Apr 14:20', '2,5', '€1 240,50']);
    expect(written('America/New_York')).toEqual(['Tue Apr 20 2:20 pm', '2.5', '€1,240.50']);
    expect(written('Europe/London')).toEqual(['Tue 20 Apr 14:20', '2.5', '€1,240.50']);
    expect(written('Europe/Zurich')).toEqual(['Tue 20 Apr 14:20', '2.5', "€1'240.50"]);
    expect(written('Asia/Kolkata')).toEqual(['Tue 20 Apr 2:20 pm', '2.5', '€1,240.50']);
    expect(written('UTC')).toEqual(['Tue 20 Apr 14:20', '2.5', '€1,240.50']);
  });
});
