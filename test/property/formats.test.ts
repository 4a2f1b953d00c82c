/** Numbers and moments as the places write them: the right hour, the right day, and typed back the same. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatSpans, readSpans } from '../../app/document/edit/hours.ts';
import { dayAndTime } from '../../app/messages/words.ts';
import { dayClock, fullMoment } from '../../app/shop/words.ts';
import { shortAt } from '../../app/timeline/clockWords.ts';
import { readMoment } from '../../app/time/typed.ts';
import { localDayNumber, minuteToIso } from '../../app/time/zone.ts';
import { formatMetric, type Measure } from '../../app/units/convert.ts';
import { COUNTRIES, formatsOf, wordedAs } from '../../app/units/formats.ts';
import { readQuantity } from '../../app/units/read.ts';
import { exact, money } from '../../app/units/words.ts';
import { clockOrDay } from '../../renderer/words/floor.ts';
import { forAll, tally } from '../support/draws.ts';

const ZONES = ['Europe/Lisbon', 'America/New_York', 'Asia/Kolkata', 'Australia/Lord_Howe', 'UTC'];
const country = fc.constantFrom(...COUNTRIES);
const place = fc.record({
  country,
  clock: fc.constantFrom(undefined, '12' as const, '24' as const),
});
/** 2000 to 2099. */
const minute = fc.integer({ min: 15_778_080, max: 68_374_079 });

/** Hour, half of the day, day and month as the runtime's own Intl has them. */
function byIntl(at: number, zone: string, hourCycle: 'h12' | 'h23') {
  const parts = new Intl.DateTimeFormat('en-US', {
    ...{ timeZone: zone, hourCycle, calendar: 'gregory' },
    ...{ weekday: 'short', day: 'numeric', month: 'short', hour: 'numeric', minute: '2-digit' },
  }).formatToParts(at * 60_000);
  return Object.fromEntries(parts.map(({ type, value }) => [type, value]));
}

describe('a moment', () => {
  it('is worded with its hour and its day in every place', () => {
    const seen = tally('12 hours', '24 hours', 'month first', 'day first', 'noon', 'midnight');
    forAll(
      fc.property(place, minute, fc.constantFrom(...ZONES), (where, at, zone) => {
        const own = formatsOf(where);
        const intl = byIntl(at, zone, own.clock === 12 ? 'h12' : 'h23');
        const time =
          own.clock === 12
            ? `${intl['hour']}:${intl['minute']} ${intl['dayPeriod']!.toLowerCase()}`
            : `${intl['hour']!.padStart(2, '0')}:${intl['minute']}`;
        const day = own.monthFirst
          ? `${intl['month']} ${intl['day']}`
          : `${intl['day']} ${intl['month']}`;
        const iso = minuteToIso(at, zone);
        wordedAs(own, () => {
          expect(dayClock(iso)).toBe(`${intl['weekday']} ${day} ${time}`);
          expect(dayAndTime(at, zone).endsWith(`, ${time}`)).toBe(true);
          expect(dayAndTime(at, zone)).toContain(
            own.monthFirst ? ` ${intl['day']},` : intl['month']!,
          );
          expect(shortAt(at, zone)).toBe(`${intl['weekday']} ${intl['day']} ${time}`);
          expect(clockOrDay(at, at, zone)).toBe(time);
          expect(clockOrDay(at, at + 3 * 1440, zone)).toBe(`${time}, ${day}`);
          expect(dayClock(iso)).not.toMatch(/[\u202f\u00a0]/);
        });
        seen.saw(own.clock === 12 ? '12 hours' : '24 hours');
        seen.saw(own.monthFirst ? 'month first' : 'day first');
        if (own.clock === 12 && intl['hour'] === '12')
          seen.saw(intl['dayPeriod'] === 'AM' ? 'midnight' : 'noon');
      }),
      { seed: 41, numRuns: 1500, seen, least: 5 },
    );
  });

  it('can be typed back as it is shown', () => {
    const seen = tally('12 hours', 'month first');
    forAll(
      fc.property(place, minute, fc.constantFrom(...ZONES), (where, at, zone) => {
        const iso = minuteToIso(at, zone);
        const own = formatsOf(where);
        const read = wordedAs(own, () => readMoment(fullMoment(iso), localDayNumber(at, zone)));
        expect(read).toEqual({ ok: true, day: iso.slice(0, 10), time: iso.slice(11, 16) });
        if (own.clock === 12) seen.saw('12 hours');
        if (own.monthFirst) seen.saw('month first');
      }),
      { seed: 42, numRuns: 400, seen, least: 20 },
    );
  });

  it('as working hours can be typed back as they are shown', () => {
    const seen = tally('to midnight', '12 hours');
    const hour = fc.integer({ min: 0, max: 24 });
    forAll(
      fc.property(place, hour, hour, (where, one, other) => {
        fc.pre(one !== other);
        const at = (h: number) => `${String(h).padStart(2, '0')}:00`;
        const spans = [[at(Math.min(one, other)), at(Math.max(one, other))]] as [string, string][];
        const own = formatsOf(where);
        wordedAs(own, () => expect(readSpans(formatSpans(spans))).toEqual({ ok: true, spans }));
        if (own.clock === 12) seen.saw('12 hours');
        if (spans[0]![1] === '24:00') seen.saw('to midnight');
      }),
      { seed: 43, numRuns: 400, seen, least: 10 },
    );
  });
});

