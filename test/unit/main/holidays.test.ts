/** Public holidays by country and region against dates that law and almanac give. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot } from '../../../main/root.ts';
import { ask, scratchSession, tell } from './fixtures.ts';

const installed = JSON.parse(readFileSync(join(projectRoot(), 'package.json'), 'utf8')) as {
  readonly dependencies: Readonly<Record<string, string>>;
};

const list = (country: string, region: string | null, from: string, to: string) =>
  tell(scratchSession(), 'holiday-list', { country, region, from, to });

describe('public holidays', () => {
  it('of Portugal in the spring of 2027 (Easter Sunday is 28 March)', async () => {
    // From memory: the days of the Portuguese labour code, art. 234; Easter by the Gregorian computus.
    const days = await list('PT', null, '2027-03-01', '2027-06-30');
    expect(days.map(({ date }) => date)).toEqual([
      '2027-03-26',
      '2027-03-28',
      '2027-04-25',
      '2027-05-01',
      '2027-05-27',
      '2027-06-10',
    ]);
  });

  it('of a region are those of the country and its own', async () => {
    // From memory: Bavaria keeps Epiphany, Berlin does not.
    const january = ['2027-01-01', '2027-01-31'] as const;
    expect((await list('DE', 'BY', ...january)).map(({ date }) => date)).toEqual([
      '2027-01-01',
      '2027-01-06',
    ]);
    expect((await list('DE', 'BE', ...january)).map(({ date }) => date)).toEqual(['2027-01-01']);
  });

  it('of several days are all of them, each once and inside the span', async () => {
    const days = await list('AE', null, '2027-03-01', '2027-03-31');
    expect(days.length).toBeGreaterThan(1);
    expect(new Set(days.map(({ date }) => date)).size).toBe(days.length);
    expect(days.every(({ date }) => date.startsWith('2027-03'))).toBe(true);
  });

  it('countries and regions are told by name, with whom the days are from', async () => {
    const places = await tell(scratchSession(), 'holiday-places', { country: 'DE' });
    expect(places.countries.length).toBeGreaterThan(100);
    expect(places.countries).toContainEqual({ code: 'PT', name: 'Portugal' });
    expect(places.regions.map(({ code }) => code)).toEqual(expect.arrayContaining(['BY', 'BY.A']));
    expect(places.source).toContain('CC BY-SA');
    expect(places.source).toContain(installed.dependencies['date-holidays']);
  });

  it.each([
    ['XX', null, '2027-12-31', 'There are no public holidays of XX here.'],
    ['DE', 'QQ', '2027-12-31', 'DE has no region QQ.'],
    ['DE', null, '2077-12-31', '2027-01-01 to 2077-12-31: ask for at most 12 years at once.'],
  ])('%s %s to %s is refused in words', async (country, region, to, detail) => {
    const asked = { country, region, from: '2027-01-01', to };
    expect(await ask(scratchSession(), 'holiday-list', asked)).toEqual({
      ok: false,
      code: 'refused',
      detail,
    });
  });
});