describe('a number', () => {
  it('with its unit can be typed back as it is shown', () => {
    const seen = tally('comma', 'point', 'three decimals');
    const measures: Measure[] = ['massKg', 'lengthM', 'areaM2', 'hours'];
    forAll(
      fc.property(place, fc.constantFrom(...measures), fc.nat(2_000_000), (where, measure, nat) => {
        const value = nat / 1000;
        const own = formatsOf(where);
        wordedAs(own, () => {
          for (const text of [formatMetric(value, measure), exact(value)]) {
            const read = readQuantity(text, measure);
            const shown = Number(/^[\d.,]+/.exec(text)![0].replace(',', '.'));
            expect(read).toEqual({ ok: true, value: shown });
          }
        });
        seen.saw(own.decimal === ',' ? 'comma' : 'point');
        if (nat % 10 !== 0) seen.saw('three decimals');
      }),
      { seed: 44, numRuns: 400, seen, least: 20 },
    );
  });

  it('with the mark of thousands of the place and three figures behind it is asked back', () => {
    const read = (country: string, typed: string) =>
      wordedAs(formatsOf({ country }), () => readQuantity(typed, 'massKg'));
    const asked = (country: string, typed: string) => {
      const reading = read(country, typed);
      return reading.ok ? null : reading.choices!.map(({ value }) => value);
    };
    expect(asked('US', '1,234')).toEqual([1234, 1.234]);
    expect(asked('DE', '1.234')).toEqual([1234, 1.234]);
    expect(read('DE', '1,234')).toEqual({ ok: true, value: 1.234 });
    expect(read('DE', '0.234')).toEqual({ ok: true, value: 0.234 });
    expect(read('DE', '1.234,5')).toEqual({ ok: true, value: 1234.5 });
    expect(read('US', '1,234.5')).toEqual({ ok: true, value: 1234.5 });
  });
});

/** A language of each country; en where several are spoken and the trade writes English. */
const LANGUAGES: Readonly<Record<string, string>> = {
  ...{ AR: 'es', AT: 'de', AU: 'en', BE: 'nl', BG: 'bg', BR: 'pt', CA: 'en', CH: 'de', CL: 'es' },
  ...{ CN: 'zh', CY: 'el', CZ: 'cs', DE: 'de', DK: 'da', EE: 'et', ES: 'es', FI: 'fi', FR: 'fr' },
  ...{ GB: 'en', GR: 'el', HR: 'hr', HU: 'hu', ID: 'id', IE: 'en', IN: 'en', IS: 'is', IT: 'it' },
  ...{ JP: 'ja', KR: 'ko', LI: 'de', LT: 'lt', LU: 'fr', LV: 'lv', MT: 'en', MX: 'es', NL: 'nl' },
  ...{ NO: 'nb', NZ: 'en', PH: 'en', PL: 'pl', PT: 'pt', RO: 'ro', RS: 'sr', SE: 'sv', SG: 'en' },
  ...{ SI: 'sl', SK: 'sk', TH: 'th', TR: 'tr', TW: 'zh', UA: 'uk', US: 'en', UY: 'es', VN: 'vi' },
  ZA: 'en',
};

describe('the countries', () => {
  it('write as the runtime’s locale data has it, in sign and order', () => {
    const differ = COUNTRIES.flatMap((code) => {
      const locale = `${LANGUAGES[code]}-${code}`;
      const parts = new Intl.NumberFormat(locale, { numberingSystem: 'latn' }).formatToParts(
        1234.5,
      );
      const decimal = parts.find(({ type }) => type === 'decimal')!.value;
      const order = new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'long' })
        .formatToParts(0)
        .flatMap(({ type }) => (type === 'day' || type === 'month' ? [type] : []));
      const own = formatsOf({ country: code });
      return [
        ...(own.decimal === decimal ? [] : [`${code} decimal`]),
        ...(own.monthFirst === (order[0] === 'month') ? [] : [`${code} order`]),
      ];
    });
    expect(differ).toEqual([]);
  });

  it('write a sum with their own signs', () => {
    const sum = (country: string | undefined, currency: string) =>
      wordedAs(formatsOf({ country }), () => money(124_050, currency));
    expect(sum(undefined, 'USD')).toBe('US$1,240.50');
    expect(sum('US', 'USD')).toBe('$1,240.50');
    expect(sum('DE', 'EUR')).toBe('€1 240,50');
    expect(sum('CH', 'EUR')).toBe("€1'240.50");
  });
});
